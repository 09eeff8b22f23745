// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was found of a standard: taken from one of its certificates, from a file, or typed.
#pragma once

#include <QWidget>
#include <map>
#include <optional>

#include "core/tasks/typed_finding.h"

class QComboBox;
class QDateEdit;
class QGridLayout;
class QLineEdit;

namespace spanwright {

class PointTable;
class RefusalLine;

class FoundForm : public QWidget {
  Q_OBJECT
 public:
  explicit FoundForm(QWidget* parent = nullptr);
  /// The standard as the register has it now; what is typed stays.
  void setStandard(const Standard& standard);
  void fill(const TypedFinding& typed);
  TypedFinding typed() const;
  /// The finding; nothing when something is wrong, which is then said at its field.
  std::optional<FoundErrors> read();
  /// Reads the file that the command reads.
  void openFile(const QString& file);
  /// About the whole; an empty sentence takes it away.
  void say(const QString& sentence);
  /// What is said last at a field, or about the whole; empty when nothing is.
  QString trouble() const;
  PointTable* table() const { return table_; }

 signals:
  /// What did it reach?
  void asked();

 private:
  QWidget* makeFields();
  QWidget* makeTable();
  void addField(QGridLayout* grid, const QString& label, QWidget* field, std::optional<FindingField> where);
  void showCandidates();
  void takeCertificate();
  void askFile();
  void clearTrouble();
  void sayAt(const FindingProblem& wrong);

  Standard standard_;
  std::vector<TypedPoint> taken_;  ///< what was not typed by hand
  QDateEdit* day_;
  QComboBox *certificate_, *lastGood_;
  QLineEdit *factor_, *remark_;
  PointTable* table_;
  RefusalLine* whole_;
  std::map<FindingField, RefusalLine*> lines_;
};

}  // namespace spanwright
