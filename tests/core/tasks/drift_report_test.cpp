// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "core/tasks/drift_backtest.h"
#include "core/tasks/drift_history.h"
#include "core/tasks/status.h"
#include "tests/core/tasks/status_fixture.h"

namespace spanwright {
namespace {

using namespace status_test;

class DriftReportTest : public StatusTest {
 protected:
  std::vector<DriftItem> report(const std::string& today, const std::string& channel = "",
                                Pooling pooling = Pooling::likeSubjects) {
    return driftReport(store(), channel, date(today), pooling);
  }
  static const DriftItem& at(const std::vector<DriftItem>& items, const std::string& channel,
                             const std::string& point) {
    for (const DriftItem& item : items) {
      if (item.channel == channel && item.point == point) {
        return item;
      }
    }
    throw std::runtime_error("no item at " + channel + " " + point);
  }
};

std::string drawn(const std::vector<Segment>& segments) {
  std::string out;
  for (const Segment& segment : segments) {
    out += (out.empty() ? "" : " | ") + std::string(text(segment.cause)) + ":";
    for (const DriftReading& reading : segment.readings) {
      out += " " + formatFixed(reading.error, 4) + (reading.asLeft ? "L" : "");
    }
  }
  return out;
}

/// Up 0.02 more than down, growing with the point.
std::function<double(const TestPoint&)> spread(double error) {
  return [error](const TestPoint& point) {
    return error * (1.0 + point.percent / 100.0) + (point.direction == Direction::up ? 0.01 : -0.01);
  };
}

TEST_F(DriftReportTest, OneItemPerPointWithTheMeanOverDirections) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  add({"TT-1", "2020-03-01T08:00", spread(0.10)});
  add({"TT-1", "2021-03-01T08:00", spread(0.30)});
  add({"TT-1", "2022-03-01T08:00", spread(0.48), spread(0.02)});
  add({"TT-1", "2023-03-01T08:00", spread(0.22)});
  add({"TT-1", "2024-03-01T08:00", spread(0.40)});
  const auto items = report("2024-06-01");
  ASSERT_EQ(items.size(), 3u);
  const char* points[] = {"0", "50", "100"};
  for (std::size_t i = 0; i < 3; ++i) {
    const DriftItem& item = items[i];
    const double factor = 1.0 + *item.pointPercent / 100.0;
    EXPECT_EQ(item.point, points[i]);
    EXPECT_EQ(item.unit, Unit::celsius);
    EXPECT_EQ(item.subject, Subject::channel);
    EXPECT_EQ(formatMoment(item.origin), "2020-03-01T08:00:00");
    EXPECT_EQ(item.calibrations, 5);
    EXPECT_NEAR(item.limits.high, 1.0, 1e-9);
    EXPECT_NEAR(item.limits.low, -1.0, 1e-9);
    ASSERT_EQ(item.segments.size(), 2u);
    ASSERT_EQ(item.fitted.size(), 2u);
    ASSERT_TRUE(item.fit);
    EXPECT_EQ(item.fit->degreesOfFreedom, 3);
    EXPECT_EQ(item.otherUnitVisits, 0);

    // By the plain formula, years of 365.25 days counted by hand: 0, 365, 730 | 730, 1095, 1461 days.
    const double years[2][3] = {{0, 365 / 365.25, 730 / 365.25},
                                {730 / 365.25, 1095 / 365.25, 1461 / 365.25}};
    const double errors[2][3] = {{0.10, 0.30, 0.48}, {0.02, 0.22, 0.40}};
    double sxy = 0.0;
    double sxx = 0.0;
    for (int s = 0; s < 2; ++s) {
      const double t = (years[s][0] + years[s][1] + years[s][2]) / 3.0;
      const double e = (errors[s][0] + errors[s][1] + errors[s][2]) / 3.0;
      for (int k = 0; k < 3; ++k) {
        sxy += (years[s][k] - t) * (errors[s][k] - e) * factor;
        sxx += (years[s][k] - t) * (years[s][k] - t);
      }
    }
    EXPECT_NEAR(item.fit->rate, sxy / sxx, 1e-9);
  }
  EXPECT_EQ(drawn(items[0].segments),
            "first calibration: 0.1000 0.3000 0.4800 | adjustment: 0.0200L 0.2200 0.4000");
  EXPECT_EQ(drawn(items[2].segments),
            "first calibration: 0.2000 0.6000 0.9600 | adjustment: 0.0400L 0.4400 0.8000");
}

TEST_F(DriftReportTest, NeverJoinsAcrossASetup) {
  Channel channel = channelWith("TT-1", currentInput(100));
  channel.setups.push_back({2, moment("2022-01-01T00:00"), currentInput(150), "range widened"});
  open(smallSite({channel}));
  add({"TT-1", "2020-03-01T08:00", always(0.9)});
  add({"TT-1", "2021-03-01T08:00", always(0.1)});
  add({"TT-1", "2022-03-01T08:00", always(0.2), nullptr, 2});
  add({"TT-1", "2023-03-01T08:00", always(0.3), nullptr, 2});
  add({"TT-1", "2024-02-29T08:00", always(0.4), nullptr, 2});
  const DriftItem item = at(report("2024-06-01"), "TT-1", "50");
  EXPECT_EQ(drawn(item.segments), "first calibration: 0.9000 0.1000 | new setup: 0.2000 0.3000 0.4000");
  EXPECT_EQ(drawn(item.fitted), "new setup: 0.2000 0.3000 0.4000");
  EXPECT_EQ(item.calibrations, 3);
  ASSERT_TRUE(item.fit);
  EXPECT_NEAR(item.fit->rate, 0.1 * 365.25 / 365.0, 1e-6);
  EXPECT_NEAR(item.limits.high, 1.5, 1e-9) << "limits by the setup and plan in force";

  // As it stood before the change: the first setup's own fit and limits.
  const DriftItem before = at(report("2021-12-31"), "TT-1", "50");
  EXPECT_EQ(drawn(before.fitted), "first calibration: 0.9000 0.1000");
  EXPECT_LT(before.fit->rate, -0.7);
  EXPECT_NEAR(before.limits.high, 1.0, 1e-9);
  // In force but not calibrated yet: what was known stays for the chart and is not fitted.
  const DriftItem between = at(report("2022-01-15"), "TT-1", "50");
  EXPECT_EQ(between.segments.size(), 1u);
  EXPECT_TRUE(between.fitted.empty());
  EXPECT_FALSE(between.fit);
  EXPECT_FALSE(between.bandOutOn);
  EXPECT_EQ(between.calibrations, 0);
  EXPECT_NEAR(between.limits.high, 1.5, 1e-9) << "by the plan and setup in force, not as last judged";
}

TEST_F(DriftReportTest, ASensorSwapBreaksTheLoopOnly) {
  Channel channel = channelWith("TT-1", currentInput(100),
                                {{Subject::channel, "AI", "yearly"}, {Subject::loop, "AI", "yearly"}});
  channel.fittings = {{"TX-1", moment("2018-03-01T08:00"), moment("2021-06-01T08:00")},
                      {"TX-2", moment("2021-06-01T08:00"), std::nullopt}};
  open(smallSite({channel}));
  const char* days[] = {"2020-03-01", "2021-03-01", "2022-03-01", "2023-03-01"};
  for (int i = 0; i < 4; ++i) {
    const std::string day = days[i];
    Visit alone{"TT-1", day + "T08:00", always(0.1 * i)};
    alone.sensor = i < 2 ? "TX-1" : "TX-2";  // noted, though it is not what was calibrated
    add(alone);
    add({"TT-1", day + "T09:00", always(0.2 * i), nullptr, 1, Subject::loop, i < 2 ? "TX-1" : "TX-2"});
  }
  for (const DriftItem& item : report("2024-01-01")) {
    if (item.subject == Subject::channel) {
      EXPECT_EQ(item.segments.size(), 1u);
      EXPECT_EQ(item.calibrations, 4);
    } else {
      EXPECT_EQ(drawn(item.segments), "first calibration: 0.0000 0.2000 | another sensor: 0.4000 0.6000");
      EXPECT_EQ(item.calibrations, 2);
      EXPECT_EQ(item.fit->degreesOfFreedom, 0);
    }
  }
}

TEST_F(DriftReportTest, APartlySkippedVisitContributesWhatItHas) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  add({"TT-1", "2020-03-01T08:00", spread(0.1)});
  Visit partly{"TT-1", "2021-03-01T08:00", spread(0.2), spread(0.0)};
  partly.skip = [](const TestPoint& point) {
    return point.percent == 100 || (point.percent == 50 && point.direction == Direction::down);
  };
  add(partly);
  add({"TT-1", "2022-03-01T08:00", spread(0.1)});
  const auto items = report("2022-06-01");
  EXPECT_EQ(drawn(at(items, "TT-1", "0").segments),
            "first calibration: 0.1000 0.2000 | adjustment: 0.0000L 0.1000");
  EXPECT_EQ(drawn(at(items, "TT-1", "50").segments),
            "first calibration: 0.1500 0.3100 | adjustment: 0.0100L 0.1500");
  EXPECT_EQ(drawn(at(items, "TT-1", "100").segments), "first calibration: 0.2000 | adjustment: 0.2000");
  EXPECT_EQ(at(items, "TT-1", "100").calibrations, 2);
  EXPECT_FALSE(at(items, "TT-1", "100").fit);
}

