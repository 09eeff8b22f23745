// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/forms/form_dialog.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "gui/screens/refusal_line.h"
#include "gui/words/days.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kFieldWidth = 250;
constexpr int kShortWidth = 84;
constexpr int kLinesHeight = 58;
constexpr int kLabelDrop = 5;  // to the line of the text beside it

/// Numbers stand as the language writes them; core reads both signs.
QString shownNumbers(QString text) {
  return text.replace(u'.', QLocale().decimalPoint());
}

}  // namespace

FormDialog::FormDialog(const QString& title, const QString& acceptText, QWidget* parent)
    : QDialog(parent), refusal_(new RefusalLine(this)), buttons_(new QDialogButtonBox(this)) {
  setWindowTitle(title);
  auto* whole = new QVBoxLayout(this);
  whole->setSpacing(10);
  columns_ = new QHBoxLayout;
  columns_->setSpacing(28);
  whole->addLayout(columns_);
  whole->addStretch(1);
  whole->addWidget(refusal_);
  whole->addWidget(buttons_);
  auto* accept = buttons_->addButton(acceptText, QDialogButtonBox::AcceptRole);
  accept->setDefault(true);
  buttons_->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  connect(buttons_, &QDialogButtonBox::accepted, this, &FormDialog::take);
  connect(buttons_, &QDialogButtonBox::rejected, this, &QDialog::reject);
  nextColumn();
}

void FormDialog::nextColumn() {
  auto* column = new QVBoxLayout;
  grid_ = new QGridLayout;
  grid_->setHorizontalSpacing(12);
  grid_->setVerticalSpacing(6);
  grid_->setColumnStretch(1, 1);
  column->addLayout(grid_);
  column->addStretch(1);
  columns_->addLayout(column, 1);
}

FormDialog::Row& FormDialog::addRow(const std::string& field, const QString& label) {
  Row& row = rows_[field];
  row.label = new QLabel(label, this);
  row.label->setContentsMargins(0, kLabelDrop, 0, 0);
  row.content = new QWidget(this);
  row.line = new QHBoxLayout(row.content);
  row.line->setContentsMargins(0, 0, 0, 0);
  row.line->setSpacing(6);
  row.refusal = new RefusalLine(this);
  const int at = grid_->rowCount();
  grid_->addWidget(row.label, at, 0, Qt::AlignTop);
  grid_->addWidget(row.content, at, 1);
  grid_->addWidget(row.refusal, at + 1, 1);
  return row;
}

void FormDialog::put(const std::string& row, const std::string& field, QWidget* widget, Form form,
                     const QString& name) {
  Row& into = rows_.at(row);
  fields_[field] = {widget, form, row};
  widget->setAccessibleName(QString(name).remove(u'&'));
  if (into.first == nullptr) {
    into.first = widget;
    into.label->setBuddy(widget);
  }
  // What was wrong with a row is not held against it once it is typed anew.
  const auto typed = [this, refusal = into.refusal] {
    refusal->say({});
    emit edited();
  };
  if (auto* line = qobject_cast<QLineEdit*>(widget)) {
    connect(line, &QLineEdit::textChanged, this, typed);
  } else if (auto* lines = qobject_cast<QPlainTextEdit*>(widget)) {
    connect(lines, &QPlainTextEdit::textChanged, this, typed);
  } else if (auto* check = qobject_cast<QCheckBox*>(widget)) {
    connect(check, &QCheckBox::toggled, this, typed);
  } else if (auto* moment = qobject_cast<QDateTimeEdit*>(widget)) {
    connect(moment, &QDateTimeEdit::dateTimeChanged, this, typed);
  } else if (auto* box = qobject_cast<QComboBox*>(widget)) {
    connect(box, &QComboBox::currentTextChanged, this, typed);
  }
}

QLineEdit* FormDialog::addLine(const std::string& field, const QString& label, const QString& placeholder) {
  Row& row = addRow(field, label);
  auto* line = new QLineEdit(this);
  line->setMinimumWidth(kFieldWidth);
  line->setPlaceholderText(placeholder);
  row.line->addWidget(line, 1);
  put(field, field, line, Form::text, label);
  return line;
}

QLineEdit* FormDialog::addNumber(const std::string& field, const QString& label, const QString& placeholder) {
  auto* line = addLine(field, label, placeholder);
  fields_.at(field).form = Form::number;
  return line;
}

void FormDialog::addLines(const std::string& field, const QString& label, const QString& placeholder) {
  Row& row = addRow(field, label);
  auto* text = new QPlainTextEdit(this);
  text->setTabChangesFocus(true);
  text->setPlaceholderText(placeholder);
  text->setFixedHeight(kLinesHeight);
  text->setMinimumWidth(kFieldWidth);
  row.line->addWidget(text, 1);
  put(field, field, text, Form::lines, label);
}

