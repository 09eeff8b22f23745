// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reach of a standard counted and written down.
#include <fmt/format.h>

#include <algorithm>

#include "core/tasks/reach.h"
#include "core/units/csv.h"

namespace spanwright {
namespace {

std::size_t countPoints(const std::vector<ReachedCalibration>& calibrations, bool ReachedPoint::*what) {
  std::size_t many = 0;
  for (const ReachedCalibration& each : calibrations) {
    many += static_cast<std::size_t>(std::count_if(
        each.points.begin(), each.points.end(), [what](const ReachedPoint& point) { return point.*what; }));
  }
  return many;
}

}  // namespace

std::string_view text(LastGoodWhy why) {
  switch (why) {
    case LastGoodWhy::noneOlder:
      return "no certificate of it is older";
    case LastGoodWhy::decided:
      return "so it was decided";
    case LastGoodWhy::disagrees:
      return "the newest that does not show yet what was found";
    case LastGoodWhy::allAgree:
      return "the newest that can be compared; none contradicts what was found";
    case LastGoodWhy::noneComparable:
      return "the newest; none has a value in common with what was found";
  }
  return {};
}

std::size_t Reach::flips() const {
  return static_cast<std::size_t>(
      std::count_if(calibrations.begin(), calibrations.end(), [](const auto& each) { return each.flips(); }));
}

std::size_t Reach::beyondFound() const {
  return countPoints(calibrations, &ReachedPoint::beyondFound);
}

std::size_t Reach::notInFinding() const {
  return countPoints(calibrations, &ReachedPoint::notInFinding);
}

ReachedThen ReachedCalibration::then() const {
  return needsVisit  ? ReachedThen::visitAgain
         : clearedBy ? ReachedThen::cleared
         : flips()   ? ReachedThen::nothing
                     : ReachedThen::unchanged;
}

std::string visitsCsv(const Reach& reach) {
  std::string table = "number,place,channel,subject,calibrations_in_doubt\r\n";
  std::size_t number = 0;
  for (const ReachVisit& visit : reach.visits) {
    table += fmt::format("{},{},{},{},{}\r\n", ++number, csvCell(harmlessCell(visit.place), ','),
                         csvCell(harmlessCell(visit.channel), ','), text(visit.subject),
                         fmt::join(visit.calibrations, " "));
  }
  return table;
}

}  // namespace spanwright