TEST_F(DriftReportTest, ForecastsAreTheFirstDaysOutside) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  const double errors[] = {0.00, 0.13, 0.19, 0.31, 0.41};
  for (int i = 0; i < 5; ++i) {
    add({"TT-1", std::to_string(2020 + i) + "-03-01T08:00", always(errors[i])});
  }
  const DriftItem item = at(report("2024-06-01"), "TT-1", "0");
  ASSERT_TRUE(item.bandOutOn && item.lineOutOn);
  const auto outsideAtEndOf = [&](Date day, bool band) {
    const Prediction seen =
        predict(*item.fit, yearsBetween(item.origin, Moment(day + boost::gregorian::days(1))));
    return band ? *seen.high > item.limits.high || *seen.low < item.limits.low
                : seen.value > item.limits.high;
  };
  for (const bool band : {true, false}) {
    Date day = date("2024-06-01");
    while (!outsideAtEndOf(day, band)) {
      day += boost::gregorian::days(1);
    }
    EXPECT_EQ(formatDate(band ? *item.bandOutOn : *item.lineOutOn), formatDate(day));
  }
  EXPECT_LT(*item.bandOutOn, *item.lineOutOn);
  // Asked when it is already out, the answer is today.
  const DriftItem late = at(report("2035-01-01"), "TT-1", "0");
  EXPECT_EQ(formatDate(*late.bandOutOn), "2035-01-01");
  EXPECT_EQ(formatDate(*late.lineOutOn), "2035-01-01");
}

