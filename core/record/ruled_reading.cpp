// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/ruled_reading.h"

namespace spanwright {

RuledError ruledError(const Reading& reading) {
  return {reading.error(), reading.limits, reading.expandedUncertainty, reading.coverageFactor};
}

Ruling rulingOn(const DecisionRule& rule, const Reading& reading) {
  return rulingOn(rule, ruledError(reading), reading.verdict);
}

const DecisionRule* ruleOf(const Plan* plan, const Calibration& calibration) {
  const bool same =
      plan != nullptr && plan->code == calibration.plan && plan->revision == calibration.planRevision;
  return same ? &plan->decisionRule : nullptr;
}

}  // namespace spanwright