QComboBox* FormDialog::addChoice(const std::string& field, const QString& label,
                                 const std::vector<Option>& options) {
  auto* box = new QComboBox(this);
  for (const Option& each : options) {
    box->addItem(each.text, fromCore(each.word));
  }
  addBox(field, label, box);
  return box;
}

void FormDialog::addBox(const std::string& field, const QString& label, QComboBox* box) {
  addRow(field, label).line->addWidget(box, 1);
  put(field, field, box, Form::choice, label);
}

void FormDialog::addCheck(const std::string& field, const QString& text) {
  Row& row = addRow(field, {});
  auto* box = new QCheckBox(text, this);
  row.line->addWidget(box, 1);
  put(field, field, box, Form::check, text);
}

void FormDialog::addChecks(const std::string& field, const QString& label, const std::vector<Part>& parts) {
  Row& row = addRow(field, label);
  for (const Part& part : parts) {
    auto* box = new QCheckBox(part.label, this);
    row.line->addWidget(box);
    put(field, part.field, box, Form::check, part.label);
  }
  row.line->addStretch(1);
}

void FormDialog::addNumbers(const std::string& field, const QString& label, const std::vector<Part>& parts) {
  Row& row = addRow(field, label);
  for (const Part& part : parts) {
    auto* line = new QLineEdit(this);
    line->setMinimumWidth(kShortWidth);
    line->setPlaceholderText(part.label);
    line->setToolTip(part.label);
    row.line->addWidget(line, 1);
    put(field, part.field, line, Form::number,
        QString(label).remove(u'&') + QStringLiteral(", ") + part.label);
  }
}

void FormDialog::addSpan(const std::string& field, const QString& label, const QStringList& units) {
  Row& row = addRow(field, label);
  const QString plain = QString(label).remove(u'&');
  const auto end = [&](const char* part, const QString& name) {
    auto* line = new QLineEdit(this);
    line->setMinimumWidth(kShortWidth);
    row.line->addWidget(line, 1);
    put(field, field + part, line, Form::number, name.arg(plain));
  };
  end(".low", tr("%1, low end"));
  row.line->addWidget(new QLabel(tr("to", "between the ends of a range"), this));
  end(".high", tr("%1, high end"));
  if (!units.isEmpty()) {
    auto* box = new QComboBox(this);
    box->setEditable(true);
    box->setInsertPolicy(QComboBox::NoInsert);
    box->addItems(units);
    box->setMinimumWidth(kShortWidth);
    row.line->addWidget(box);
    put(field, field + ".unit", box, Form::text, tr("%1, unit").arg(plain));
  }
}

void FormDialog::addMoment(const std::string& field, const QString& label, Moment preset) {
  Row& row = addRow(field, label);
  auto* moment = new QDateTimeEdit(toQt(preset), this);
  moment->setCalendarPopup(true);
  moment->setDisplayFormat(typedMomentForm());
  row.line->addWidget(moment, 1);
  put(field, field, moment, Form::moment, label);
}

void FormDialog::addBeside(const std::string& field, QWidget* beside) {
  rows_.at(field).line->addWidget(beside);
}

void FormDialog::addHeading(const QString& text) {
  auto* label = new QLabel(text, this);
  QFont font = label->font();
  font.setBold(true);
  label->setFont(font);
  grid_->addWidget(label, grid_->rowCount(), 0, 1, 2);
}

QLabel* FormDialog::addText() {
  auto* label = new QLabel(this);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  grid_->addWidget(label, grid_->rowCount(), 0, 1, 2);
  return label;
}

void FormDialog::addWidget(QWidget* widget) {
  grid_->addWidget(widget, grid_->rowCount(), 0, 1, 2);
}

void FormDialog::alias(const std::string& other, const std::string& field) {
  aliases_[other] = field;
}

void FormDialog::showRow(const std::string& field, bool shown) {
  const Row& row = rows_.at(field);
  row.label->setVisible(shown);
  row.content->setVisible(shown);
  if (!shown) {
    row.refusal->say({});
  }
}

void FormDialog::setReadOnly(const std::string& field) {
  QWidget* widget = fields_.at(field).widget;
  if (auto* line = qobject_cast<QLineEdit*>(widget)) {
    line->setReadOnly(true);
    line->setFocusPolicy(Qt::ClickFocus);
    line->setToolTip(tr("What tells it from others stays: signatures and certificates name it."));
  }
}