TEST_F(DriftReportTest, ALevelErrorNeverLeaves) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  for (int i = 0; i < 4; ++i) {
    add({"TT-1", std::to_string(2020 + i) + "-03-01T08:00", always(0.25)});
  }
  const DriftItem item = at(report("2024-06-01"), "TT-1", "0");
  EXPECT_NEAR(item.fit->rate, 0.0, 1e-12);
  EXPECT_FALSE(item.lineOutOn);
}

// Four like inputs of different scaling: their rates are compared in fractions of span. A voltage input is
// not alike.
TEST_F(DriftReportTest, PoolsLikeSubjectsOnly) {
  AnalogInputSetup volts = std::get<AnalogInputSetup>(currentInput(100).kind);
  volts.signal = {0.0, 10.0, Unit::volt};
  const double tops[] = {100, 200, 50, 100};
  const double rates[] = {0.001, 0.002, 0.0005, 0.004};  // fractions of span per year
  std::vector<Channel> channels;
  for (int i = 0; i < 4; ++i) {
    channels.push_back(channelWith("TT-" + std::to_string(i), currentInput(tops[i])));
  }
  channels.push_back(channelWith("VT-1", {volts, 0.0}));
  open(smallSite(channels));
  const double wobble[] = {0.0, 0.0004, -0.0005, 0.0003, -0.0002};
  for (int c = 0; c < 5; ++c) {
    for (int i = 0; i < 5 - (c == 2 ? 3 : 0); ++i) {
      const double top = c < 4 ? tops[c] : 100.0;
      const double rate = c < 4 ? rates[c] : 0.05;
      add({c < 4 ? "TT-" + std::to_string(c) : "VT-1", std::to_string(2019 + i) + "-03-01T08:00",
           always(top * (rate * i + wobble[(i + c) % 5]))});
    }
  }
  const auto items = report("2024-06-01");
  ASSERT_EQ(items.size(), 15u);
  double low = 1.0;
  double high = -1.0;
  for (int c = 0; c < 4; ++c) {
    const DriftItem& item = at(items, "TT-" + std::to_string(c), "50");
    low = std::min(low, item.fit->rate / tops[c]);
    high = std::max(high, item.fit->rate / tops[c]);
  }
  for (int c = 0; c < 4; ++c) {
    const DriftItem& item = at(items, "TT-" + std::to_string(c), "50");
    ASSERT_TRUE(item.pooledRate) << c;
    EXPECT_EQ(item.likeSubjects, 4);
    EXPECT_GT(*item.pooledRate / tops[c], low);
    EXPECT_LT(*item.pooledRate / tops[c], high);
    EXPECT_GT(*item.pooledRateStandardError, 0.0);
  }
  // Two readings tell a rate but no scatter: the group's stands in, and the rate moves most.
  const DriftItem& fewest = at(items, "TT-2", "50");
  EXPECT_EQ(fewest.fit->degreesOfFreedom, 0);
  EXPECT_FALSE(at(items, "VT-1", "50").pooledRate);
  EXPECT_EQ(at(items, "VT-1", "50").likeSubjects, 0);

  // One channel alone gives the same answer as the whole site.
  for (const DriftItem& whole : items) {
    const DriftItem alone = at(report("2024-06-01", whole.channel), whole.channel, whole.point);
    EXPECT_EQ(alone.fit->rate, whole.fit->rate);
    ASSERT_EQ(alone.pooledRate.has_value(), whole.pooledRate.has_value());
    if (whole.pooledRate) {
      EXPECT_NEAR(*alone.pooledRate, *whole.pooledRate, 1e-12);
    }
  }
  EXPECT_FALSE(at(report("2024-06-01", "TT-0", Pooling::none), "TT-0", "50").pooledRate);
  EXPECT_EQ(report("2024-06-01", "TT-0").size(), 3u);
}

