// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the entry sheet is laid out.
#include "gui/screens/visit_screen.h"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSplitter>
#include <QVBoxLayout>

#include "gui/actions/commands.h"
#include "gui/charts/plot_view.h"
#include "gui/models/sheet_model.h"
#include "gui/screens/settle_timer.h"
#include "gui/screens/sheet_view.h"
#include "gui/screens/visit_header.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {

void VisitScreen::build() {
  body_ = new QWidget(this);
  layout()->addWidget(body_);
  header_ = new VisitHeader(session_, *entry_, body_);
  model_ = new SheetModel(*entry_, body_);
  view_ = new SheetView(model_, body_);
  plot_ = new PlotView(body_);
  split_ = new QSplitter(body_);
  split_->setChildrenCollapsible(false);
  split_->addWidget(view_);
  split_->addWidget(plot_);
  split_->setStretchFactor(0, 3);
  split_->setStretchFactor(1, 1);
  split_->setSizes({950, 290});
  split_->restoreState(kVisitSplit.get());
  split_->setOrientation(sideBySide());
  connect(split_, &QSplitter::splitterMoved, this, [this] { kVisitSplit.set(split_->saveState()); });

  auto* column = new QVBoxLayout(body_);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  column->addWidget(header_);
  column->addWidget(split_, 1);
  column->addWidget(makeFoot());

  connect(header_, &VisitHeader::sheetAsked, this, &VisitScreen::openSheet);
  connect(header_, &VisitHeader::unclear, this,
          [this](const QString& sentence) { say(Mark::triangle, Tone::attention, sentence); });
  connect(header_, &VisitHeader::cautionsConfirmed, view_, &SheetView::goToStart);
  connect(header_, &VisitHeader::cautionsConfirmed, this, &VisitScreen::showCellNote);
  connect(header_, &VisitHeader::cautionsKept, this, [this] {
    sentenceSign_->setPixmap(markIcon(Mark::ring, Tone::attention).pixmap(scaled(QSize(16, 16))));
    sentence_->setText(
        tr("The cautions stay confirmed: values are typed. Discard the draft to begin again."));
  });
  connect(entry_.get(), &VisitEntry::rowChanged, &redraw_, qOverload<>(&QTimer::start));
  connect(entry_.get(), &VisitEntry::rowChanged, this, &VisitScreen::showCellNote);
  connect(entry_.get(), &VisitEntry::rowChanged, this, &VisitScreen::markAdjustment);
  connect(entry_.get(), &VisitEntry::rowChanged, this, &VisitScreen::showFigures);
  connect(entry_.get(), &VisitEntry::headerChanged, &redraw_, qOverload<>(&QTimer::start));
  connect(entry_.get(), &VisitEntry::rowChanged, this, &VisitScreen::checkAgain);
  connect(entry_.get(), &VisitEntry::saved, this,
          &VisitScreen::checkAgain);  // also after the header's changes
  connect(entry_.get(), &VisitEntry::troubled, &session_, &Session::troubled);
  connect(entry_.get(), &VisitEntry::saved, this,
          [this](const QString& when) { saved_->setText(tr("Draft on disk %1").arg(when)); });
  connect(view_, &SheetView::cellChanged, this, &VisitScreen::showCellNote);
  connect(view_, &SheetView::refused, this, [this] {
    sentenceSign_->setPixmap(markIcon(Mark::triangle, Tone::attention).pixmap(scaled(QSize(16, 16))));
    const bool locked = entry_->isOpen() && !entry_->draft().cautionsConfirmed;
    sentence_->setText(locked ? tr("Confirm the cautions first: press Space on the box at the top right.")
                              : tr("Values go into the applied, as-found and as-left columns."));
    if (locked) {
      cautions()->setFocus(Qt::ShortcutFocusReason);
    }
  });
  connect(view_, &SheetView::lastValueTyped, this, &VisitScreen::showEnd);
  connect(view_, &SheetView::told, this, [this](const QString& sentence, bool done) {
    say(done ? Mark::check : Mark::triangle, done ? Tone::good : Tone::attention, sentence);
  });
}

