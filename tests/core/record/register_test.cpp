// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/register.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

namespace spanwright {
namespace {

Moment at(const char* text) {
  return *parseMoment(text);
}

StandardCertificate certificate(const char* number, const char* from, const char* until) {
  StandardCertificate made;
  made.number = number;
  made.validFrom = *parseDate(from);
  made.validUntil = *parseDate(until);
  return made;
}

Register sound() {
  Register site;
  site.site.code = "INV";
  site.site.name = "Invented site";
  site.places = {{"Hall", "Hall", "", 0}, {"Hall / C1", "C1", "Hall", 0}};
  site.people = {{"mt", "M. T.", {Role::technician}, std::nullopt}};
  site.intervals.emplace_back();
  site.intervals[0].code = "yearly";
  site.intervals[0].months = 12;
  Plan plan;
  plan.code = "P5";
  plan.scheme.percents = {0, 25, 50, 75, 100};
  plan.tolerance.plus.percentOfSpan = plan.tolerance.minus.percentOfSpan = 0.25;
  site.plans = {plan};
  Sensor sensor;
  sensor.serial = "S-1";
  sensor.range.process = {0, 100, Unit::celsius};
  sensor.range.output = Span{4, 20, Unit::milliampere};
  site.sensors = {sensor};
  Standard standard;
  standard.serial = "LC-1";
  standard.certificates = {certificate("C1", "2024-01-10", "2025-01-31")};
  standard.certificates[0].ranges = {{Unit::milliampere, 0.001, {{4, 0, 0.001}, {20, 0, 0.001}}}};
  site.standards = {standard};
  Channel channel;
  channel.tag = "TT-1";
  channel.place = "Hall / C1";
  AnalogInputSetup input;
  input.signal = {4, 20, Unit::milliampere};
  input.units = Span{0, 100, Unit::celsius};
  channel.setups = {{1, at("2020-01-01"), {input}, ""}, {2, at("2022-06-01T08:00"), {input}, ""}};
  channel.fittings = {{"S-1", at("2020-01-01"), at("2021-01-01")}, {"S-1", at("2021-06-01"), std::nullopt}};
  channel.routines = {{Subject::channel, "P5", "yearly"}};
  site.channels = {channel};
  return site;
}

TEST(RegisterFaults, NoneInASoundRegister) {
  EXPECT_EQ(registerFaults(sound()), std::vector<std::string>{});
}

TEST(RegisterFaults, EachMistakeIsFoundAndNamed) {
  const struct {
    std::function<void(Register&)> damage;
    const char* part;  // of the sentence
  } cases[] = {
      {[](Register& r) { r.site.code.clear(); }, "no code"},
      {[](Register& r) { r.calendar.workingWeekdays.clear(); }, "working weekday"},
      {[](Register& r) { r.calendar.graceDays = -1; }, "grace"},
      {[](Register& r) { r.places[1].parentPath = "Attic"; }, "\"Attic\", which is not described"},
      {[](Register& r) { r.places.push_back(r.places[0]); }, "place \"Hall\" stands there twice"},
      {[](Register& r) { r.people.push_back(r.people[0]); }, "person \"mt\" stands there twice"},
      {[](Register& r) { r.channels.push_back(r.channels[0]); }, "channel \"TT-1\" stands there twice"},
      {[](Register& r) { r.plans[0].tolerance = {}; }, "plan \"P5\""},
      {[](Register& r) {
         r.plans[0].scheme.percents = {0, 50, 50};
       },
       "rise without repeats"},
      {[](Register& r) {
         r.plans[0].scheme.percents = {0, 120};
       },
       "between -5 and 105"},
      {[](Register& r) { r.plans[0].scheme.repeats = 0; }, "repeats"},
      {[](Register& r) { r.plans[0].adjustLimit = 1.5; }, "adjust limit"},
      {[](Register& r) { r.plans[0].junctionUncertainty = 0.0; }, "reference junction must be above zero K"},
      {[](Register& r) { r.plans[0].junctionUncertainty = std::nan(""); }, "reference junction"},
      {[](Register& r) { r.plans[0].leadHalfWidth = -0.1; }, "leads must be above zero ohm"},
      {[](Register& r) { r.plans[0].leadHalfWidth = HUGE_VAL; }, "half-width of the leads"},
      {[](Register& r) { r.plans[0].decisionRule = {.basis = GuardBasis::factor, .factor = 0.0}; },
       "the guard band's factor must be above 0, at most 3"},
      {[](Register& r) {
         r.plans[0].decisionRule = {.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.5};
       },
       "above 0 and below 0.5"},
      {[](Register& r) { r.plans[0].decisionRule.basis = GuardBasis::width; }, "not in units of a reading"},
      {[](Register& r) { r.intervals[0].months = 0; }, "months or days"},
      {[](Register& r) { r.intervals[0].months = 1201; }, "hundred years"},
      {[](Register& r) { r.intervals[0].days = 36526; }, "hundred years"},
      {[](Register& r) { r.intervals[0].kind = PolicyKind::forecast; }, "needs a lower and an upper limit"},
      {[](Register& r) { r.intervals[0].minimumDays = -1; }, "limits are negative"},
      {[](Register& r) {
         r.intervals[0].minimumDays = 700;
         r.intervals[0].maximumDays = 600;
       },
       "below the lower one"},
      {[](Register& r) { r.intervals[0].maximumDays = 10; }, "lies outside its limits"},
      {[](Register& r) { r.intervals[0].minimumDays = 3000; }, "lies outside its limits"},
      {[](Register& r) { r.intervals[0] = {"yearly", PolicyKind::staircase, 0, 12, 90, 800, 1.0, 0.5}; },
       "a step up is a factor above 1"},
      {[](Register& r) { r.intervals[0] = {"yearly", PolicyKind::staircase, 0, 12, 90, 800, 1.5, 1.0}; },
       "a step down one between 0 and 1"},
      {[](Register& r) {
         r.intervals[0] = {"yearly", PolicyKind::reliability, 0, 12, 90, 800, 0, 0, 1.0, 0.95, 10};
       },
       "target and confidence are probabilities"},
      {[](Register& r) {
         r.intervals[0] = {"yearly", PolicyKind::reliability, 0, 12, 90, 800, 0, 0, 0.9, 0.95, 0};
       },
       "at least one outcome"},
      {[](Register& r) { r.calendar.earlyDays = -1; }, "early days must not be negative"},
      {[](Register& r) { r.people[0].hoursPerWeek = 0.0; }, "hours per week must be above 0"},
      {[](Register& r) { r.people[0].hoursPerWeek = std::nan(""); }, "hours per week must be above 0"},
      {[](Register& r) {
         r.people[0].roles = {Role::planner};
         r.people[0].hoursPerWeek = 8.0;
       },
       "is no technician"},
      {[](Register& r) {
         r.people[0].away = {{*parseDate("2026-07-02"), *parseDate("2026-07-01"), "holidays"}};
       },
       "\"holidays\" end before they begin"},
      {[](Register& r) { r.sensors[0].range.process.high = 0; }, "sensor \"S-1\""},
      {[](Register& r) { r.standards[0].certificates[0].validUntil = *parseDate("2023-01-01"); },
       "valid until before"},
      {[](Register& r) { r.standards[0].certificates[0].coverageFactor = 0; }, "coverage factor"},
      {[](Register& r) { r.standards[0].certificates[0].ranges[0].points[0].uncertainty = 0; },
       "uncertainty above zero"},
      {[](Register& r) { r.channels[0].place = "Attic"; }, "\"Attic\" is not described"},
      {[](Register& r) { r.channels[0].setups.clear(); }, "has no setup"},
      {[](Register& r) { r.channels[0].setups[1].inForceFrom = at("2019-01-01"); },
       "not later than the one before"},
      {[](Register& r) { std::get<AnalogInputSetup>(r.channels[0].setups[0].setup.kind).signal.high = 4; },
       "setup 1"},
      {[](Register& r) { r.channels[0].fittings[0].sensor = "S-9"; }, "sensor \"S-9\" is not described"},
      {[](Register& r) { r.channels[0].fittings[0].until = std::nullopt; }, "is fitted while"},
      {[](Register& r) { r.channels[0].fittings[0].until = at("2019-01-01"); }, "comes off before"},
      {[](Register& r) { r.channels[0].routines.push_back(r.channels[0].routines[0]); }, "two routines"},
      {[](Register& r) { r.channels[0].routines[0].plan = "P9"; }, "plan \"P9\""},
      {[](Register& r) { r.channels[0].routines[0].interval = "weekly"; }, "policy \"weekly\""},
      {[](Register& r) {
         r.channels[0].fittings.clear();
         r.channels[0].routines[0].subject = Subject::loop;
       },
       "loop routine needs a sensor"},
  };
  for (const auto& one : cases) {
    Register site = sound();
    one.damage(site);
    const auto faults = registerFaults(site);
    EXPECT_TRUE(
        std::any_of(faults.begin(), faults.end(),
                    [&](const std::string& fault) { return fault.find(one.part) != std::string::npos; }))
        << "expected a fault saying: " << one.part;
  }
}

TEST(SetupInForce, ChangesAtItsMomentNotADayLater) {
  const Register site = sound();
  const Channel& channel = site.channels[0];
  EXPECT_EQ(setupInForce(channel, at("2019-12-31")), nullptr);
  EXPECT_EQ(setupInForce(channel, at("2020-01-01"))->version, 1);
  EXPECT_EQ(setupInForce(channel, at("2022-06-01T07:59:59"))->version, 1);
  EXPECT_EQ(setupInForce(channel, at("2022-06-01T08:00"))->version, 2);
}

TEST(FittingAt, EndsAtItsMoment) {
  const Register site = sound();
  const Channel& channel = site.channels[0];
  EXPECT_EQ(fittingAt(channel, at("2020-12-31T23:59:59")), &channel.fittings[0]);
  EXPECT_EQ(fittingAt(channel, at("2021-01-01")), nullptr);
  EXPECT_EQ(fittingAt(channel, at("2030-01-01")), &channel.fittings[1]);
}

TEST(CertificateOn, BothEndsCountAndTheNewestWins) {
  Register site = sound();
  Standard& standard = site.standards[0];
  standard.certificates.push_back(certificate("C2", "2025-01-20", "2026-01-31"));
  const auto number = [&](const char* day) {
    const StandardCertificate* found = certificateOn(standard, *parseDate(day));
    return found ? found->number : std::string("none");
  };
  EXPECT_EQ(number("2024-01-09"), "none");
  EXPECT_EQ(number("2024-01-10"), "C1");
  EXPECT_EQ(number("2025-01-19"), "C1");
  EXPECT_EQ(number("2025-01-20"), "C2");
  EXPECT_EQ(number("2026-01-31"), "C2");
  EXPECT_EQ(number("2026-02-01"), "none");
}

TEST(Register, FindsChannelsIndexedCopiedAndGrown) {
  Register site = sound();
  for (int i = 0; i < 1000; ++i) {
    Channel channel = site.channels[0];
    channel.tag = "X-" + std::to_string(i);
    site.channels.push_back(channel);
  }
  site.index();
  ASSERT_NE(site.channel("X-777"), nullptr);
  EXPECT_EQ(site.channel("X-777")->tag, "X-777");
  EXPECT_EQ(site.channel("X-1000"), nullptr);
  EXPECT_EQ(site.sensor("S-1"), &site.sensors[0]);
  EXPECT_EQ(site.sensor("S-2"), nullptr);
  Register copy = site;
  EXPECT_EQ(copy.channel("X-5"), &copy.channels[6]);
  copy.channels.erase(copy.channels.begin());
  EXPECT_EQ(copy.channel("X-5"), &copy.channels[5]);
  const Register moved = std::move(site);
  EXPECT_EQ(moved.channel("TT-1"), &moved.channels[0]);
}

}  // namespace
}  // namespace spanwright
