// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentence beside the grid: about the cell, about the visit so far, and at its end.
#include <QLabel>

#include "gui/models/sheet_model.h"
#include "gui/screens/settle_timer.h"
#include "gui/screens/sheet_view.h"
#include "gui/screens/visit_screen.h"
#include "gui/settings/text_size.h"
#include "gui/words/advice_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kEmptyNamed = 5;  // so many empty points are named, the rest counted

}  // namespace

void VisitScreen::say(Mark mark, Tone tone, const QString& sentence) {
  sentenceSign_->setPixmap(markIcon(mark, tone).pixmap(scaled(QSize(16, 16))));
  sentence_->setText(sentence);
}

/// For the point the cursor is at.
void VisitScreen::startSettling() {
  const QModelIndex at = view_->currentIndex();
  if (entry_->isOpen() && at.isValid()) {
    settle_->toggle(at.siblingAtColumn(SheetModel::kPoint).data().toString());
  }
}

void VisitScreen::showCellNote() {
  if (!entry_->isOpen()) {
    return;
  }
  QString wrong = view_->currentIndex().data(SheetModel::kProblemRole).toString();
  if (wrong.isEmpty()) {
    wrong = model_->firstProblem().data(SheetModel::kProblemRole).toString();
  }
  if (!wrong.isEmpty()) {
    say(Mark::triangle, Tone::bad, wrong);
    return;
  }
  if (const QString doubt = view_->currentIndex().data(SheetModel::kDoubtRole).toString(); !doubt.isEmpty()) {
    say(Mark::exclaim, Tone::attention, doubt);
    return;
  }
  if (showAdvice()) {
    return;
  }
  if (const QString open = model_->notJudgedNear(view_->currentIndex().row()); !open.isEmpty()) {
    say(Mark::dash, Tone::quiet, open);
    return;
  }
  sentenceSign_->setPixmap({});
  if (entry_->draft().standards.empty() && !entry_->usableStandards().empty()) {
    sentence_->setText(
        tr("No standard is ticked yet: Alt+T goes to their list, Space ticks one.") +
        (entry_->draft().cautionsConfirmed ? QString() : u' ' + tr("Then confirm the cautions.")));
    return;
  }
  sentence_->setText(
      entry_->draft().cautionsConfirmed
          ? tr("Digits and Enter, value after value. Units may be typed; Ctrl+K skips a point.")
          : tr("Confirm the cautions, then type: digits and Enter, value after value."));
}

/// Once every as-found value is in; false while there is nothing to be said yet.
bool VisitScreen::showAdvice() {
  if (!entry_->draft().cautionsConfirmed || !entry_->anyTyped(Phase::asFound)) {
    return false;
  }
  const VisitAdvice advice = entry_->advice(Phase::asFound);
  if (advice.gap == AdviceGap::unfinished || advice.gap == AdviceGap::noValuePoints) {
    return false;
  }
  sentenceSign_->setPixmap(markIcon(markOf(advice), toneOf(advice)).pixmap(scaled(QSize(16, 16))));
  const QString open = model_->notJudgedNear(view_->currentIndex().row());
  sentence_->setText(open.isEmpty() ? adviceSentence(advice) : adviceSentence(advice) + u' ' + open);
  return true;
}

void VisitScreen::showFigures() {
  if (!entry_->isOpen()) {
    return;
  }
  const Phase phase = entry_->anyTyped(Phase::asLeft) ? Phase::asLeft : Phase::asFound;
  const auto figures = entry_->advice(phase).figures;
  figures_->setText(figures ? figuresLine(phase, *figures) : QString());
}

void VisitScreen::showEnd() {
  QStringList empty;
  for (const Phase phase : {Phase::asFound, Phase::asLeft}) {
    // As-left readings are wanted only once there is one.
    if (phase == Phase::asLeft && !entry_->anyTyped(phase)) {
      continue;
    }
    for (const int row : entry_->emptyRows(phase)) {
      empty << QStringLiteral("%1 %2").arg(word(phase),
                                           model_->index(row, SheetModel::kPoint).data().toString());
    }
  }
  if (empty.isEmpty()) {
    say(Mark::check, Tone::good, tr("That was the last value. Ctrl+Enter finishes the visit."));
    return;
  }
  const auto more = empty.size() - kEmptyNamed;
  QString names = empty.mid(0, kEmptyNamed).join(QStringLiteral(", "));
  if (more > 0) {
    names += tr(" and %1 more").arg(more);
  }
  sentenceSign_->setPixmap(markIcon(Mark::triangle, Tone::attention).pixmap(scaled(QSize(16, 16))));
  sentence_->setText(tr("Still empty: %1. Type them, or Ctrl+K says why one is skipped.").arg(names));
}

}  // namespace spanwright
