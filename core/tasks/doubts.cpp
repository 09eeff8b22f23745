// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/doubts.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "core/tasks/stored_sheet.h"
#include "core/tasks/visit_before.h"

namespace spanwright {
namespace {

struct Sum {
  std::size_t visits = 0, readings = 0;
  double squares = 0.0;
};

void addVisit(std::map<std::string, Sum, std::less<>>& sums, const Calibration& calibration) {
  std::set<std::string> seen;
  for (const auto* readings : {&calibration.asFound, &calibration.asLeft}) {
    for (const Reading& reading : *readings) {
      if (!reading.skipped()) {
        const std::string key = pointKey(reading.point);
        Sum& sum = sums[key];
        sum.visits += seen.insert(key).second ? 1 : 0;
        ++sum.readings;
        sum.squares += reading.error() * reading.error();
      }
    }
  }
}

/// What is right at the points of the sheet that ask for a value.
std::vector<ReadingWindow> otherPoints(const VisitSheet& sheet) {
  std::vector<ReadingWindow> windows;
  // The setup's switch levels and states do not concern a sensor on its own.
  const ChannelSetup* setup =
      sheet.subject == Subject::sensor || sheet.setup == nullptr ? nullptr : &sheet.setup->setup;
  for (const TestPoint& point : sheet.points) {
    if (point.role != PointRole::value) {
      continue;
    }
    const auto expected =
        expectPoint(point, *sheet.model, setup, sheet.plan->tolerance, point.nominalApplied);
    if (const auto* result = std::get_if<PointResult>(&expected)) {
      windows.push_back({point.sequence, result->expected, result->limits});
    }
  }
  return windows;
}

std::vector<OtherReading> swappedReadings(const VisitSheet& sheet, const Reading& reading) {
  std::vector<OtherReading> others;
  for (std::string& text : swappedDigits(reading.indicatedText)) {
    const auto judged = judge(sheet, reading.point, {reading.appliedText, text, ""}, {});
    if (const auto* other = std::get_if<Reading>(&judged)) {
      others.push_back({std::move(text), other->indicated});
    }
  }
  return others;
}

}  // namespace

UsualErrors usualErrors(const Store& store, const VisitSheet& sheet) {
  std::map<std::string, Sum, std::less<>> sums;
  std::size_t taken = 0;
  for (const CalibrationId id : visitsBefore(store, subjectOf(sheet), sheet.when)) {
    if (const auto calibration = taken < kUsualMost ? store.calibration(id) : std::nullopt) {
      addVisit(sums, *calibration);
      ++taken;
    }
  }
  UsualErrors usual;
  for (const auto& [key, sum] : sums) {
    usual[key] = {sum.visits, std::sqrt(sum.squares / static_cast<double>(sum.readings))};
  }
  return usual;
}

std::optional<Doubt> doubtAbout(const VisitSheet& sheet, const UsualErrors& usual, const Reading& reading) {
  if (reading.skipped()) {
    return std::nullopt;
  }
  const ReadingWindow own{reading.point.sequence, reading.expected, reading.limits};
  const bool value = reading.point.role == PointRole::value;
  const auto known = usual.find(pointKey(reading.point));
  return doubtOf(reading.indicated, own, value ? otherPoints(sheet) : std::vector<ReadingWindow>(),
                 own.holds(reading.indicated) ? std::vector<OtherReading>() : swappedReadings(sheet, reading),
                 known != usual.end() ? known->second : UsualError{}, sheet.model->stepAt(reading.expected));
}

std::vector<DoubtfulReading> doubtsAbout(const Store& store, const Calibration& calibration) {
  std::vector<DoubtfulReading> doubts;
  auto stored = storedSheet(store.site(), calibration);
  auto* sheet = std::get_if<VisitSheet>(&stored);
  if (sheet == nullptr) {
    return doubts;
  }
  for (const Reading& reading : calibration.asFound) {
    sheet->points.push_back(reading.point);
  }
  const UsualErrors usual = usualErrors(store, *sheet);
  for (const Phase phase : {Phase::asFound, Phase::asLeft}) {
    for (const Reading& reading : phase == Phase::asFound ? calibration.asFound : calibration.asLeft) {
      if (auto doubt = doubtAbout(*sheet, usual, reading)) {
        DoubtfulReading& one = doubts.emplace_back(DoubtfulReading{phase, reading, *doubt, {}});
        const auto other =
            std::find_if(sheet->points.begin(), sheet->points.end(),
                         [&](const TestPoint& point) { return point.sequence == doubt->sequence; });
        if (other != sheet->points.end()) {
          one.other = *other;
        }
      }
    }
  }
  return doubts;
}

}  // namespace spanwright
