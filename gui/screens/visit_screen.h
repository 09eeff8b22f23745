// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entering a visit: header, entry sheet, and the errors drawn as they are typed.
#pragma once

#include <QTimer>
#include <QWidget>
#include <memory>
#include <optional>

#include "gui/actions/commands.h"
#include "gui/models/visit_entry.h"
#include "gui/words/marks.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QSplitter;

namespace spanwright {

class PlotView;
class Session;
class SettleTimer;
class SheetModel;
class SheetView;
class VisitHeader;

class VisitScreen : public QWidget {
  Q_OBJECT
 public:
  explicit VisitScreen(Session& session, QWidget* parent = nullptr);
  /// Call when a record was opened, before it is used.
  void takeRecord();
  /// Lets the record go; what stands in an open editor goes into the draft first.
  void dropRecord();
  /// An empty sheet for this channel; without a subject, its first routine's.
  void start(const QString& channel, std::optional<Subject> subject);
  void resume(const Draft& draft);
  /// Goes to the channel box to choose one; with no sheet open nothing is chosen beforehand.
  void chooseChannel();
  /// False when values are not on disk and the person would rather stay than lose them.
  bool mayLeave();
  bool hasEntry() const { return entry_ != nullptr; }
  VisitEntry& entry() { return *entry_; }
  SheetView* sheetView() const { return view_; }
  SheetModel* sheetModel() const { return model_; }
  PlotView* plot() const { return plot_; }
  QCheckBox* cautions() const;
  QListWidget* problems() const { return problems_; }
  SettleTimer* settleTimer() const { return settle_; }
  QString sentence() const;
  QString figures() const;
  void finish();

 signals:
  void finished(const QString& channel, const QString& sentence);
  void left(const QString& channel);

 private:
  void build();
  QWidget* makeFoot();
  void leaveVisit();
  void discardDraft();
  void openSheet(const QString& channel, Subject subject, Moment when);
  void takeSheet();
  void say(Mark mark, Tone tone, const QString& sentence);
  void startSettling();
  void doSheetCommand(CommandId id);
  void showCellNote();
  bool showAdvice();
  void showFigures();
  void takeAdjustment();
  void markAdjustment();
  /// What was done, where as-left values want it said.
  std::vector<Problem> unsaidWork() const;
  /// Of what kept the visit from being stored, what still does.
  void checkAgain();
  void showProblems(const std::vector<Problem>& problems);
  void goToProblem(int row);
  void showEnd();
  void drawErrors();

  Session& session_;
  std::unique_ptr<VisitEntry> entry_;
  VisitHeader* header_ = nullptr;
  SheetModel* model_ = nullptr;
  SheetView* view_ = nullptr;
  PlotView* plot_ = nullptr;
  QSplitter* split_ = nullptr;
  QWidget* body_ = nullptr;
  SettleTimer* settle_ = nullptr;
  QLabel* sentence_ = nullptr;
  QLabel* sentenceSign_ = nullptr;
  QLabel* saved_ = nullptr;
  QLabel* figures_ = nullptr;
  QListWidget* problems_ = nullptr;
  std::vector<Problem> problemList_;
  QComboBox* done_ = nullptr;
  QLineEdit* adjustment_ = nullptr;
  QLineEdit* remarks_ = nullptr;
  QLabel* adjustmentLabel_ = nullptr;
  QPushButton *leave_ = nullptr, *discard_ = nullptr, *finish_ = nullptr;
  QTimer redraw_;  // one drawing for a burst of typing
};

}  // namespace spanwright
