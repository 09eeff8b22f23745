// SPDX-License-Identifier: GPL-3.0-or-later
//
// The standard that was found bad reaches the calibrations the truth names, and its error turns the verdicts
// that plain arithmetic turns.
#include "core/tasks/reach.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "importers/found_file.h"
#include "tests/sample_sites/sample.h"

namespace spanwright::test {
namespace {

std::string nameOf(const std::string& channel, const std::string& performed) {
  return channel + " " + performed;
}

/// Verdicts by hand: the current at the terminals is the indicated one less its share.
Verdict pointByHand(const Store& store, const Calibration& calibration, const Reading& reading,
                    double share) {
  const Plan& plan = *store.site().plan(calibration.plan);
  const auto& kind = store.site()
                         .channel(calibration.channel)
                         ->setups[static_cast<std::size_t>(calibration.setupVersion) - 1]
                         .setup.kind;
  double error = 0.0;
  double span = 0.0;
  double ideal = 0.0;
  if (const auto* input = std::get_if<AnalogInputSetup>(&kind);
      input != nullptr && input->signal.unit == Unit::milliampere && reading.point.role == PointRole::value) {
    const bool counts = input->readsAs == ReadsAs::counts;
    const double low = counts ? input->counts->low : input->units->low;
    const double high = counts ? input->counts->high : input->units->high;
    span = high - low;
    double part = (reading.applied * (1.0 - share) - input->signal.low) / input->signal.width();
    if (input->transfer == TransferKind::squareRoot) {
      part = part > 0.0 ? std::sqrt(part) : 0.0;
    }
    ideal = low + part * span;
    error = reading.indicated - ideal;
  } else if (const auto* output = std::get_if<AnalogOutputSetup>(&kind)) {
    span = output->signal.width();
    ideal = reading.expected;
    error = reading.indicated * (1.0 - share) - ideal;
  } else {
    return reading.verdict;  // volts: the standard's voltage was sound
  }
  const ToleranceSide& side = plan.tolerance.plus;
  EXPECT_EQ(plan.tolerance.plus, plan.tolerance.minus);
  EXPECT_FALSE(reading.flooredByStep);
  const double limit = side.absolute + side.counts + side.percentOfSpan / 100.0 * std::abs(span) +
                       side.percentOfReading / 100.0 * std::abs(ideal);
  // On the limit passes; a reading may stand exactly there.
  return std::abs(error) > limit + 1e-9 * span ? Verdict::fail : Verdict::pass;
}

Verdict phaseByHand(const Store& store, const Calibration& calibration, const std::vector<Reading>& readings,
                    double share) {
  bool failed = false;
  for (const Reading& reading : readings) {
    failed =
        failed || (!reading.skipped() && pointByHand(store, calibration, reading, share) == Verdict::fail);
  }
  return failed ? Verdict::fail : Verdict::pass;
}

FoundErrors foundFile() {
  return readFoundFile(sampleFolder("larkmead") / "found.toml");
}

TEST(ReachOfTheFaultyStandard, IsWhatTheTruthNames) {
  const SampleRecord& record = sampleRecord("larkmead");
  const CsvRow fault = truth("larkmead", "faulty-standard").at(0);
  std::map<std::string, std::string> named;
  for (const CsvRow& visit : truth("larkmead", "visits")) {
    if (!visit.at("faulty_standard").empty()) {
      named[nameOf(visit.at("channel"), visit.at("performed"))] = visit.at("faulty_standard");
    }
  }
  ASSERT_EQ(named.size(), 9U);
  const FoundErrors found = foundFile();
  EXPECT_EQ(formatDate(found.foundOn), fault.at("found_on"));
  const Reach reach = reachOfStandard(record.store, fault.at("serial"), found);
  EXPECT_EQ(formatDate(reach.since.value()), fault.at("last_good_certificate_from"));
  EXPECT_EQ(reach.calibrations.size(), named.size());
  for (const ReachedCalibration& reached : reach.calibrations) {
    const auto at = named.find(nameOf(reached.channel, formatMoment(reached.performed)));
    ASSERT_NE(at, named.end()) << reached.channel << " " << formatMoment(reached.performed);
    const ReachedPoint* moved = nullptr;
    for (const ReachedPoint& point : reached.points) {
      EXPECT_TRUE(point.reason.empty()) << point.reason;
      EXPECT_FALSE(point.notInFinding);
      const bool current = point.standardUnit == Unit::milliampere && *point.standardValue != 0.0;
      moved = moved == nullptr && current ? &point : moved;
      if (current) {
        EXPECT_NEAR(*point.foundError / *point.standardValue, numberIn(fault, "indication_less_true_share"),
                    1e-9);
      }
    }
    EXPECT_EQ(moved != nullptr, at->second == "wrong") << at->first;
  }
}

/// A finding of `share` of the current and nothing in volts.
FoundErrors shareFound(double share) {
  FoundErrors found = foundFile();
  for (CertificateRange& range : found.ranges) {
    for (CertificatePoint& point : range.points) {
      point.error = range.unit == Unit::milliampere ? share * point.nominal : 0.0;
    }
  }
  return found;
}

std::set<std::string> leftFlips(const Reach& reach) {
  std::set<std::string> names;
  for (const ReachedCalibration& reached : reach.calibrations) {
    if (reached.asLeft.flips()) {
      EXPECT_EQ(reached.asLeft.becomes, Verdict::fail) << reached.channel;
      names.insert(nameOf(reached.channel, formatMoment(reached.performed)));
    }
  }
  return names;
}

/// The visits that the truth calls wrong and adjusted.
std::set<std::string> adjustedWithFault() {
  std::set<std::string> names;
  for (const CsvRow& visit : truth("larkmead", "visits")) {
    if (visit.at("faulty_standard") == "wrong" && visit.at("adjusted") == "yes") {
      names.insert(nameOf(visit.at("channel"), visit.at("performed")));
    }
  }
  EXPECT_EQ(names.size(), 5U);
  return names;
}

TEST(ReachOfTheFaultyStandard, TurnsTheVerdictsThatArithmeticTurns) {
  const SampleRecord& record = sampleRecord("larkmead");
  const double truly = numberIn(truth("larkmead", "faulty-standard").at(0), "indication_less_true_share");
  int toFail = 0;
  for (const double share : {truly, -truly, 0.00257, -0.00257, 0.00413, -0.00413, 0.0213}) {
    const Reach reach =
        reachOfStandard(record.store, "LC-2202", share == truly ? foundFile() : shareFound(share));
    ASSERT_EQ(reach.calibrations.size(), 9U);
    for (const ReachedCalibration& reached : reach.calibrations) {
      const Calibration calibration = record.store.calibration(reached.id).value();
      const std::string name = nameOf(reached.channel, "at " + std::to_string(share));
      EXPECT_EQ(reached.asFound.was, calibration.foundVerdict) << name;
      EXPECT_EQ(reached.asLeft.was, calibration.leftVerdict) << name;
      EXPECT_EQ(reached.asFound.becomes, phaseByHand(record.store, calibration, calibration.asFound, share))
          << name;
      EXPECT_EQ(reached.asLeft.becomes,
                phaseByHand(record.store, calibration, calibration.standingAsLeft(), share))
          << name;
      for (const ReachedPhase& phase : {reached.asFound, reached.asLeft}) {
        toFail += phase.flips() && phase.becomes == Verdict::fail ? 1 : 0;
      }
    }
    if (share == truly) {
      // Whoever trimmed with it trimmed its fault into the channel: just those were not left as they seemed.
      EXPECT_EQ(leftFlips(reach), adjustedWithFault());
    }
  }
  EXPECT_GT(toFail, 20);
  RecordProperty("flips_to_fail", toFail);
}

}  // namespace
}  // namespace spanwright::test
