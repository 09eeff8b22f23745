// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan_needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>
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
  const std::string from = plainNumber(low->value), to = plainNumber(high->value);
  const std::string unit(displaySymbol(low->unit));
  return from == to ? fmt::format("{} {}", from, unit) : fmt::format("{} to {} {}", from, to, unit);
}

/// Reaches it with a range fit for it: mV of a couple are not made or measured on a range of volts, which the
/// record does take (with its large uncertainty).
bool serves(const VisitSheet& sheet, const StandardCertificate& certificate, const MeasuredValue& value) {
  const auto placed = placeOn(sheet, certificate.ranges, value);
  return placed && (dimension(value.unit) != Dimension::temperature || placed->range->unit != Unit::volt);
}

StandardNeed needFor(const VisitSheet& sheet, const std::vector<MeasuredValue>& values,
                     const std::vector<UsableDays>& usable, const std::vector<std::string>& lastUsed) {
  StandardNeed need{rangeText(values), {}};
  const std::vector<Standard>& standards = sheet.site->standards;
  const auto ofKind = [&](const Standard& standard) {
    return std::any_of(lastUsed.begin(), lastUsed.end(), [&](const std::string& serial) {
      const Standard* used = sheet.site->standard(serial);
      return used != nullptr && used->description == standard.description && used->model == standard.model;
    });
  };
  for (const UsableDays& each : usable) {
    const bool covers = std::all_of(values.begin(), values.end(), [&](const MeasuredValue& value) {
      return serves(sheet, *each.certificate, value);
    });
    if (covers) {
      need.able.push_back({each.standard, each.days, ofKind(standards[each.standard]) ? 0 : 1});
    }
  }
  const auto rank = [&](const StandardNeed::Able& able) {
    const std::string& serial = standards[able.standard].serial;
    const auto at = std::find(lastUsed.begin(), lastUsed.end(), serial);
    return std::tuple(able.choice, at - lastUsed.begin(), serial);
  };
  std::stable_sort(need.able.begin(), need.able.end(),
                   [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  return need;
}

}  // namespace

std::string plainNumber(double value) {
  constexpr int kDigits = 6;
  const auto rounded = parseNumber(formatSignificant(value, kDigits));
  return formatShortest(rounded ? rounded->value : value);
}

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
                                        const std::vector<std::string>& lastUsed) {
  std::vector<StandardNeed> needs;
  for (const Group& group : groupsOf(sheet)) {
    StandardNeed whole = needFor(sheet, group.values, usable, lastUsed);
    if (!whole.able.empty() || group.values.size() == 1) {
      needs.push_back(std::move(whole));
      continue;
    }
    std::vector<StandardNeed> single;
    for (const MeasuredValue& value : group.values) {
      StandardNeed one = needFor(sheet, {value}, usable, lastUsed);
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

std::vector<std::string> offeredStandards(const VisitSheet& sheet, const std::vector<std::string>& lastUsed) {
  const Date day = sheet.when.date();
  const auto usable = usableDays(*sheet.site, {day, day}, {});
  std::set<std::string> offered;
  for (const StandardNeed& need : standardNeeds(sheet, usable, lastUsed)) {
    std::vector<std::string> able;
    for (const StandardNeed::Able& each : need.able) {
      able.push_back(sheet.site->standards[each.standard].serial);
    }
    const auto used = std::find_if(lastUsed.begin(), lastUsed.end(), [&](const std::string& serial) {
      return std::find(able.begin(), able.end(), serial) != able.end();
    });
    if (used != lastUsed.end()) {
      offered.insert(*used);
    } else if (able.size() == 1) {
      offered.insert(able.front());
    }
  }
  return {offered.begin(), offered.end()};
}

}  // namespace spanwright
