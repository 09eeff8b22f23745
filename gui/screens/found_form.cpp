// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/found_form.h"

#include <QBoxLayout>
#include <QComboBox>
#include <QDateEdit>
#include <QFileDialog>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalBlocker>
#include <algorithm>
#include <set>

#include "core/tasks/reach.h"
#include "gui/prompts/prompts.h"
#include "gui/screens/point_table.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/wrap_row.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/days.h"
#include "gui/words/words.h"
#include "importers/found_file.h"

namespace spanwright {
namespace {

/// Without the empty lines at the end, which a table always has.
std::vector<TypedPoint> withoutTail(std::vector<TypedPoint> points) {
  while (!points.empty() && points.back().empty()) {
    points.pop_back();
  }
  return points;
}

}  // namespace

FoundForm::FoundForm(QWidget* parent)
    : QWidget(parent),
      day_(new QDateEdit(this)),
      certificate_(new QComboBox(this)),
      lastGood_(new QComboBox(this)),
      factor_(new QLineEdit(this)),
      remark_(new QLineEdit(this)),
      table_(new PointTable(this)),
      whole_(new RefusalLine(this)) {
  day_->setCalendarPopup(true);
  day_->setDisplayFormat(typedDateForm());
  certificate_->setEditable(true);
  certificate_->setInsertPolicy(QComboBox::NoInsert);
  // Made after the table, it would lead Tab from there back to its box.
  certificate_->lineEdit()->setFocusPolicy(Qt::ClickFocus);
  auto* row = new QBoxLayout(
      sideBySide() == Qt::Horizontal ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom, this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(24);
  row->addWidget(makeFields(), 4);
  row->addWidget(makeTable(), 6);
  connect(certificate_, &QComboBox::activated, this, &FoundForm::takeCertificate);
  connect(certificate_, &QComboBox::editTextChanged, this, &FoundForm::showCandidates);
  connect(day_, &QDateEdit::dateChanged, this, &FoundForm::showCandidates);
  setFocusProxy(certificate_);
}

void FoundForm::addField(QGridLayout* grid, const QString& label, QWidget* field,
                         std::optional<FindingField> where) {
  const int row = grid->rowCount();
  auto* text = new QLabel(label, this);
  text->setBuddy(field);
  field->setAccessibleName(QString(label).remove(u'&'));
  grid->addWidget(text, row, 0);
  grid->addWidget(field, row, 1);
  if (where) {
    lines_[*where] = new RefusalLine(this);
    grid->addWidget(lines_[*where], row + 1, 1);
  }
}

QWidget* FoundForm::makeFields() {
  auto* side = new QWidget(this);
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(12);
  grid->setVerticalSpacing(6);
  grid->setColumnStretch(1, 1);
  addField(grid, tr("&Certificate that reports it"), certificate_, {});
  addField(grid, tr("&Day it was found"), day_, FindingField::foundOn);
  addField(grid, tr("Coverage &factor k"), factor_, FindingField::coverageFactor);
  addField(grid, tr("R&emark"), remark_, {});
  addField(grid, tr("&Last good certificate"), lastGood_, FindingField::lastGood);
  auto* help = new QLabel(
      tr("Choose one of its certificates and its values are taken over, or type number and values of one "
         "that is not in the register. The values are those from before it was adjusted.\n\nWithout a choice "
         "the last good certificate is the newest that does not show yet what was found."),
      side);
  help->setWordWrap(true);
  auto* file = new QPushButton(tr("&Open file…"), side);
  file->setToolTip(tr("A finding in TOML, as the command \"reach\" reads it"));
  auto* show = new QPushButton(tr("&Show what it reached"), side);
  show->setDefault(true);
  auto* buttons = new WrapRow;
  buttons->setSpacing(10);
  buttons->addWidget(show);
  buttons->addWidget(file);
  buttons->addStretch();
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(12);
  column->addLayout(grid);
  column->addWidget(help);
  column->addLayout(buttons);
  column->addWidget(whole_);
  column->addStretch();
  connect(file, &QPushButton::clicked, this, &FoundForm::askFile);
  connect(show, &QPushButton::clicked, this, &FoundForm::asked);
  return side;
}

QWidget* FoundForm::makeTable() {
  auto* side = new QWidget(this);
  table_->setAccessibleName(tr("Values found"));
  auto* label = new QLabel(tr("Val&ues found: type them, or copy a table and press Ctrl+V"), side);
  label->setBuddy(table_);
  auto* help = new QLabel(
      tr("An empty unit or resolution is that of the line above. Errors are indication minus true value; an "
         "uncertainty may be left out."),
      side);
  help->setWordWrap(true);
  lines_[FindingField::points] = new RefusalLine(side);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(8);
  column->addWidget(label);
  column->addWidget(table_, 1);
  column->addWidget(lines_[FindingField::points]);
  column->addWidget(help);
  return side;
}

void FoundForm::setStandard(const Standard& standard) {
  standard_ = standard;
  const QSignalBlocker quiet(certificate_);
  const QString before = certificate_->currentText();
  certificate_->clear();
  for (auto each = standard.certificates.rbegin(); each != standard.certificates.rend(); ++each) {
    certificate_->addItem(fromCore(each->number));
    certificate_->setItemData(certificate_->count() - 1, tr("issued %1").arg(shownDate(each->issued)),
                              Qt::ToolTipRole);
  }
  certificate_->setCurrentIndex(certificate_->findText(before));
  certificate_->setEditText(before);
  showCandidates();
}

void FoundForm::fill(const TypedFinding& typed) {
  clearTrouble();
  {
    const QSignalBlocker quiet[] = {QSignalBlocker(certificate_), QSignalBlocker(day_),
                                    QSignalBlocker(lastGood_)};
    certificate_->setCurrentIndex(certificate_->findText(fromCore(typed.certificate)));
    certificate_->setEditText(fromCore(typed.certificate));
    day_->setDate({typed.foundOn.year(), typed.foundOn.month(), typed.foundOn.day()});
    lastGood_->clear();
    lastGood_->addItem(fromCore(typed.lastGood), fromCore(typed.lastGood));
  }
  factor_->setText(fromCore(typed.coverageFactor));
  remark_->setText(fromCore(typed.remark));
  table_->setPoints(typed.points);
  taken_ = withoutTail(typed.points);
  showCandidates();
}

void FoundForm::showCandidates() {
  const QSignalBlocker quiet(lastGood_);
  const QString before = lastGood_->currentData().toString();
  lastGood_->clear();
  lastGood_->addItem(tr("as the program decides"), QString());
  FoundErrors found;
  found.foundOn = fromQt(day_->date());
  found.certificate = toCore(certificate_->currentText().trimmed());
  for (const StandardCertificate* each : lastGoodCandidates(standard_, found)) {
    lastGood_->addItem(tr("%1, issued %2").arg(fromCore(each->number), shownDate(each->issued)),
                       fromCore(each->number));
  }
  // One that can no longer be it stays chosen: it is refused, not changed behind the person's back.
  if (lastGood_->findData(before) < 0) {
    lastGood_->addItem(before, before);
  }
  lastGood_->setCurrentIndex(lastGood_->findData(before));
}

void FoundForm::takeCertificate() {
  const std::string number = toCore(certificate_->currentText());
  const auto found = std::find_if(standard_.certificates.begin(), standard_.certificates.end(),
                                  [&number](const auto& each) { return each.number == number; });
  if (found == standard_.certificates.end()) {
    return;
  }
  const auto now = withoutTail(table_->points());
  if (!now.empty() && now != taken_ &&
      !ask(
          this,
          {tr("Take the certificate's values"),
           tr("The values typed in the table are replaced by those of certificate %1.").arg(fromCore(number)),
           tr("Replace them"), tr("Keep what is typed")})) {
    return;
  }
  TypedFinding taken = typedFinding(findingOf(*found));
  taken.remark = toCore(remark_->text());
  taken.lastGood = toCore(lastGood_->currentData().toString());
  fill(taken);
}

TypedFinding FoundForm::typed() const {
  return {fromQt(day_->date()),
          toCore(certificate_->currentText().trimmed()),
          toCore(lastGood_->currentData().toString()),
          toCore(remark_->text()),
          toCore(factor_->text()),
          withoutTail(table_->points())};
}

std::optional<FoundErrors> FoundForm::read() {
  clearTrouble();
  auto read = readFinding(standard_, typed());
  if (auto* found = std::get_if<FoundErrors>(&read)) {
    return std::move(*found);
  }
  const auto& problems = std::get<std::vector<FindingProblem>>(read);
  std::set<FindingField> said;
  for (const FindingProblem& each : problems) {
    if (said.insert(each.field).second) {
      sayAt(each);
    }
  }
  switch (problems.front().field) {
    case FindingField::foundOn:
      day_->setFocus();
      break;
    case FindingField::lastGood:
      lastGood_->setFocus();
      break;
    case FindingField::coverageFactor:
      factor_->setFocus();
      break;
    case FindingField::points:
      table_->setFocus();
      break;
  }
  return std::nullopt;
}

void FoundForm::sayAt(const FindingProblem& wrong) {
  const Problem& problem = wrong.problem;
  Problem placeless = problem;  // the place is shown, not told
  placeless.where = {};
  const QString sentence = problemSentence(placeless);
  if (wrong.field != FindingField::points || problem.where.line == 0) {
    lines_.at(wrong.field)->say(sentence);
    return;
  }
  lines_.at(wrong.field)->say(tr("Line %1: %2").arg(problem.where.line).arg(sentence));
  table_->setCurrentCell(problem.where.line - 1, std::max(0, problem.where.column - 1));
}

void FoundForm::askFile() {
  const QString file = QFileDialog::getOpenFileName(this, tr("What was found"), kLastFolder.get(),
                                                    tr("Findings (*.toml);;All files (*)"));
  if (!file.isEmpty()) {
    openFile(file);
  }
}

void FoundForm::openFile(const QString& file) {
  try {
    fill(typedFinding(readFoundFile(file.toStdString())));
  } catch (const InputError& refused) {
    say(problemSentences(refused));
  } catch (const std::exception& error) {
    say(asSentence(QString::fromUtf8(error.what())));
  }
}

void FoundForm::clearTrouble() {
  whole_->say({});
  for (const auto& [field, line] : lines_) {
    line->say({});
  }
}

void FoundForm::say(const QString& sentence) {
  whole_->say(sentence);
}

QString FoundForm::trouble() const {
  QStringList said;
  for (const auto& [field, line] : lines_) {
    said << line->sentence();
  }
  said << whole_->sentence();
  said.removeAll(QString());
  return said.join(u' ');
}

}  // namespace spanwright
