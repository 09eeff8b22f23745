// SPDX-License-Identifier: GPL-3.0-or-later
//
// A small invented site in a record of its own, and visits to it with the errors a test wants.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "core/signal/point_model.h"
#include "core/store/store.h"
#include "core/tasks/status.h"

namespace spanwright::status_test {

inline Date date(const std::string& text) {
  return *parseDate(text);
}
inline Moment moment(const std::string& text) {
  return *parseMoment(text);
}

/// 4-20 mA to 0..`top` of `unit`.
inline ChannelSetup currentInput(double top, Unit unit = Unit::celsius) {
  AnalogInputSetup input;
  input.signal = {4.0, 20.0, Unit::milliampere};
  input.counts = Span{0.0, 32000.0, Unit::count};
  input.bits = 16;
  input.units = Span{0.0, top, unit};
  input.resolution = 0.01;
  return {input, 0.5};
}

inline Channel channelWith(std::string tag, ChannelSetup setup,
                           std::vector<Routine> routines = {{Subject::channel, "AI", "yearly"}}) {
  Channel channel;
  channel.tag = std::move(tag);
  channel.place = "Hall / Cabinet";
  channel.setups = {{1, moment("2018-03-01T08:00"), setup, "commissioning"}};
  channel.routines = std::move(routines);
  return channel;
}

inline Register smallSite(std::vector<Channel> channels) {
  Register site;
  site.site.code = "TST";
  site.site.name = "Invented test site";
  site.places = {{"Hall", "Hall", "", 0}, {"Hall / Cabinet", "Cabinet", "Hall", 0}};
  site.people = {{"mtolland", "Mara Tolland", {Role::technician}, std::nullopt}};
  Plan plan;
  plan.code = "AI";
  plan.revision = "1";
  plan.title = "Three points up and down";
  plan.scheme.percents = {0, 50, 100};
  plan.scheme.order = RunOrder::upDown;
  plan.tolerance.plus.percentOfSpan = 1.0;
  plan.tolerance.minus.percentOfSpan = 1.0;
  site.plans = {plan};
  site.intervals = {{"yearly", PolicyKind::fixed, 0, 12, 0, 0}, {"short", PolicyKind::fixed, 90, 0, 0, 0}};
  SensorRange range;
  range.process = {0.0, 100.0, Unit::celsius};
  range.output = Span{4.0, 20.0, Unit::milliampere};
  site.sensors = {{"TX-1", "Invented", "head transmitter", "", range},
                  {"TX-2", "Invented", "head transmitter", "", range}};
  site.channels = std::move(channels);
  return site;
}

/// A visit with these errors in reading units. Nothing in `left`: as found stands as left.
struct Visit {
  std::string channel;
  std::string when;
  std::function<double(const TestPoint&)> found;
  std::function<double(const TestPoint&)> left = nullptr;
  int setup = 1;
  Subject subject = Subject::channel;
  std::string sensor = "";
  bool repaired = false;
  std::function<bool(const TestPoint&)> skip = nullptr;
};

inline std::function<double(const TestPoint&)> always(double error) {
  return [error](const TestPoint&) { return error; };
}

class StatusTest : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() /
              ("spanwright-status-" + std::to_string(::getpid()) + "-" + info->name());
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override {
    store_.reset();
    std::filesystem::remove_all(folder_);
  }

  Store& open(const Register& site) {
    store_ = std::make_unique<Store>(Store::create(folder_ / "record.spanwright", site));
    return *store_;
  }
  Store& store() { return *store_; }

  void add(const Visit& visit) {
    const Channel& channel = *store().site().channel(visit.channel);
    const ChannelSetup& setup = channel.setups.at(static_cast<std::size_t>(visit.setup - 1)).setup;
    const Sensor* sensor = visit.sensor.empty() ? nullptr : store().site().sensor(visit.sensor);
    const PointModelPtr model = visit.subject == Subject::channel  ? channelModel(setup)
                                : visit.subject == Subject::sensor ? sensorModel(sensor->range)
                                                                   : loopModel(setup, sensor->range);
    const Plan& plan = store().site().plans.front();
    Calibration calibration;
    calibration.channel = visit.channel;
    calibration.subject = visit.subject;
    calibration.setupVersion = visit.setup;
    calibration.sensor = visit.sensor;
    calibration.plan = plan.code;
    calibration.planRevision = plan.revision;
    calibration.performed = moment(visit.when);
    calibration.person = "mtolland";
    calibration.cautionsConfirmed = true;
    calibration.adjustment = {visit.left != nullptr && !visit.repaired, visit.repaired,
                              visit.left ? "zero trimmed" : ""};
    calibration.source = "entered";
    const auto read = [&](const std::function<double(const TestPoint&)>& error, Verdict& verdict) {
      std::vector<Reading> readings;
      std::vector<Verdict> verdicts;
      const ChannelSetup* at = visit.subject == Subject::sensor ? nullptr : &setup;
      for (const TestPoint& point : layOutPoints(plan.scheme, *model, at, visit.subject)) {
        Reading reading;
        reading.point = point;
        if (visit.skip && visit.skip(point)) {
          reading.skipReason = "valve could not be isolated";
        } else {
          reading.applied = point.nominalApplied;
          const auto expected =
              std::get<PointResult>(expectPoint(point, *model, at, plan.tolerance, reading.applied));
          reading.indicated = expected.expected + error(point);
          const auto result = std::get<PointResult>(
              evaluatePoint(point, *model, at, plan.tolerance, reading.applied, reading.indicated));
          reading.expected = result.expected;
          reading.limits = result.limits;
          reading.verdict = result.verdict;
        }
        verdicts.push_back(reading.verdict);
        readings.push_back(reading);
      }
      verdict = overall(verdicts);
      return readings;
    };
    calibration.asFound = read(visit.found, calibration.foundVerdict);
    calibration.leftVerdict = calibration.foundVerdict;
    if (visit.left) {
      calibration.asLeft = read(visit.left, calibration.leftVerdict);
    }
    store().add(calibration);
  }

 private:
  std::filesystem::path folder_;
  std::unique_ptr<Store> store_;
};

}  // namespace spanwright::status_test
