// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/ruling_output.h"

#include <fmt/format.h>

namespace spanwright {

void addRuling(Json& point, const DecisionRule* rule, const Reading& reading) {
  Ruling ruling;
  if (rule != nullptr) {
    ruling = rulingOn(*rule, reading);
  } else {
    ruling.reason = "the plan is not in the register in the revision of the visit";
  }
  point["answer"] = ruling.answer ? Json(text(*ruling.answer)) : Json(nullptr);
  point["guard_band"] = ruling.guard ? Json(ruling.guard->width) : Json(nullptr);
  point["ratio"] = orNull(uncertaintyRatio(ruledError(reading)));
  if (!ruling.reason.empty()) {
    point["reason"] = ruling.reason;
  }
}

std::string ruledVerdict(const DecisionRule* rule, const Reading& reading) {
  const std::string verdict(text(reading.verdict));
  if (rule == nullptr || rule->basis == GuardBasis::none) {
    return verdict;
  }
  const Ruling ruling = rulingOn(*rule, reading);
  if (!ruling.answer) {
    return fmt::format("{} ({})", verdict, ruling.reason);
  }
  switch (*ruling.answer) {
    case Decision::conditionalPass:
      return verdict + " (conditional pass)";
    case Decision::conditionalFail:
      return verdict + " (conditional fail)";
    case Decision::pass:
    case Decision::fail:
      break;
  }
  return verdict;
}

}  // namespace spanwright