// Readings that never change have no scatter of their own; what rounding to the step hides stands in.
TEST_F(DriftReportTest, ReadingsWithoutScatterArePooledByTheirStep) {
  open(smallSite({channelWith("TT-1", currentInput(100)), channelWith("TT-2", currentInput(100)),
                  channelWith("TT-3", currentInput(100))}));
  for (const std::string tag : {"TT-1", "TT-2", "TT-3"}) {
    for (int i = 0; i < 3; ++i) {
      add({tag, std::to_string(2020 + i) + "-03-01T08:00", always(0.0)});
    }
  }
  const DriftItem item = at(report("2024-06-01"), "TT-1", "0");
  EXPECT_EQ(*item.fit->residualSd, 0.0);
  ASSERT_TRUE(item.pooledRate);
  EXPECT_EQ(*item.pooledRate, 0.0);
  // Three alike readings at 0, 1 and 2 years: Sxx 2. Their rates may differ or not, so what is known of one
  // lies between what its own readings say and the mean of three.
  const double step = channelModel(currentInput(100))->step();
  EXPECT_LT(*item.pooledRateStandardError, std::sqrt(step * step / 12.0 / 2.0));
  EXPECT_GT(*item.pooledRateStandardError, std::sqrt(step * step / 12.0 / 2.0 / 3.0));
  EXPECT_NEAR(*item.band->scatter, step / std::sqrt(12.0), 1e-3 * step);
}

