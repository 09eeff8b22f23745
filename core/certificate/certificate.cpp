// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/certificate.h"

#include <cassert>

#include "core/certificate/results.h"
#include "core/certificate/words.h"
#include "core/record/ruled_reading.h"

namespace spanwright {
namespace {

std::vector<const Reading*> pointersTo(const std::vector<Reading>& readings) {
  std::vector<const Reading*> pointers;
  pointers.reserve(readings.size());
  for (const Reading& reading : readings) {
    pointers.push_back(&reading);
  }
  return pointers;
}

void describeResults(Certificate& certificate, const CertificateSource& source) {
  const Calibration& calibration = *source.calibration;
  const PointModelPtr model = certificateModel(source);
  const DecisionRule* rule = ruleOf(source.plan, calibration);
  certificate.tables = resultTables(calibration, Phase::asFound, model.get(), rule);
  for (CertificateTable& table : resultTables(calibration, Phase::asLeft, model.get(), rule)) {
    certificate.tables.push_back(std::move(table));
  }
  certificate.foundConclusion =
      conclusion("As found", pointersTo(calibration.asFound), calibration.foundVerdict, rule);
  certificate.leftConclusion =
      conclusion("As left", pointersTo(calibration.standingAsLeft()), calibration.leftVerdict, rule) +
      (calibration.asLeft.empty() ? " (as found stands as left)" : "");
  certificate.adjustment = adjustmentText(calibration);
  certificate.charts = errorCharts(calibration);
}

std::vector<std::string> addressLines(const std::string& name, const std::vector<std::string>& address) {
  std::vector<std::string> lines;
  if (!name.empty()) {
    lines.push_back(name);
  }
  for (const std::string& line : address) {
    if (!line.empty()) {
      lines.push_back(line);
    }
  }
  return lines;
}

}  // namespace

Certificate describeCertificate(const CertificateSource& source) {
  assert(source.site != nullptr && source.channel != nullptr && source.calibration != nullptr);
  const SiteInfo& site = source.site->site;
  Certificate certificate;
  certificate.title = "Calibration certificate";
  certificate.number = source.number;
  certificate.revision = source.revision;
  certificate.mark = markText(source);
  certificate.issueDate = formatDate(source.issued);
  certificate.issuer = addressLines(site.issuer, site.issuerAddress);
  certificate.customer = addressLines(site.customer, {site.customerContact});
  certificate.placeOfWork = placeOfWorkText(source);
  certificate.item = itemTexts(source);
  certificate.setup = setupTexts(source);
  certificate.method = methodTexts(source);
  certificate.work = workTexts(source);
  certificate.conditions = conditionTexts(source);
  describeResults(certificate, source);
  certificate.standards = standardTexts(source);
  certificate.decision = decisionTexts(source);
  certificate.people = peopleTexts(source);
  certificate.signatures = signatureCaptions(source);
  certificate.record = recordTexts(source);
  certificate.anchor = source.anchor;
  certificate.deviations = deviationTexts(source);
  certificate.statements = statementTexts(source);
  certificate.programVersion = "Spanwright " SPANWRIGHT_VERSION;
  return certificate;
}

}  // namespace spanwright
