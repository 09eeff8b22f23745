// SPDX-License-Identifier: GPL-3.0-or-later
//
// A form over the fields of core/tasks/typed_fields.h: rows by field name, what core refuses shown under the
// field it names, and the first such field gone to. Enter saves, Escape leaves.
#pragma once

#include <QDialog>
#include <QStringList>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/tasks/typed_fields.h"

class QComboBox;
class QDialogButtonBox;
class QGridLayout;
class QHBoxLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace spanwright {

class RefusalLine;

class FormDialog : public QDialog {
  Q_OBJECT
 public:
  explicit FormDialog(const QString& title, const QString& acceptText, QWidget* parent = nullptr);

  /// What stands in the fields that are shown.
  TypedFields fields() const;
  void fill(const TypedFields& fields);
  /// Under their fields; those about no field of this form at the end.
  void showProblems(const std::vector<Problem>& problems);
  /// What is shown as wrong with a field, or at the end for an empty name; empty when nothing is.
  QString trouble(const std::string& field) const;
  /// The widget a field is typed into; nullptr when there is none.
  QWidget* widget(const std::string& field) const;

 signals:
  /// The form was taken; one sentence of what was done, and the name of what it is about.
  void saved(const QString& sentence, const QString& name);
  void edited();

 protected:
  void showEvent(QShowEvent* event) override;
  /// A word kept and the text shown for it.
  struct Option {
    std::string word;
    QString text;
  };
  struct Part {
    std::string field;
    QString label;  ///< before it, or the accessible name of a part that needs none
  };

  QLineEdit* addLine(const std::string& field, const QString& label, const QString& placeholder = {});
  QLineEdit* addNumber(const std::string& field, const QString& label, const QString& placeholder = {});
  void addLines(const std::string& field, const QString& label, const QString& placeholder = {});
  QComboBox* addChoice(const std::string& field, const QString& label, const std::vector<Option>& options);
  /// A box made elsewhere, whose items carry the words kept.
  void addBox(const std::string& field, const QString& label, QComboBox* box);
  void addCheck(const std::string& field, const QString& text);
  /// Several ticks in a row.
  void addChecks(const std::string& field, const QString& label, const std::vector<Part>& parts);
  /// Several short numbers in a row, under one name for what is wrong.
  void addNumbers(const std::string& field, const QString& label, const std::vector<Part>& parts);
  /// Low and high end and, unless it is fixed, the unit, with `units` to choose from.
  void addSpan(const std::string& field, const QString& label, const QStringList& units);
  /// A day with its time.
  void addMoment(const std::string& field, const QString& label, Moment preset);
  /// A box with something beside it, for instance a button.
  void addBeside(const std::string& field, QWidget* beside);
  void addHeading(const QString& text);
  /// A text over the whole width.
  QLabel* addText();
  void addWidget(QWidget* widget);
  /// What follows stands beside what is there.
  void nextColumn();
  /// Another name under which problems of that field come.
  void alias(const std::string& other, const std::string& field);
  void showRow(const std::string& field, bool shown);
  void setReadOnly(const std::string& field);
  /// Says what `save` answers; it throws InputError with what is wrong.
  struct Saved {
    QString sentence, name;
  };
  std::function<Saved(const TypedFields&)> save;
  void take();

 private:
  enum class Form { text, number, lines, choice, check, moment };
  struct Field {
    QWidget* widget = nullptr;
    Form form = Form::text;
    std::string row;
  };
  struct Row {
    QLabel* label = nullptr;
    QWidget* content = nullptr;  ///< with all of the row's fields
    QHBoxLayout* line = nullptr;
    QWidget* first = nullptr;
    RefusalLine* refusal = nullptr;
  };
  Row& addRow(const std::string& field, const QString& label);
  void put(const std::string& row, const std::string& field, QWidget* widget, Form form, const QString& name);
  QString textOf(const Field& field) const;
  void setText(const Field& field, const QString& text);
  /// As high as what it says needs.
  void fit();
  const std::string& rowOf(const std::string& field) const;

  QHBoxLayout* columns_;
  QGridLayout* grid_ = nullptr;
  std::map<std::string, Field> fields_;
  std::map<std::string, Row> rows_;
  std::map<std::string, std::string> aliases_;
  RefusalLine* refusal_;
  QDialogButtonBox* buttons_;
};

}  // namespace spanwright