TEST_F(DriftReportTest, EarlierUnitsAreToldInTheUnitInForceOrCounted) {
  Channel warmer = channelWith("TT-1", currentInput(212, Unit::fahrenheit));
  warmer.setups.push_back({2, moment("2022-01-01T00:00"), currentInput(100, Unit::celsius), "SI"});
  Channel other = channelWith("PT-1", currentInput(10, Unit::bar));
  other.setups.push_back(
      {2, moment("2022-01-01T00:00"), currentInput(100, Unit::celsius), "another measurement"});
  open(smallSite({warmer, other}));
  for (const std::string tag : {"TT-1", "PT-1"}) {
    add({tag, "2020-03-01T08:00", always(0.09)});
    add({tag, "2021-03-01T08:00", always(0.018)});
    add({tag, "2022-03-01T08:00", always(0.2), nullptr, 2});
  }
  const auto items = report("2022-06-01");
  const DriftItem& converted = at(items, "TT-1", "50");
  EXPECT_EQ(converted.unit, Unit::celsius);
  EXPECT_EQ(drawn(converted.segments), "first calibration: 0.0500 0.0100 | new setup: 0.2000");
  EXPECT_EQ(converted.otherUnitVisits, 0);
  const DriftItem& counted = at(items, "PT-1", "50");
  EXPECT_EQ(counted.unit, Unit::celsius);
  EXPECT_EQ(drawn(counted.segments), "new setup: 0.2000");
  EXPECT_EQ(counted.otherUnitVisits, 2);
  // Before the first visit under the new setup there is only the old unit: told in that.
  const DriftItem old = at(report("2022-02-01"), "PT-1", "50");
  EXPECT_EQ(old.unit, Unit::bar);
  EXPECT_EQ(drawn(old.segments), "first calibration: 0.0900 0.0180");
  EXPECT_FALSE(old.fit);
}

TEST_F(DriftReportTest, PointsNoLongerTestedKeepTheirHistory) {
  Channel channel = channelWith("TT-1", currentInput(100));
  channel.setups.push_back(
      {2, moment("2022-01-01T00:00"), {ThresholdSetup{24.0, 15.0, 5.0, 0}, 0.0}, "now a switch"});
  open(smallSite({channel}));
  add({"TT-1", "2020-03-01T08:00", always(0.1)});
  add({"TT-1", "2021-03-01T08:00", always(0.2)});
  add({"TT-1", "2022-03-01T08:00", always(0.05), nullptr, 2});
  add({"TT-1", "2023-03-01T08:00", always(0.07), nullptr, 2});
  const auto items = report("2024-01-01");
  ASSERT_EQ(items.size(), 5u);
  EXPECT_EQ(items[0].point, "on");
  EXPECT_FALSE(items[0].pointPercent);
  EXPECT_EQ(items[0].unit, Unit::volt);
  EXPECT_EQ(items[0].calibrations, 2);
  EXPECT_TRUE(items[0].fit);
  const DriftItem& gone = at(items, "TT-1", "50");
  EXPECT_EQ(drawn(gone.segments), "first calibration: 0.1000 0.2000");
  EXPECT_FALSE(gone.fit);
  EXPECT_NEAR(gone.limits.high, 1.0, 1e-9) << "as last judged";
}

