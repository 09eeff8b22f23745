// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan_needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "core/tasks/certificate_value.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

using boost::gregorian::days;

/// Values of one quantity, in the order of the sheet.
struct Group {
  std::vector<MeasuredValue> values;
};

std::vector<Group> groupsOf(const VisitSheet& sheet) {
  std::vector<Group> groups;
  for (const TestPoint& point : sheet.points) {
    const Evaluation expected =
        expectPoint(point, *sheet.model, sheet.subject == Subject::sensor ? nullptr : &sheet.setup->setup,
                    sheet.plan->tolerance, point.nominalApplied);
    const auto* result = std::get_if<PointResult>(&expected);
    if (result == nullptr) {
      continue;
    }
    Reading reading;
    reading.point = point;
    reading.applied = point.nominalApplied;
    reading.indicated = reading.expected = result->expected;
    for (const MeasuredValue& value : measuredValues(sheet, reading)) {
      auto group = std::find_if(groups.begin(), groups.end(), [&](const Group& each) {
        return each.values.front().unit == value.unit && each.values.front().applied == value.applied;
      });
      if (group == groups.end()) {
        group = groups.insert(groups.end(), Group{});
      }
      group->values.push_back(value);
    }
  }
  return groups;
}

std::string rangeText(const std::vector<MeasuredValue>& values) {
  const auto [low, high] =
      std::minmax_element(values.begin(), values.end(),
                          [](const MeasuredValue& a, const MeasuredValue& b) { return a.value < b.value; });
  constexpr int kDigits = 6;
  const std::string from = formatSignificant(low->value, kDigits),
                    to = formatSignificant(high->value, kDigits);
  const std::string unit(displaySymbol(low->unit));
  return from == to ? fmt::format("{} {}", from, unit) : fmt::format("{} to {} {}", from, to, unit);
}

StandardNeed needFor(const VisitSheet& sheet, const std::vector<MeasuredValue>& values,
                     const std::vector<UsableDays>& usable, const std::vector<std::string>& preferred) {
  StandardNeed need{rangeText(values), {}};
  for (const UsableDays& each : usable) {
    const bool covers = std::all_of(values.begin(), values.end(), [&](const MeasuredValue& value) {
      return coversValue(sheet, *each.certificate, value);
    });
    if (covers) {
      need.able.push_back({each.standard, each.days});
    }
  }
  const auto rank = [&](const StandardNeed::Able& able) {
    const std::string& serial = sheet.site->standards[able.standard].serial;
    const auto at = std::find(preferred.begin(), preferred.end(), serial);
    return std::pair(at - preferred.begin(), serial);
  };
  std::stable_sort(need.able.begin(), need.able.end(),
                   [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  return need;
}

}  // namespace

std::vector<UsableDays> usableDays(const Register& site, DaySpan within,
                                   const std::map<std::string, std::vector<DaySpan>>& away) {
  std::vector<UsableDays> usable;
  for (std::size_t s = 0; s < site.standards.size(); ++s) {
    const Standard& standard = site.standards[s];
    const auto gone = away.find(standard.serial);
    bool running = false;
    for (Date day = within.first; day <= within.last; day += days(1)) {
      const bool here =
          gone == away.end() || std::none_of(gone->second.begin(), gone->second.end(),
                                             [&](const DaySpan& span) { return span.contains(day); });
      const StandardCertificate* certificate = here ? standardUse(standard, day).certificate : nullptr;
      if (certificate == nullptr) {
        running = false;
      } else if (running && usable.back().certificate == certificate) {
        usable.back().days.last = day;
      } else {
        usable.push_back({s, {day, day}, certificate});
        running = true;
      }
    }
  }
  return usable;
}

std::vector<StandardNeed> standardNeeds(const VisitSheet& sheet, const std::vector<UsableDays>& usable,
                                        const std::vector<std::string>& preferred) {
  std::vector<StandardNeed> needs;
  for (const Group& group : groupsOf(sheet)) {
    StandardNeed whole = needFor(sheet, group.values, usable, preferred);
    if (!whole.able.empty() || group.values.size() == 1) {
      needs.push_back(std::move(whole));
      continue;
    }
    std::vector<StandardNeed> single;
    for (const MeasuredValue& value : group.values) {
      StandardNeed one = needFor(sheet, {value}, usable, preferred);
      if (std::find(single.begin(), single.end(), one) == single.end()) {
        single.push_back(std::move(one));
      }
    }
    // Said as one when none of its values can be served: that is one lack, not five.
    const bool none =
        std::all_of(single.begin(), single.end(), [](const StandardNeed& need) { return need.able.empty(); });
    if (none) {
      needs.push_back(std::move(whole));
    } else {
      std::move(single.begin(), single.end(), std::back_inserter(needs));
    }
  }
  return needs;
}

}  // namespace spanwright
