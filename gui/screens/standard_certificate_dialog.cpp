// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/standard_certificate_dialog.h"

#include <QComboBox>
#include <QDateEdit>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "gui/screens/point_table.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/signer_fields.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/days.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr QSize kSize{820, 600};

}  // namespace

StandardCertificateDialog::StandardCertificateDialog(Session& session, const QString& serial, QWidget* parent)
    : QDialog(parent),
      session_(session),
      serial_(serial),
      number_(new QLineEdit(this)),
      issuer_(new QLineEdit(this)),
      traceability_(new QLineEdit(this)),
      factor_(new QLineEdit(QStringLiteral("2"), this)),
      issued_(new QDateEdit(this)),
      from_(new QDateEdit(this)),
      until_(new QDateEdit(this)),
      person_(makePersonBox(session, tr("Entered by"), this)),
      table_(new PointTable(this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("New certificate of standard %1").arg(serial));
  resize(onScreen(scaled(kSize)));
  auto* grid = new QGridLayout(this);
  grid->setHorizontalSpacing(12);
  grid->setVerticalSpacing(6);
  grid->setColumnStretch(1, 1);
  grid->setColumnStretch(3, 1);
  const auto add = [grid, this](int row, int column, const QString& label, QWidget* field) {
    auto* text = new QLabel(label, this);
    text->setBuddy(field);
    field->setAccessibleName(QString(label).remove(u'&'));
    grid->addWidget(text, row, column);
    grid->addWidget(field, row, column + 1);
  };
  add(0, 0, tr("&Number"), number_);
  add(1, 0, tr("I&ssuer"), issuer_);
  add(2, 0, tr("&Traceability"), traceability_);
  add(3, 0, tr("&Coverage factor k"), factor_);
  add(0, 2, tr("Iss&ued"), issued_);
  add(1, 2, tr("Valid &from"), from_);
  add(2, 2, tr("Valid unti&l"), until_);
  add(3, 2, tr("&Entered by"), person_);
  traceability_->setPlaceholderText(tr("For instance: to the SI through ..."));
  const QDate today = toQt(session.today());
  for (QDateEdit* each : {issued_, from_, until_}) {
    each->setCalendarPopup(true);
    each->setDisplayFormat(typedDateForm());
    each->setDate(each == until_ ? today.addYears(1).addDays(-1) : today);
  }
  if (const Standard* standard = session.site().standard(toCore(serial));
      standard != nullptr && !standard->certificates.empty()) {
    issuer_->setText(fromCore(standard->certificates.back().issuer));
    traceability_->setText(fromCore(standard->certificates.back().traceability));
  }
  auto* help = new QLabel(
      tr("Points: type them, or copy the certificate's table and press Ctrl+V. An empty unit or resolution "
         "is that of the line above. Errors are indication minus true value; uncertainties are expanded "
         "with k."),
      this);
  help->setWordWrap(true);
  grid->addWidget(help, 4, 0, 1, 4);
  grid->addWidget(table_, 5, 0, 1, 4);
  grid->setRowStretch(5, 1);
  grid->addWidget(refusal_, 6, 0, 1, 4);
  auto* buttons = new QDialogButtonBox(this);
  buttons->addButton(tr("Add certificate"), QDialogButtonBox::AcceptRole)->setAutoDefault(false);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  grid->addWidget(buttons, 7, 0, 1, 4);
  connect(buttons, &QDialogButtonBox::accepted, this, &StandardCertificateDialog::add);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  number_->setFocus();
}

TypedCertificate StandardCertificateDialog::typed() const {
  return {toCore(number_->text()), toCore(issuer_->text()), toCore(traceability_->text()),
          fromQt(issued_->date()), fromQt(from_->date()),   fromQt(until_->date()),
          toCore(factor_->text()), table_->points()};
}

void StandardCertificateDialog::add() {
  QString wrong;
  try {
    addCertificate(session_.store(), toCore(serial_), typed(), toCore(person_->currentData().toString()));
  } catch (const InputError& refused) {
    // One at a time is enough to mend; a line of the table is gone to.
    const Problem& first = refused.problems().front();
    wrong = first.where.line > 0
                ? tr("Line %1: %2").arg(first.where.line).arg(problemSentence({{}, first.what, first.todo}))
                : problemSentence(first);
    if (refused.problems().size() > 1) {
      wrong += u' ' + counted(static_cast<int>(refused.problems().size()) - 1, tr("1 more is wrong."),
                              tr("%1 more are wrong."));
    }
    if (first.where.line > 0) {
      table_->setFocus();
      table_->setCurrentCell(first.where.line - 1, 0);
    }
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  if (!wrong.isEmpty()) {
    refusal_->say(wrong);
    return;
  }
  accept();
  emit added(tr("Certificate %1 of standard %2 is in the record.").arg(number_->text().trimmed(), serial_));
}

QString StandardCertificateDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