TEST_F(DriftReportTest, ItemsComeInTheRegistersOrderWithoutRetiredOnes) {
  Channel retired = channelWith("A-0", currentInput(100));
  retired.retired = true;
  open(smallSite({channelWith("Z-1", currentInput(100)), retired, channelWith("B-1", currentInput(100)),
                  channelWith("A-1", currentInput(100))}));
  for (const std::string tag : {"A-0", "A-1", "B-1", "Z-1"}) {
    add({tag, "2020-03-01T08:00", always(0.1)});
  }
  std::string order;
  for (const DriftItem& item : report("2024-01-01")) {
    order += item.channel + "@" + item.point + " ";
  }
  EXPECT_EQ(order, "Z-1@0 Z-1@50 Z-1@100 B-1@0 B-1@50 B-1@100 A-1@0 A-1@50 A-1@100 ");
  EXPECT_EQ(report("2024-01-01", "A-0").size(), 3u) << "asked for by name";
  EXPECT_TRUE(report("2019-01-01").empty()) << "nothing had been read yet";
}

TEST_F(DriftReportTest, ItSaysWhatTheBandRestsOnAndHowProbableToleranceIs) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  const double errors[] = {0.00, 0.13, 0.19, 0.31, 0.41};
  for (int i = 0; i < 5; ++i) {
    add({"TT-1", std::to_string(2020 + i) + "-03-01T08:00", always(errors[i])});
  }
  const DriftItem item = at(report("2024-06-01"), "TT-1", "0");
  EXPECT_EQ(item.basis, BandBasis::own);
  EXPECT_TRUE(item.group.tooSmall);
  EXPECT_EQ(item.group.size, 1);
  EXPECT_NE(basisSentence(item).find("too small"), std::string::npos);
  ASSERT_TRUE(item.inTolerance && item.rateTest && item.influence);
  EXPECT_NEAR(*item.inTolerance, *probabilityInTolerance(item, moment("2024-06-01T00:00")), 1e-12);
  EXPECT_GT(*item.inTolerance, 0.99);
  EXPECT_LT(item.rateTest->pValue, 0.01);
  // On the day the line leaves tolerance it is one half, whatever the band.
  EXPECT_NEAR(*probabilityInTolerance(item, Moment(*item.lineOutOn)), 0.5, 0.01);
  const auto drawn = predictAt(item, moment("2026-01-01T00:00"));
  ASSERT_TRUE(drawn && drawn->low);
  EXPECT_NEAR(drawn->value, predict(*item.fit, drawn->time).value, 1e-12);
  EXPECT_TRUE(item.findings.empty());
}

TEST_F(DriftReportTest, APlanWithoutACommonPointIsReadOffItsZeroAndSpan) {
  const auto means = [](double zero) {
    std::vector<PointMean> out;
    for (const double percent : {10.0, 40.0, 90.0}) {
      out.push_back({formatShortest(percent),
                     PointRole::value,
                     percent,
                     Unit::celsius,
                     zero * (1.0 + percent / 100.0),
                     2,
                     {}});
    }
    return out;
  };
  std::vector<VisitMeans> visits(3);
  const PlanPoints plan{{"0", 0.0}, {"50", 50.0}, {"100", 100.0}};
  const double zeros[] = {0.1, 0.3, 0.5};
  for (int i = 0; i < 3; ++i) {
    visits[static_cast<std::size_t>(i)].performed = moment(std::to_string(2020 + i) + "-03-01T08:00");
    visits[static_cast<std::size_t>(i)].found = means(zeros[i]);
  }
  for (PointMean& mean : visits[2].found) {  // by the present plan
    mean.percent = mean.percent == 10.0 ? 0.0 : mean.percent == 40.0 ? 50.0 : 100.0;
    mean.key = formatShortest(mean.percent);
    mean.error = 0.7;
  }
  const PointHistory at50 = pointHistory(visits, "50", Unit::celsius, plan);
  EXPECT_EQ(drawn(at50.segments), "first calibration: 0.1500 0.4500 | other test points: 0.7000");
  EXPECT_EQ(at50.otherPlanVisits, 2);
  const PointHistory at100 = pointHistory(visits, "100", Unit::celsius, plan);
  EXPECT_EQ(drawn(at100.segments), "first calibration: 0.2000 0.6000 | other test points: 0.7000");
  // With one point in common that one goes on and the others begin anew.
  const PlanPoints shared{{"10", 10.0}, {"50", 50.0}, {"100", 100.0}};
  EXPECT_EQ(drawn(pointHistory(visits, "10", Unit::celsius, shared).segments),
            "first calibration: 0.1100 0.3300");
  EXPECT_EQ(pointHistory(visits, "50", Unit::celsius, shared).segments.size(), 1u);
}

