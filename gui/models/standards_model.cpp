// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/standards_model.h"

#include "gui/words/standard_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QVariant dayKey(const std::optional<Date>& day) {
  return day ? QVariant(static_cast<int>(day->julian_day())) : QVariant(-1);
}

QString rangeText(const CertificateRange& range) {
  const QString from = shownShort(range.points.front().nominal);
  const QString to = shownShort(range.points.back().nominal);
  return StandardCertificatesModel::tr("%1 to %2 %3 (%4)")
      .arg(from, to, shownUnit(range.unit),
           counted(static_cast<int>(range.points.size()), StandardCertificatesModel::tr("1 point"),
                   StandardCertificatesModel::tr("%1 points")));
}

QString rangesText(const StandardCertificate& certificate) {
  QStringList texts;
  for (const CertificateRange& range : certificate.ranges) {
    if (!range.points.empty()) {
      texts << rangeText(range);
    }
  }
  return texts.join(QStringLiteral("; "));
}

std::vector<StandardsModel::Column> standardColumns() {
  using Column = StandardsModel::Column;
  using Row = StandardRow;
  return {
      {StandardsModel::tr("Standard"), [](const Row& r) { return fromCore(r.standard.serial); }},
      Column{StandardsModel::tr("State"), [](const Row& r) { return word(r.state); },
             [](const Row& r) { return QVariant(static_cast<int>(r.state)); },
             [](const Row& r) { return iconOf(r.state); }}
          .about(Explained::standardUse),
      Column{StandardsModel::tr("Certificate runs"),
             [](const Row& r) { return shownDaysLeft(r.lastDay, r.daysLeft); },
             [](const Row& r) { return r.lastDay ? QVariant(r.daysLeft) : QVariant(-1000000); }}
          .about(Explained::standardUse),
      {StandardsModel::tr("What"),
       [](const Row& r) {
         return fromCore(r.standard.description.empty() ? r.standard.model : r.standard.description);
       }},
      Column{StandardsModel::tr("Last day"),
             [](const Row& r) { return r.lastDay ? shownDate(*r.lastDay) : QString(); },
             [](const Row& r) { return dayKey(r.lastDay); }}
          .about(Explained::standardUse),
      {StandardsModel::tr("Certificate"), [](const Row& r) { return r.certificate; }},
      {StandardsModel::tr("Where"), [](const Row& r) { return fromCore(r.standard.location); }},
  };
}

std::vector<StandardCertificatesModel::Column> certificateColumns() {
  using Row = StandardCertificate;
  return {
      {StandardCertificatesModel::tr("Number"), [](const Row& r) { return fromCore(r.number); }},
      {StandardCertificatesModel::tr("Valid from"), [](const Row& r) { return shownDate(r.validFrom); },
       [](const Row& r) { return dayKey(r.validFrom); }},
      {StandardCertificatesModel::tr("Until"), [](const Row& r) { return shownDate(r.validUntil); },
       [](const Row& r) { return dayKey(r.validUntil); }},
      {StandardCertificatesModel::tr("Issued"), [](const Row& r) { return shownDate(r.issued); },
       [](const Row& r) { return dayKey(r.issued); }},
      {StandardCertificatesModel::tr("k"),
       [](const Row& r) { return shownShort(r.coverageFactor); },
       {},
       {},
       true},
      {StandardCertificatesModel::tr("Ranges"), rangesText},
      {StandardCertificatesModel::tr("By"), [](const Row& r) { return fromCore(r.issuer); }},
  };
}

std::vector<StandardEventsModel::Column> eventColumns() {
  using Row = StandardEvent;
  return {
      {StandardEventsModel::tr("Decided"),
       [](const Row& r) { return word(r.act); },
       {},
       [](const Row& r) {
         return iconOf(r.act == StandardAct::outOfService ? StandardState::outOfService
                       : r.act == StandardAct::useAllowed ? StandardState::useAllowed
                                                          : StandardState::valid);
       }},
      {StandardEventsModel::tr("From"), [](const Row& r) { return shownDate(r.firstDay); }},
      {StandardEventsModel::tr("To"), [](const Row& r) { return shownDate(r.lastDay); }},
      {StandardEventsModel::tr("By"), [](const Row& r) { return fromCore(r.person); }},
      {StandardEventsModel::tr("Signed"),
       [](const Row& r) { return StandardEventsModel::tr("%1 UTC").arg(shownMoment(r.atUtc)); }},
      {StandardEventsModel::tr("Reason"), [](const Row& r) { return fromCore(r.reason); }},
  };
}

}  // namespace

StandardsModel::StandardsModel(QObject* parent) : RowsModel(standardColumns(), parent) {}
StandardCertificatesModel::StandardCertificatesModel(QObject* parent)
    : RowsModel(certificateColumns(), parent) {}
StandardEventsModel::StandardEventsModel(QObject* parent) : RowsModel(eventColumns(), parent) {}

std::vector<StandardRow> standardRows(const Register& site, Date day) {
  std::vector<StandardRow> rows;
  for (const StandardStatus& status : standardsOn(site, day)) {
    rows.push_back({*status.standard, status.state, status.lastDay, status.daysLeft,
                    status.certificate != nullptr ? fromCore(status.certificate->number) : QString()});
  }
  return rows;
}

}  // namespace spanwright
