// SPDX-License-Identifier: GPL-3.0-or-later
//
// One visit being typed: the sheet from core/tasks, the draft kept in the store at every value, and what core
// said of each value. Knows no widget.
#pragma once

#include <QObject>
#include <QString>
#include <memory>
#include <optional>
#include <set>
#include <variant>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/advice.h"
#include "core/tasks/doubts.h"
#include "core/tasks/point_uncertainty.h"
#include "core/tasks/visit.h"

namespace spanwright {

class VisitEntry : public QObject {
  Q_OBJECT
 public:
  /// Nothing typed, judged, or not understood.
  using Outcome = std::variant<std::monostate, Reading, TypedProblem>;

  VisitEntry(Store& store, const Clock& clock, QObject* parent = nullptr);

  /// Opens an empty sheet; one sentence when there is none. What was typed before stays in its draft.
  QString open(const QString& channel, Subject subject, Moment when);
  /// Goes on with a draft.
  QString resume(const Draft& draft);
  /// The same visit at another moment; one sentence when another sheet would then apply, and nothing is
  /// changed.
  QString moveTo(Moment when);
  /// Forgets the sheet; its draft stays.
  void leave();
  /// Forgets the sheet and what is not on disk yet; the rest of its draft stays.
  void drop();
  /// Throws the draft away.
  void discard();

  bool isOpen() const { return sheet_.has_value(); }
  const VisitSheet& sheet() const { return *sheet_; }
  const Draft& draft() const { return draft_; }
  int rowCount() const { return sheet_ ? static_cast<int>(sheet_->points.size()) : 0; }
  const TestPoint& point(int row) const { return sheet_->points[static_cast<std::size_t>(row)]; }
  bool hasRuns() const { return hasRuns_; }

  /// What was typed, "" when nothing; a skipped reading reads "skip: reason".
  QString typed(Phase phase, int row) const;
  QString typedApplied(Phase phase, int row) const;
  bool skipped(Phase phase, int row) const;
  const Outcome& outcome(Phase phase, int row) const;
  /// Expected reading for what is applied as found; nothing where core has no answer.
  std::optional<PointResult> expected(int row) const;
  /// The reading that stood as left the last time under this setup and sensor.
  const Reading* previous(int row) const;
  QString previousVisit() const { return previousVisit_; }
  /// What the readings of this phase say as a whole, as far as they are understood.
  VisitAdvice advice(Phase phase) const;
  /// What to ask about the reading there; nothing when it looks fine.
  const std::optional<Doubt>& doubt(Phase phase, int row) const { return cell(phase, row).doubt; }
  /// Was that asked about what stands there now? Whoever goes on after that keeps it.
  bool asked(Phase phase, int row) const;
  /// True once for each value there is a doubt about: it counts as asked from then on.
  bool askOnce(Phase phase, int row);
  /// Why the reading there is not judged; nothing when it is, or when there is none.
  std::optional<NotJudged> notJudged(Phase phase, int row) const;
  /// Anything typed at all?
  bool anyTyped() const;
  bool anyTyped(Phase phase) const;
  /// How many readings are typed or skipped.
  int typedCount() const;
  /// Tries once more to put everything on disk; how many values are still not there. Header texts alone count
  /// as none.
  int saveNow();

  /// Rows without a reading in a phase, in order.
  std::vector<int> emptyRows(Phase phase) const;

  void setTyped(Phase phase, int row, const QString& text);
  void setApplied(Phase phase, int row, const QString& text);

  std::vector<const Standard*> usableStandards() const;
  /// Those to begin with: of the ones in hand, else of those the visit before was made with.
  std::vector<std::string> offeredStandards(std::vector<std::string> inHand) const;
  void setPerson(const QString& login);
  void setStandards(const std::vector<std::string>& serials);
  /// Another reference junction judges the lines already typed again.
  void setConditions(const Conditions& conditions);
  void setCautionsConfirmed(bool confirmed);
  void setAdjustment(const Adjustment& adjustment);
  void setRemarks(const QString& remarks);

  /// Checks everything and stores; the problems, none when it was stored (`stored` then has it).
  /// A problem about one value says where.line = sequence and where.columnName = "as found" or "as left".
  std::vector<Problem> finish();
  /// What finish would refuse now, as far as that is seen without storing.
  std::vector<Problem> check() const;
  const std::optional<Calibration>& stored() const { return stored_; }

 signals:
  void sheetChanged();  ///< another sheet
  void rowChanged(int row);
  void headerChanged();
  void saved(const QString& when);  ///< the draft is on disk
  void troubled(const QString& sentence);

 private:
  struct Cell {
    DraftValue value;
    Outcome outcome;
    std::optional<Doubt> doubt;
    std::set<std::string> asked;  // texts
  };
  Cell& cell(Phase phase, int row);
  const Cell& cell(Phase phase, int row) const;
  QString takeSheet(const QString& channel, Subject subject, Moment when);
  ProposedVisit proposed() const;
  void loadPrevious();
  void judgeRow(Phase phase, int row);
  void judgeAll();
  void takeJunction();
  void saveHeader();
  void saveValue(Phase phase, int row);
  void flush();

  Store& store_;
  const Clock& clock_;
  std::shared_ptr<const Register>
      site_;  // the sheet points into it; a copy, because the store reads its own again
  std::optional<VisitSheet> sheet_;
  std::vector<const Standard*> standards_;
  bool hasRuns_ = false;
  Draft draft_;
  std::vector<Cell> found_, left_;
  std::vector<std::optional<Reading>> previous_;
  QString previousVisit_;
  std::vector<std::string> previousStandards_;
  UsualErrors usual_;
  std::optional<Calibration> stored_;
  bool headerWaiting_ = false;
  std::set<std::pair<Phase, int>> waiting_;  // values not yet on disk
};

}  // namespace spanwright
