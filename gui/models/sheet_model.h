// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entry sheet as a table over a VisitEntry. One row for each test point in the order done.
#pragma once

#include <QAbstractTableModel>
#include <QUndoStack>

#include "gui/models/sheet_edits.h"
#include "gui/models/visit_entry.h"
#include "gui/words/marks.h"

namespace spanwright {

class SheetModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Columns {
    kPoint,
    kApplied,
    kExpected,
    kPrevious,
    kFound,
    kFoundError,
    kFoundVerdict,
    kLeftApplied,
    kLeft,
    kLeftError,
    kLeftVerdict,
    kColumnCount
  };
  static constexpr int kMarkRole = Qt::UserRole + 20;  ///< int of Mark, for verdict columns
  static constexpr int kToneRole = Qt::UserRole + 21;  ///< int of Tone
  /// Error as a fraction of the limit on its side, with the error's sign; not there when nothing is judged.
  static constexpr int kFractionRole = Qt::UserRole + 22;
  /// One sentence when what was typed is not understood.
  static constexpr int kProblemRole = Qt::UserRole + 23;
  /// Why a reading is not judged, one sentence, for verdict columns.
  static constexpr int kNotJudgedRole = Qt::UserRole + 24;
  /// What is asked about a reading, one sentence; empty when nothing is.
  static constexpr int kDoubtRole = Qt::UserRole + 25;

  explicit SheetModel(VisitEntry& entry, QObject* parent = nullptr);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;

  /// True once for each value that is to be asked about; whoever goes on after that keeps it.
  bool askOnce(const QModelIndex& index);
  /// Takes the last step back, or makes it again; the cell it was about, invalid when there is none.
  QModelIndex undo();
  QModelIndex redo();
  /// Puts a column of values into this column, downwards from `first`, as one step; an empty line leaves its
  /// cell as it is. One sentence when it cannot be done; nothing was put in then.
  QString paste(const QModelIndex& first, const QString& text);
  /// Puts in what stands one line above, a reason for skipping as well; one sentence when nothing does.
  QString repeatAbove(const QModelIndex& index);

  /// First cell with a problem, in the order of entry; an invalid index when there is none.
  QModelIndex firstProblem() const;
  /// Why a reading is not judged: that of `row` before that of any other; empty when all are judged.
  QString notJudgedNear(int row) const;
  /// The cell a problem from VisitEntry::finish is about; invalid when it is about no cell.
  QModelIndex cellOf(const Problem& problem) const;
  static bool isReading(int column) { return column == kFound || column == kLeft; }
  static bool isError(int column) { return column == kFoundError || column == kLeftError; }
  static bool isVerdict(int column) { return column == kFoundVerdict || column == kLeftVerdict; }
  /// As long as the errors of this sheet usually are.
  QString smallError() const;
  static bool isApplied(int column) { return column == kApplied || column == kLeftApplied; }
  static Phase phaseOf(int column) { return column >= kLeftApplied ? Phase::asLeft : Phase::asFound; }

 private:
  bool editable(const QModelIndex& index) const;
  QString normalised(const QModelIndex& index, const QString& text) const;
  QString typedAt(const QModelIndex& index) const;
  CellEdit::Place placeOf(const QModelIndex& index) const;
  QModelIndex cellOfStep(int step) const;
  QString doubt(int row, int column) const;
  QString shown(int row, int column) const;
  QString editText(int row, int column) const;
  QString nominalText(int row) const;
  double readingStep() const;
  QString errorText(Phase phase, int row) const;
  QString verdictText(Phase phase, int row) const;
  QString problem(int row, int column) const;
  QString notJudged(int row, int column) const;
  QVariant foreground(int row, int column) const;
  QString spoken(int row, int column) const;
  std::pair<Mark, Tone> markAt(int row, int column) const;
  QVariant fraction(Phase phase, int row) const;

  VisitEntry& entry_;
  QUndoStack edits_;
};

}  // namespace spanwright