TEST_F(DriftReportTest, ALoopIsComparedWithItsParts) {
  Channel channel = channelWith("TT-1", currentInput(100),
                                {{Subject::channel, "AI", "yearly"}, {Subject::loop, "AI", "yearly"}});
  channel.fittings = {{"TX-1", moment("2018-03-01T08:00"), std::nullopt}};
  open(smallSite({channel}));
  const double wobble[] = {0.0, 0.004, -0.003, 0.002, -0.001};
  for (int i = 0; i < 5; ++i) {
    const std::string day = std::to_string(2020 + i) + "-03-01";
    add({"TT-1", day + "T08:00", always(0.05 * i + wobble[i])});
    add({"TT-1", day + "T09:00", always(0.15 * i - wobble[i]), nullptr, 1, Subject::loop, "TX-1"});
  }
  int told = 0;
  for (const DriftItem& item : report("2024-06-01")) {
    if (item.subject != Subject::loop) {
      EXPECT_FALSE(item.parts);
      continue;
    }
    ++told;
    ASSERT_TRUE(item.parts && item.parts->channel && item.parts->loop);
    EXPECT_FALSE(item.parts->sensor);
    EXPECT_EQ(item.parts->follows, Subject::sensor);
    EXPECT_NEAR(item.parts->difference.rate, item.fit->rate - item.parts->channel->rate, 1e-12);
    EXPECT_NEAR(item.parts->difference.rate, 0.10, 0.01);
    EXPECT_NEAR(item.parts->difference.standardError,
                std::hypot(item.parts->channel->standardError, item.parts->loop->standardError), 1e-12);
  }
  EXPECT_EQ(told, 3);
}

TEST_F(DriftReportTest, TheBacktestHidesTheLastVisitOnly) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  const double errors[] = {0.00, 0.13, 0.19, 0.31, 0.90};
  for (int i = 0; i < 5; ++i) {
    add({"TT-1", std::to_string(2020 + i) + "-03-01T08:00", always(errors[i])});
  }
  const Backtest test = backtestDrift(store(), date("2024-06-01"));
  ASSERT_EQ(test.readings.size(), 3u);
  const HiddenReading& first = test.readings.front();
  const DriftItem before = at(report("2024-02-01"), "TT-1", "0");
  EXPECT_NEAR(first.found, 0.90, 1e-9);
  EXPECT_NEAR(first.lastValue, 0.31, 1e-9);
  EXPECT_NEAR(first.forecast.value, predictAt(before, first.at)->value, 1e-12);
  EXPECT_NEAR(first.straightLine, first.forecast.value, 1e-12) << "one segment: the same line";
  EXPECT_EQ(test.withBand, 3);
  EXPECT_EQ(test.inBand, 0) << "0.90 is far off";
  EXPECT_NEAR(test.lastValueError, 0.59, 1e-9) << "of a tolerance of 1";
}

TEST_F(DriftReportTest, RefusesAChannelThatIsNotThere) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  EXPECT_THROW(report("2024-01-01", "TT-7"), InputError);
  EXPECT_TRUE(report("2024-01-01", "TT-1").empty());
}

}  // namespace
}  // namespace spanwright
