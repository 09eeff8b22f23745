// SPDX-License-Identifier: GPL-3.0-or-later
//
// The ways out of a visit, and the questions asked on them. Entering is in visit_screen.cpp.
#include "gui/models/sheet_model.h"
#include "gui/prompts/prompts.h"
#include "gui/screens/sheet_view.h"
#include "gui/screens/visit_screen.h"
#include "gui/words/words.h"

namespace spanwright {

bool VisitScreen::mayLeave() {
  if (!entry_ || !entry_->isOpen()) {
    return true;
  }
  view_->commitOpenEditor();
  const int lost = entry_->saveNow();
  if (lost == 0) {
    return true;
  }
  const Question question{tr("Values are not on disk"),
                          counted(lost, tr("1 value of the visit to %2 is not on disk and will be lost."),
                                  tr("%1 values of the visit to %2 are not on disk and will be lost."))
                                  .arg(fromCore(entry_->draft().channel)) +
                              u' ' +
                              tr("Stay, make room on the disk, and they are written with the next value."),
                          tr("Leave and lose them"), tr("Stay")};
  if (!ask(this, question)) {
    return false;
  }
  entry_->drop();
  return true;
}

void VisitScreen::leaveVisit() {
  const QString channel = fromCore(entry_->draft().channel);
  if (mayLeave()) {
    entry_->leave();
    emit left(channel);
  }
}

void VisitScreen::discardDraft() {
  const QString channel = fromCore(entry_->draft().channel);
  view_->commitOpenEditor();
  const int lost = entry_->typedCount();
  const Question question{
      tr("Discard the draft"),
      counted(lost, tr("1 value of %2 will be lost."), tr("%1 values of %2 will be lost.")).arg(channel),
      tr("Discard"), tr("Keep")};
  if (lost > 0 && !ask(this, question)) {
    return;
  }
  entry_->discard();
  if (!entry_->isOpen()) {  // else it is still on disk, and that has been told
    emit left(channel);
  }
}

}  // namespace spanwright