QString FormDialog::textOf(const Field& field) const {
  switch (field.form) {
    case Form::text:
    case Form::number:
      if (auto* box = qobject_cast<QComboBox*>(field.widget)) {
        return box->currentText();
      }
      return qobject_cast<QLineEdit*>(field.widget)->text();
    case Form::lines:
      return qobject_cast<QPlainTextEdit*>(field.widget)->toPlainText();
    case Form::choice:
      return qobject_cast<QComboBox*>(field.widget)->currentData().toString();
    case Form::check:
      return qobject_cast<QCheckBox*>(field.widget)->isChecked() ? QStringLiteral("yes") : QString();
    case Form::moment:
      break;
  }
  return qobject_cast<QDateTimeEdit*>(field.widget)->dateTime().toString(QStringLiteral("yyyy-MM-dd HH:mm"));
}

void FormDialog::setText(const Field& field, const QString& text) {
  switch (field.form) {
    case Form::text:
    case Form::number: {
      const QString shown = field.form == Form::number ? shownNumbers(text) : text;
      if (auto* box = qobject_cast<QComboBox*>(field.widget)) {
        const auto unit = parseUnit(toCore(text));
        box->setCurrentText(unit ? shownUnit(*unit) : text);
      } else {
        qobject_cast<QLineEdit*>(field.widget)->setText(shown);
      }
      break;
    }
    case Form::lines:
      qobject_cast<QPlainTextEdit*>(field.widget)->setPlainText(text);
      break;
    case Form::choice: {
      auto* box = qobject_cast<QComboBox*>(field.widget);
      if (const int at = box->findData(text); at >= 0) {
        box->setCurrentIndex(at);
      }
      break;
    }
    case Form::check:
      qobject_cast<QCheckBox*>(field.widget)->setChecked(text == QLatin1String("yes"));
      break;
    case Form::moment:
      break;
  }
}

TypedFields FormDialog::fields() const {
  TypedFields typed;
  for (const auto& [name, field] : fields_) {
    if (!rows_.at(field.row).content->isHidden()) {
      typed[name] = toCore(textOf(field));
    }
  }
  return typed;
}

void FormDialog::fill(const TypedFields& fields) {
  for (const auto& [name, text] : fields) {
    if (const auto field = fields_.find(name); field != fields_.end()) {
      setText(field->second, fromCore(text));
    }
  }
}

const std::string& FormDialog::rowOf(const std::string& field) const {
  if (const auto other = aliases_.find(field); other != aliases_.end()) {
    return other->second;
  }
  if (const auto known = fields_.find(field); known != fields_.end()) {
    return known->second.row;
  }
  return field;
}

void FormDialog::showProblems(const std::vector<Problem>& problems) {
  for (const auto& [name, row] : rows_) {
    row.refusal->say({});
  }
  QString rest;
  QWidget* first = nullptr;
  std::map<std::string, QString> sentences;
  for (const Problem& each : problems) {
    const auto row = rows_.find(rowOf(each.where.field));
    const bool here = row != rows_.end() && !row->second.content->isHidden();
    QString& into = here ? sentences[row->first] : rest;
    into += (into.isEmpty() ? QString() : QStringLiteral(" ")) + problemSentence(each);
    if (here && first == nullptr) {
      const auto field = fields_.find(each.where.field);
      first = field == fields_.end() ? row->second.first : field->second.widget;
    }
  }
  for (const auto& [name, sentence] : sentences) {
    rows_.at(name).refusal->say(sentence);
  }
  refusal_->say(rest);
  fit();
  if (first != nullptr) {
    first->setFocus(Qt::OtherFocusReason);
  }
}

void FormDialog::take() {
  try {
    const Saved done = save(fields());
    accept();
    emit saved(done.sentence, done.name);
  } catch (const InputError& refused) {
    showProblems(refused.problems());
  } catch (const std::exception& error) {
    showProblems({});
    refusal_->say(asSentence(QString::fromUtf8(error.what())));
    fit();
  }
}

void FormDialog::fit() {
  // Wrapped texts tell how high they are only once the widths are known.
  layout()->activate();
  const int needed =
      layout()->hasHeightForWidth() ? layout()->totalHeightForWidth(width()) : sizeHint().height();
  if (needed > height()) {
    resize(width(), needed);
  }
}

void FormDialog::showEvent(QShowEvent* event) {
  QDialog::showEvent(event);
  fit();
}

QString FormDialog::trouble(const std::string& field) const {
  const RefusalLine* line = refusal_;
  if (!field.empty()) {
    const auto row = rows_.find(rowOf(field));
    if (row == rows_.end()) {
      return {};
    }
    line = row->second.refusal;
  }
  return line->isHidden() ? QString() : line->sentence();
}

QWidget* FormDialog::widget(const std::string& field) const {
  const auto found = fields_.find(field);
  return found == fields_.end() ? nullptr : found->second.widget;
}

}  // namespace spanwright
