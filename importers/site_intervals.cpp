// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/record/register_rules.h"
#include "importers/site_parts.h"

namespace spanwright {
namespace {

constexpr std::pair<std::string_view, PolicyKind> kPolicies[] = {{"fixed", PolicyKind::fixed},
                                                                 {"staircase", PolicyKind::staircase},
                                                                 {"reliability", PolicyKind::reliability},
                                                                 {"forecast", PolicyKind::forecast}};
constexpr int kLongestDays = 36525;
// Common practice, no source: 95 % limits, and nothing concluded from fewer than ten outcomes.
constexpr double kConfidence = 0.95;
constexpr int kLeastOutcomes = 10;
constexpr Bounds kShare{0.0, 0.999, true};

/// Keys that only one policy has.
constexpr std::pair<std::string_view, PolicyKind> kOwnKeys[] = {{"lengthen", PolicyKind::staircase},
                                                                {"shorten", PolicyKind::staircase},
                                                                {"target", PolicyKind::reliability},
                                                                {"confidence", PolicyKind::reliability},
                                                                {"least_outcomes", PolicyKind::reliability}};

void refuseOthersKeys(TomlTable& table, PolicyKind kind) {
  for (const auto& [key, owner] : kOwnKeys) {
    table.know(key);
    if (owner != kind && table.has(key)) {
      table.problem(
          key, fmt::format("does not go with the policy \"{}\"", text(kind)),
          fmt::format("remove it, or write policy = \"{}\", which is the one that uses it", text(owner)));
    }
  }
}

void readOwnKeys(TomlTable& table, IntervalPolicy& policy) {
  refuseOthersKeys(table, policy.kind);
  if (policy.kind == PolicyKind::staircase) {
    policy.lengthen = table.needNumber("lengthen", {1.0, kLongestStep, true});
    policy.shorten = table.needNumber("shorten", {0.0, 0.99, true});
  } else if (policy.kind == PolicyKind::reliability) {
    policy.target = table.needNumber("target", kShare);
    policy.confidence = table.number("confidence", kConfidence, kShare);
    policy.leastOutcomes = table.whole("least_outcomes", kLeastOutcomes, 1, 100000);
  }
}

void readLimits(TomlTable& table, IntervalPolicy& policy) {
  policy.minimumDays = table.whole("minimum_days", 0, 1, kLongestDays);
  policy.maximumDays = table.whole("maximum_days", 0, 1, kLongestDays);
  if (policy.minimumDays > 0 && policy.maximumDays > 0 && policy.maximumDays < policy.minimumDays) {
    table.problem("maximum_days", "is below minimum_days", "exchange the two");
    return;
  }
  for (const char* key : {"minimum_days", "maximum_days"}) {
    if (policy.kind != PolicyKind::fixed && !table.has(key)) {
      table.problem(key, fmt::format("is missing, and a {} policy proposes intervals", text(policy.kind)),
                    "say within which limits it may");
    }
  }
}

}  // namespace

void readIntervals(TomlTable& file, SiteReading& reading) {
  for (auto& table : file.tables("interval", "[[interval]]")) {
    IntervalPolicy policy;
    policy.code = table.needText("code");
    if (!policy.code.empty()) {
      table.rename("[[interval]] " + inQuotes(policy.code));
      reading.intervals.add(policy.code, table.at("code"), table.problems());
    }
    const std::size_t before = table.problems().count();
    policy.kind = table.choice<PolicyKind>("policy", kPolicies).value_or(PolicyKind::fixed);
    if (table.problems().count() != before) {
      for (const auto& own : kOwnKeys) {
        table.know(own.first);  // which of them belong cannot be told
      }
    } else {
      readOwnKeys(table, policy);
    }
    policy.months = table.whole("months", 0, 1, 1200);
    policy.days = table.whole("days", 0, 1, kLongestDays);
    if (table.has("months") == table.has("days")) {
      table.problem("months", table.has("days") ? "stands beside days" : "and days are both missing",
                    "give exactly one of months and days");
    }
    readLimits(table, policy);
    table.finish();
    report(table, intervalProblems(policy), before);
    reading.site.intervals.push_back(std::move(policy));
  }
}

}  // namespace spanwright
