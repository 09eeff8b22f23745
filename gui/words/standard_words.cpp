// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/standard_words.h"

#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {

QString word(StandardState state) {
  switch (state) {
    case StandardState::valid:
      return tr("valid");
    case StandardState::expiresSoon:
      return tr("runs out soon");
    case StandardState::expired:
      return tr("ran out");
    case StandardState::noCertificate:
      return tr("no certificate");
    case StandardState::useAllowed:
      return tr("use allowed");
    case StandardState::outOfService:
      return tr("out of service");
  }
  return {};
}

QString word(StandardAct act) {
  switch (act) {
    case StandardAct::outOfService:
      return tr("out of service");
    case StandardAct::backInService:
      return tr("back in service");
    case StandardAct::useAllowed:
      return tr("use allowed");
  }
  return {};
}

Mark markOf(StandardState state) {
  switch (state) {
    case StandardState::valid:
      return Mark::check;
    case StandardState::expiresSoon:
      return Mark::ring;
    case StandardState::expired:
      return Mark::triangle;
    case StandardState::noCertificate:
      return Mark::dash;
    case StandardState::useAllowed:
      return Mark::halfDisc;
    case StandardState::outOfService:
      return Mark::slash;
  }
  return Mark::none;
}

Tone toneOf(StandardState state) {
  switch (state) {
    case StandardState::valid:
      return Tone::good;
    case StandardState::expiresSoon:
    case StandardState::useAllowed:
      return Tone::attention;
    case StandardState::expired:
    case StandardState::noCertificate:
    case StandardState::outOfService:
      break;
  }
  return Tone::bad;
}

QIcon iconOf(StandardState state) {
  return markIcon(markOf(state), toneOf(state));
}

QString shownDaysLeft(const std::optional<Date>& lastDay, int daysLeft) {
  if (!lastDay) {
    return QStringLiteral("–");
  }
  if (daysLeft == 0) {
    return tr("last day today");
  }
  return daysLeft > 0 ? counted(daysLeft, tr("1 day left"), tr("%1 days left"))
                      : counted(-daysLeft, tr("ran out yesterday"), tr("ran out %1 days ago"));
}

}  // namespace spanwright