QWidget* VisitScreen::makeFoot() {
  auto* foot = new QWidget(body_);
  sentenceSign_ = new QLabel(foot);
  sentence_ = new QLabel(foot);
  sentence_->setWordWrap(true);
  sentence_->setAccessibleName(tr("About the cell"));
  settle_ = new SettleTimer(foot);
  saved_ = new QLabel(foot);
  saved_->setForegroundRole(QPalette::PlaceholderText);
  figures_ = new QLabel(foot);
  figures_->setForegroundRole(QPalette::PlaceholderText);
  figures_->setWordWrap(true);
  figures_->setAccessibleName(tr("Figures of the run"));
  problems_ = new QListWidget(foot);
  problems_->setAccessibleName(tr("What keeps the visit from being stored"));
  problems_->setWordWrap(true);
  problems_->hide();
  done_ = new QComboBox(foot);
  done_->addItems({tr("not said"), tr("adjusted"), tr("repaired"), tr("nothing changed")});
  done_->setAccessibleName(tr("What was done to it"));
  adjustmentLabel_ = new QLabel(foot);
  adjustmentLabel_->setBuddy(done_);
  adjustment_ = new QLineEdit(foot);
  adjustment_->setPlaceholderText(tr("What was adjusted or repaired"));
  adjustment_->setAccessibleName(tr("What was adjusted or repaired"));
  remarks_ = new QLineEdit(foot);
  remarks_->setPlaceholderText(tr("Remarks"));
  remarks_->setAccessibleName(tr("Remarks"));
  leave_ = new QPushButton(tr("Leave, keep draft"), foot);
  discard_ = new QPushButton(tr("Discard draft"), foot);
  finish_ = new QPushButton(tr("Finish visit"), foot);
  finish_->setToolTip(tr("Check the whole sheet and store the visit (Ctrl+Enter)"));

  auto* first = new QHBoxLayout;
  first->setSpacing(8);
  first->addWidget(sentenceSign_);
  first->addWidget(sentence_, 1);
  first->addWidget(settle_);
  first->addWidget(saved_);
  auto* second = new WrapRow;
  second->setSpacing(8);
  second->addWidget(adjustmentLabel_);
  second->addWidget(done_);
  second->addWidget(adjustment_, 3);
  second->addWidget(remarks_, 2);
  second->addSpacing(8);
  second->addWidget(leave_);
  second->addWidget(discard_);
  second->addWidget(finish_);
  auto* column = new QVBoxLayout(foot);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(6);
  column->addWidget(problems_);
  column->addLayout(first);
  column->addWidget(figures_);
  column->addLayout(second);

  connect(done_, &QComboBox::activated, this, &VisitScreen::takeAdjustment);
  connect(adjustment_, &QLineEdit::editingFinished, this, &VisitScreen::takeAdjustment);
  connect(remarks_, &QLineEdit::editingFinished, this,
          [this] { entry_->setRemarks(remarks_->text().trimmed()); });
  connect(problems_, &QListWidget::itemActivated, this,
          [this](QListWidgetItem* item) { goToProblem(problems_->row(item)); });
  connect(finish_, &QPushButton::clicked, this, &VisitScreen::finish);
  connect(leave_, &QPushButton::clicked, this, &VisitScreen::leaveVisit);
  connect(discard_, &QPushButton::clicked, this, &VisitScreen::discardDraft);
  for (const CommandId id : {CommandId::finishVisit, CommandId::skipPoint, CommandId::repeatAbove,
                             CommandId::undoTyping, CommandId::redoTyping, CommandId::startSettling}) {
    QAction* action = makeAction(id, body_);
    action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    body_->addAction(action);
    connect(action, &QAction::triggered, this, [this, id] { doSheetCommand(id); });
  }
  return foot;
}

void VisitScreen::doSheetCommand(CommandId id) {
  switch (id) {
    case CommandId::finishVisit:
      return finish();
    case CommandId::skipPoint:
      return view_->startSkip();
    case CommandId::repeatAbove:
      return view_->repeatAbove();
    case CommandId::undoTyping:
      return view_->undo();
    case CommandId::redoTyping:
      return view_->redo();
    case CommandId::startSettling:
      return startSettling();
    default:
      return;  // the window's own
  }
}

}  // namespace spanwright
