// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/reason_words.h"

#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QString gapClause(UncertaintyGap gap, const MeasuredValue& value) {
  const QString unit = shownUnit(value.unit);
  const QString amount =
      unit.isEmpty() ? shownValue(value.value, 0.0) : shownValue(value.value, 0.0) + u' ' + unit;
  switch (gap) {
    case UncertaintyGap::noStandard:
      return tr("no standard is ticked");
    case UncertaintyGap::noneValid:
      return tr("no ticked standard has a certificate valid on the day");
    case UncertaintyGap::otherQuantity:
      return tr("no ticked standard has a certificate for %1").arg(unit);
    case UncertaintyGap::outOfReach:
      return tr("no ticked standard's certificate reaches %1").arg(amount);
    case UncertaintyGap::noSlope:
      return tr("none can be brought to the reading at %1").arg(amount);
    case UncertaintyGap::nothingToCombine:
      return tr("there is nothing to make one from");
  }
  return {};
}

}  // namespace

QString notJudgedClause(const NotJudged& why) {
  return why.gap ? tr("the plan's decision rule needs an uncertainty, and %1.")
                       .arg(gapClause(*why.gap, why.value))
                 : fromCore(why.reason) + u'.';
}

}  // namespace spanwright
