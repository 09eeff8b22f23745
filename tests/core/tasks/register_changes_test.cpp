// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/register_changes.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <functional>

#include "core/store/verify.h"
#include "core/tasks/typed_register.h"
#include "core/tasks/visit.h"
#include "tests/core/store/samples.h"

namespace spanwright {
namespace {

using test::at;
using test::everything;
using test::on;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TypedFields siteFields() {
  return {{"code", "NEW"},
          {"name", "New invented site"},
          {"place", "Hall / Cabinet"},
          {"person.login", "ada"},
          {"person.name", "Ada Example"},
          {"person.role.technician", "yes"},
          {"person.role.administrator", "yes"}};
}
TypedFields planFields() {
  return {
      {"code", "P3"},   {"revision", "1"}, {"title", "Three points"}, {"points", "0, 50, 100"},
      {"order", "up"},  {"repeats", "1"},  {"rule", "simple"},        {"tolerance.percent_of_span", "0.5"},
      {"minutes", "20"}};
}
TypedFields channelFields() {
  return {{"tag", "TT-1"},
          {"title", "Tank"},
          {"place", "Hall / Cabinet"},
          {"routine.channel.plan", "P3"},
          {"routine.channel.interval", "yearly"},
          {"setup.kind", "analog-input"},
          {"setup.from", "2026-01-01 08:00"},
          {"setup.signal.low", "4"},
          {"setup.signal.high", "20"},
          {"setup.signal.unit", "mA"},
          {"setup.units.low", "0"},
          {"setup.units.high", "250 °C"},
          {"setup.resolution", "0,1"},
          {"setup.remark", "commissioning"}};
}
TypedFields setupFields(const char* from, const char* high) {
  return {{"kind", "analog-input"}, {"from", from},     {"signal.low", "4"},  {"signal.high", "20"},
          {"signal.unit", "mA"},    {"units.low", "0"}, {"units.high", high}, {"units.unit", "degC"},
          {"resolution", "0.1"},    {"remark", "wider"}};
}
TypedFields sensorFields(const char* serial) {
  return {{"serial", serial},  {"process.low", "0"},  {"process.high", "250"}, {"process.unit", "degC"},
          {"output.low", "4"}, {"output.high", "20"}, {"output.unit", "mA"}};
}

TypedFields with(TypedFields fields, const char* field, const char* text) {
  fields[field] = text;
  return fields;
}

/// "field: what" of everything that is refused.
std::vector<std::string> refused(const std::function<void()>& work) {
  std::vector<std::string> all;
  try {
    work();
    ADD_FAILURE() << "nothing was refused";
  } catch (const InputError& error) {
    for (const Problem& each : error.problems()) {
      EXPECT_FALSE(each.todo.empty()) << each.what;
      all.push_back(each.where.field + ": " + each.what);
    }
  }
  return all;
}

CalendarRules readBack(const TypedFields& fields) {
  FieldReader reader(fields);
  return readCalendar(reader);
}

class RegisterForms : public testing::Test {
 protected:
  Store& store() {
    if (!store_) {
      store_ = std::make_unique<Store>(Store::create(file_, newSite(siteFields()), clock_));
    }
    return *store_;
  }
  /// A site with one channel, two sensors, and people of every role.
  void fill() {
    for (const auto& [login, role] : {std::pair("paul", "role.planner"), {"tess", "role.technician"}}) {
      add(RegisterKind::person, {{"login", login}, {"name", "Example"}, {role, "yes"}});
    }
    add(RegisterKind::plan, planFields());
    add(RegisterKind::interval, {{"code", "yearly"}, {"policy", "fixed"}, {"months", "12"}});
    add(RegisterKind::sensor, sensorFields("S-1"));
    add(RegisterKind::sensor, sensorFields("S-2"));
    add(RegisterKind::channel, channelFields());
  }
  void add(RegisterKind kind, const TypedFields& fields) { addToRegister(store(), kind, fields, "ada"); }
  CalibrationId calibrate(const char* when) {
    const VisitSheet sheet =
        std::get<VisitSheet>(openSheet(store().site(), "TT-1", Subject::channel, at(when)));
    ProposedVisit visit;
    visit.channel = "TT-1";
    visit.performed = at(when);
    visit.person = "ada";
    for (const TestPoint& point : sheet.points) {
      ProposedReading reading;
      reading.sequence = point.sequence;
      reading.typed.indicatedText = formatFixed(point.percent * 2.5, 1);
      visit.asFound.push_back(reading);
    }
    const CheckedVisit checked = checkVisit(store().site(), visit, clock_.localNow(), true);
    EXPECT_THAT(checked.problems, IsEmpty());
    return store().add(*checked.calibration);
  }
  void expectWhole() {
    EXPECT_THAT(registerFaults(store().site()), IsEmpty());
    for (const RecordProblem& problem : verifyRecord(file_).problems) {
      ADD_FAILURE() << problem.what;
    }
  }

  const test::Folder folder_;
  const test::FixedClock clock_{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  const std::filesystem::path file_ = folder_ / "new.record";

 private:
  std::unique_ptr<Store> store_;
};

TEST_F(RegisterForms, ANewSiteIsFilledFromNothingToItsFirstCalibration) {
  const Register& site = store().site();
  ASSERT_EQ(site.places.size(), 2U);
  EXPECT_EQ(site.places[1].parentPath, "Hall");
  EXPECT_EQ(site.places[1].name, "Cabinet");
  fill();
  const Channel& channel = *store().site().channel("TT-1");
  EXPECT_EQ(describe(channel.setups[0].setup), "4-20 mA to 0-250 degC");
  calibrate("2026-10-01T09:00:00");
  EXPECT_EQ(store().latestPassing().size(), 1U);
  expectWhole();
}

TEST_F(RegisterForms, TheSitesCalendarStandsInItsFormAndComesBack) {
  fill();
  TypedFields fields = *fieldsFor(store().site(), RegisterKind::site, "");
  EXPECT_EQ(fields["working.fri"], "yes");
  EXPECT_EQ(fields.count("working.sat"), 0U);
  fields.erase("working.fri");
  fields["working.sun"] = "yes";
  fields["closed"] = "2026-12-24 to 2027-01-02 winter shutdown\n2026-05-01";
  fields["grace_days"] = "7";
  fields["early_days"] = "";
  changeInRegister(store(), RegisterKind::site, "", fields, "ada");
  const CalendarRules& calendar = store().site().calendar;
  EXPECT_THAT(calendar.workingWeekdays, testing::UnorderedElementsAre(0, 1, 2, 3, 4));
  ASSERT_EQ(calendar.closed.size(), 2U);
  const auto shutdown =
      std::find_if(calendar.closed.begin(), calendar.closed.end(),
                   [](const DayRange& days) { return days.first == *parseDate("2026-12-24"); });
  ASSERT_NE(shutdown, calendar.closed.end());
  EXPECT_EQ(shutdown->last, *parseDate("2027-01-02"));
  EXPECT_EQ(shutdown->name, "winter shutdown");
  EXPECT_EQ(calendar.graceDays, 7);
  EXPECT_EQ(calendar.earlyDays, 30) << "left out: as for a new site";
  EXPECT_EQ(calendar.dueSoonDays, 30);
  const TypedFields again = *fieldsFor(store().site(), RegisterKind::site, "");
  EXPECT_EQ(again.at("early_days"), "30");
  EXPECT_EQ(fieldsOf(readBack(again)), fieldsOf(calendar));
}

TEST_F(RegisterForms, ACalendarWithoutADayOrWithDaysThatEndBeforeTheyBeginIsRefusedByField) {
  fill();
  TypedFields fields = *fieldsFor(store().site(), RegisterKind::site, "");
  for (const char* day : {"mon", "tue", "wed", "thu", "fri"}) {
    fields.erase(std::string("working.") + day);
  }
  const auto change = [&] { changeInRegister(store(), RegisterKind::site, "", fields, "ada"); };
  EXPECT_THAT(refused(change), testing::ElementsAre(testing::StartsWith("working_days: ")));
  fields["working.mon"] = "yes";
  fields["closed"] = "2026-12-24 to 2026-12-01";
  EXPECT_THAT(refused(change), testing::ElementsAre(testing::StartsWith("closed: ")));
  fields["closed"] = "";
  fields["due_soon_days"] = "-1";
  EXPECT_THAT(refused(change), testing::ElementsAre(testing::StartsWith("due_soon_days: ")));
  fields["due_soon_days"] = "soon";
  EXPECT_THAT(refused(change), testing::ElementsAre(testing::StartsWith("due_soon_days: ")));
  EXPECT_EQ(store().site().calendar.workingWeekdays.size(), 5U);
}

TEST_F(RegisterForms, ANewSiteIsRefusedByField) {
  EXPECT_THAT(refused([] { newSite(with(siteFields(), "code", "lower")); }),
              ElementsAre("code: the site's code is \"lower\""));
  EXPECT_THAT(refused([] { newSite(with(siteFields(), "name", " ")); }),
              ElementsAre("name: the site has no name"));
  EXPECT_THAT(refused([] { newSite(with(siteFields(), "place", "Hall / ")); }),
              ElementsAre(HasSubstr("place: the place is")));
  EXPECT_THAT(refused([] { newSite(with(siteFields(), "person.role.administrator", "")); }),
              ElementsAre("person.role.administrator: the first person is not an administrator"));
  EXPECT_THAT(refused([] { newSite({}); }),
              ElementsAre("code: the site has no code", "name: the site has no name",
                          "person.login: the person has no login", "person.name: the person has no name",
                          HasSubstr("person.role.administrator")));
}

struct Refusal {
  RegisterKind kind;
  TypedFields fields;
  const char* says;
};

TEST_F(RegisterForms, EachMistakeIsRefusedAtItsField) {
  fill();
  const std::string before = everything(store().site());
  const JournalHead head = store().journalHead();
  const TypedFields person{{"login", "nils"}, {"name", "Nils"}, {"role.technician", "yes"}};
  const TypedFields policy{{"code", "q"}, {"policy", "fixed"}, {"months", "3"}};
  const TypedFields plan = with(planFields(), "code", "NEW");
  const TypedFields channel = with(channelFields(), "tag", "TT-2");
  using K = RegisterKind;
  const Refusal refusals[] = {
      {K::place, {{"name", ""}}, "name: the place has no name"},
      {K::place, {{"name", "A / B"}}, "name: the name \"A / B\" holds \" / \""},
      {K::place, {{"name", "X"}, {"within", "Attic"}}, "within: the place \"Attic\" is not described"},
      {K::place,
       {{"name", "Cabinet"}, {"within", "Hall"}},
       "name: there is a place \"Hall / Cabinet\" already"},
      {K::person, with(person, "login", "ada"), "login: there is a person \"ada\" already"},
      {K::person, with(person, "hours_per_week", "lots"), "hours_per_week: \"lots\" is not a number"},
      {K::person, with(person, "hours_per_week", "169"), "hours_per_week: the hours per week must be"},
      {K::person, with(with(person, "role.technician", ""), "hours_per_week", "8"),
       "hours_per_week: has hours for calibrations and is no technician"},
      {K::person, with(person, "away", "soon"), "away: \"soon\" does not begin with a day"},
      {K::person, with(person, "away", "2026-07-02 to 2026-07-01 sea"),
       "away: the days away \"sea\" end before"},
      {K::standard, {{"serial", ""}}, "serial: the standard has no serial number"},
      {K::sensor, sensorFields("S-1"), "serial: there is a sensor \"S-1\" already"},
      {K::sensor, with(sensorFields("S-3"), "process.high", "0"),
       "process: the process range's low and high"},
      {K::sensor, with(sensorFields("S-3"), "process.unit", "degrees"),
       "process: the unit \"degrees\" is not known"},
      {K::sensor, with(sensorFields("S-3"), "process.high", ""), "process: its high end is missing"},
      {K::sensor, with(sensorFields("S-3"), "output.high", "20 V"), "output: \"20 V\" is not in mA"},
      {K::plan, planFields(), "code: there is a plan \"P3\" already"},
      {K::plan, with(plan, "revision", ""), "revision: the plan has no revision"},
      {K::plan, with(plan, "points", "0, 50, 50"), "points: the test points must rise"},
      {K::plan, with(plan, "points", "0, 150"), "points: a test point must lie between"},
      {K::plan, with(plan, "points", "zero"), "points: \"zero\" is not a number"},
      {K::plan, with(plan, "tolerance.percent_of_span", ""),
       "tolerance: the tolerance has no term above zero"},
      {K::plan, with(plan, "repeats", "1.5"), "repeats: \"1.5\" is not a whole number"},
      {K::plan, with(plan, "minutes", "0"), "minutes: the working time of a visit must be above 0"},
      {K::plan, with(plan, "settle_seconds", "-1"), "settle_seconds: the time to settle"},
      {K::plan, with(plan, "adjust_limit", "1.1"), "adjust_limit: the adjust limit"},
      {K::plan, with(plan, "rule", "guard-band"), "factor: the factor of the guard band is missing"},
      {K::plan, with(with(plan, "rule", "false-accept"), "limit", "0.7"), "decision_rule: "},
      {K::plan, with(plan, "lead_resistance_half_width", "-1 ohm"),
       "lead_resistance_half_width: the half-width"},
      {K::interval, with(policy, "months", ""), "months: months and days are both missing or both given"},
      {K::interval, with(policy, "days", "90"), "months: months and days are both missing or both given"},
      {K::interval, with(policy, "maximum_days", "30"), "months: the interval to start with lies outside"},
      {K::interval, with(policy, "policy", "forecast"), "minimum_days: a forecast policy needs"},
      {K::interval, with(policy, "policy", "staircase"), "lengthen: the factor of a step up is missing"},
      {K::channel, channelFields(), "tag: there is a channel \"TT-1\" already"},
      {K::channel, with(channel, "tag", ""), "tag: the channel has no tag"},
      {K::channel, with(channel, "place", ""), "place: the channel has no place"},
      {K::channel, with(channel, "routine.channel.plan", ""),
       "routine.channel.plan: the channel has no plan"},
      {K::channel, with(channel, "routine.channel.interval", "weekly"),
       "routine.channel.interval: the interval policy \"weekly\""},
      {K::channel, with(channel, "setup.kind", ""), "setup.kind: the kind of the setup is missing"},
      {K::channel, with(channel, "setup.from", "soon"), "setup.from: \"soon\" is not a day with its time"},
      {K::channel, with(channel, "setup.signal.high", "4"),
       "setup.signal: the signal's low and high are equal"},
      {K::channel, with(channel, "setup.cut_off_percent", "3"), "setup.cut_off_percent: "},
      {K::channel, with(channel, "setup.alarms.high", "900"), "setup.alarms: "},
      {K::channel, with(channel, "fitting.sensor", "S-9"), "fitting: the sensor \"S-9\" is not described"},
  };
  for (const Refusal& each : refusals) {
    SCOPED_TRACE(each.says);
    EXPECT_THAT(refused([&] { add(each.kind, each.fields); }), Contains(HasSubstr(each.says)));
  }
  EXPECT_EQ(everything(store().site()), before);
  EXPECT_EQ(store().journalHead(), head);
}

TEST_F(RegisterForms, OnlyWhoMayChangesTheRegister) {
  fill();
  const TypedFields standard{{"serial", "LC-1"}};
  const TypedFields person{{"login", "nils"}, {"name", "Nils"}, {"role.reviewer", "yes"}};
  const auto by = [&](RegisterKind kind, const TypedFields& fields, const char* login) {
    return refused([&] { addToRegister(store(), kind, fields, login); });
  };
  EXPECT_THAT(by(RegisterKind::standard, standard, "tess"),
              ElementsAre("by: tess is neither planner nor administrator"));
  EXPECT_THAT(by(RegisterKind::standard, standard, ""), ElementsAre("by: nobody is named who enters it"));
  EXPECT_THAT(by(RegisterKind::person, person, "paul"), ElementsAre("by: paul is not an administrator"));
  EXPECT_EQ(addToRegister(store(), RegisterKind::standard, standard, "paul"), "LC-1");
  std::string last;
  store().forEachEntry(store().journalHead().entry, [&](const JournalEntry& entry) {
    last = entry.person + " " + entry.act + " " + entry.unit;
    return true;
  });
  EXPECT_EQ(last, "paul added standard");
  store().setPersonLeft("paul", on("2026-11-01"));
  EXPECT_THAT(by(RegisterKind::standard, with(standard, "serial", "LC-2"), "paul"),
              ElementsAre("by: paul left on 2026-11-01"));
  EXPECT_THAT(refused([&] {
                changeInRegister(store(), RegisterKind::person, "ada",
                                 {{"name", "Ada"}, {"role.planner", "yes"}}, "ada");
              }),
              ElementsAre("role.administrator: nobody would be left who is an administrator"));
  expectWhole();
}

TEST_F(RegisterForms, WhileNobodyMayAnybodyNamesSomebody) {
  Register site = newSite(siteFields());
  site.people[0].roles = {Role::technician};
  Store bare = Store::create(folder_ / "bare.record", site, clock_);
  EXPECT_THAT(refused([&] {
                addToRegister(bare, RegisterKind::standard, {{"serial", "LC-1"}}, "ada");
              }),
              ElementsAre("by: ada is neither planner nor administrator"));
  addToRegister(bare, RegisterKind::person,
                {{"login", "bea"}, {"name", "Bea"}, {"role.administrator", "yes"}}, "ada");
  EXPECT_THAT(refused([&] {
                addToRegister(bare, RegisterKind::person,
                              {{"login", "cy"}, {"name", "Cy"}, {"role.planner", "yes"}}, "ada");
              }),
              ElementsAre("by: ada is not an administrator"));
}

TEST_F(RegisterForms, WhatStandsInAFormIsWhatWasKept) {
  fill();
  using K = RegisterKind;
  for (const auto& [kind, name] : {std::pair(K::site, "NEW"),
                                   {K::place, "Hall / Cabinet"},
                                   {K::person, "ada"},
                                   {K::sensor, "S-1"},
                                   {K::plan, "P3"},
                                   {K::interval, "yearly"},
                                   {K::channel, "TT-1"}}) {
    SCOPED_TRACE(name);
    const std::string before = everything(store().site());
    const auto fields = fieldsFor(store().site(), kind, name);
    ASSERT_TRUE(fields.has_value());
    changeInRegister(store(), kind, name, *fields, "ada");
    EXPECT_EQ(everything(store().site()), before);
    EXPECT_FALSE(kind != K::site && fieldsFor(store().site(), kind, "none").has_value());
  }
  expectWhole();
}

TEST_F(RegisterForms, EverySetupComesBackFromItsFields) {
  const Register site = test::sampleRegister();
  ASSERT_GE(site.channels[0].setups.size(), 6U);
  for (const SetupVersion& version : site.channels[0].setups) {
    TypedFields fields = fieldsOf(version.setup);
    fields["from"] = "2026-01-01";
    FieldReader reader(fields);
    const SetupVersion again = readSetupVersion(reader);
    EXPECT_THAT(reader.problems(), IsEmpty());
    EXPECT_EQ(fieldsOf(again.setup), fieldsOf(version.setup));
    EXPECT_EQ(describe(again.setup), describe(version.setup));
  }
}

TEST_F(RegisterForms, APersonHasARole) {
  fill();
  EXPECT_THAT(refused([&] {
                add(RegisterKind::person, {{"login", "nils"}, {"name", "Nils"}});
              }),
              ElementsAre("role.technician: the person has no role"));
  TypedFields tess = *fieldsFor(store().site(), RegisterKind::person, "tess");
  tess.erase("role.technician");
  EXPECT_THAT(refused([&] { changeInRegister(store(), RegisterKind::person, "tess", tess, "ada"); }),
              ElementsAre("role.technician: the person has no role"));
}

// Certificates print the procedure; one that was named is not changed behind those that were made by it.
TEST_F(RegisterForms, AProcedureMayBeAddedButNotChangedWithinARevision) {
  fill();
  TypedFields fields = *fieldsFor(store().site(), RegisterKind::plan, "P3");
  fields["procedure"] = "WI-1";
  changeInRegister(store(), RegisterKind::plan, "P3", fields, "ada");
  EXPECT_EQ(store().site().plan("P3")->procedure, "WI-1");
  fields["procedure"] = "WI-2";
  EXPECT_THAT(
      refused([&] { changeInRegister(store(), RegisterKind::plan, "P3", fields, "ada"); }),
      ElementsAre("revision: points, tolerance, rule or procedure change, and the revision is still 1"));
  fields["revision"] = "2";
  changeInRegister(store(), RegisterKind::plan, "P3", fields, "ada");
  EXPECT_EQ(store().site().plan("P3")->procedure, "WI-2");
}

TEST_F(RegisterForms, APlanThatJudgesOtherwiseNeedsAnotherRevision) {
  fill();
  TypedFields fields = *fieldsFor(store().site(), RegisterKind::plan, "P3");
  fields["minutes"] = "45";
  changeInRegister(store(), RegisterKind::plan, "P3", fields, "ada");
  fields["tolerance.percent_of_span"] = "1";
  EXPECT_THAT(
      refused([&] { changeInRegister(store(), RegisterKind::plan, "P3", fields, "ada"); }),
      ElementsAre("revision: points, tolerance, rule or procedure change, and the revision is still 1"));
  fields["revision"] = "2";
  changeInRegister(store(), RegisterKind::plan, "P3", fields, "ada");
  EXPECT_EQ(store().site().plan("P3")->tolerance.minus.percentOfSpan, 1.0);
  fields["revision"] = "3";
  fields["points"] = "";
  EXPECT_THAT(refused([&] { changeInRegister(store(), RegisterKind::plan, "P3", fields, "ada"); }),
              ElementsAre("points: channel TT-1 names the plan \"P3\", which has no points"));
  expectWhole();
}

TEST_F(RegisterForms, APlaceIsRenamedAndNeverLiesWithinItself) {
  fill();
  EXPECT_EQ(changeInRegister(store(), RegisterKind::place, "Hall", {{"name", "Shed"}, {"order", "1"}}, "ada"),
            "Shed");
  EXPECT_EQ(store().site().channel("TT-1")->place, "Shed / Cabinet");
  EXPECT_THAT(refused([&] {
                changeInRegister(store(), RegisterKind::place, "Shed",
                                 {{"name", "Shed"}, {"within", "Shed / Cabinet"}}, "ada");
              }),
              Contains("within: a place cannot lie within itself"));
  expectWhole();
}

TEST_F(RegisterForms, ANewSetupTellsWhatItLeavesUnproven) {
  fill();
  EXPECT_THAT(setupEffect(store(), "TT-1", setupFields("2026-11-20 12:00", "300")).lost, IsEmpty());
  const CalibrationId proof = calibrate("2026-10-01T09:00:00");
  const std::string before = everything(store().site());
  const SetupEffect effect = setupEffect(store(), "TT-1", setupFields("2026-09-01 12:00", "300"));
  ASSERT_EQ(effect.lost.size(), 1U);
  EXPECT_EQ(effect.lost[0].calibration, proof);
  EXPECT_EQ(effect.lost[0].provenOn, on("2026-10-01"));
  EXPECT_EQ(effect.judgedBefore, 1);
  EXPECT_EQ(effect.setup.version, 2);
  EXPECT_EQ(everything(store().site()), before) << "it is only asked";
  EXPECT_EQ(setupPreview(setupFields("2026-11-20 12:00", "300")),
            "4 mA = 0 degC, 20 mA = 300 degC (4-20 mA to 0-300 degC)");
  EXPECT_EQ(setupPreview(with(setupFields("2026-11-20 12:00", "300"), "signal.low", "")), "");
  putSetupInForce(store(), "TT-1", setupFields("2026-11-20 12:00", "300"), "paul");
  const Channel& channel = *store().site().channel("TT-1");
  ASSERT_EQ(channel.setups.size(), 2U);
  EXPECT_EQ(channel.setups[0].remark, "commissioning") << "the one before stays as it was";
  EXPECT_EQ(channel.setups[1].remark, "wider");
  expectWhole();
}

TEST_F(RegisterForms, ANewSetupIsRefusedByField) {
  fill();
  const auto put = [&](const TypedFields& fields, const char* by = "paul") {
    return refused([&] { putSetupInForce(store(), "TT-1", fields, by); });
  };
  const TypedFields good = setupFields("2026-11-20 12:00", "300");
  EXPECT_THAT(put(good, "tess"), ElementsAre("by: tess is neither planner nor administrator"));
  EXPECT_THAT(put(with(good, "remark", "")), ElementsAre(HasSubstr("remark: it is not said why")));
  EXPECT_THAT(put(with(good, "from", "2026-01-01 08:00")),
              ElementsAre(HasSubstr("from: the setup in force began")));
  EXPECT_THAT(put(with(good, "units.high", "0")),
              ElementsAre(HasSubstr("units: the engineering range's low")));
  const TypedFields counts{{"code", "CNT"},    {"revision", "1"},  {"title", "Counts"},
                           {"points", "0 50"}, {"rule", "simple"}, {"tolerance.counts", "2"}};
  add(RegisterKind::plan, counts);
  EXPECT_THAT(
      refused([&] {
        changeInRegister(
            store(), RegisterKind::channel, "TT-1",
            {{"place", "Hall"}, {"routine.channel.plan", "CNT"}, {"routine.channel.interval", "yearly"}},
            "ada");
      }),
      ElementsAre("routine.channel.plan: names the plan \"CNT\", whose tolerance has counts"));
  EXPECT_EQ(store().site().channel("TT-1")->setups.size(), 1U);
}

TEST_F(RegisterForms, AnotherSensorEndsTheFittingBefore) {
  fill();
  const auto fit = [&](const char* tag, const char* sensor, const char* from) {
    fitSensor(store(), tag, {{"sensor", sensor}, {"from", from}}, "paul");
  };
  fit("TT-1", "S-1", "2026-02-01 08:00");
  fit("TT-1", "S-2", "2026-03-01 08:00");
  const Channel& channel = *store().site().channel("TT-1");
  ASSERT_EQ(channel.fittings.size(), 2U);
  EXPECT_EQ(channel.fittings[0].until, at("2026-03-01T08:00:00"));
  EXPECT_FALSE(channel.fittings[1].until);
  EXPECT_THAT(refused([&] { fit("TT-1", "S-2", "2026-04-01 08:00"); }),
              ElementsAre("sensor: S-2 is fitted there already"));
  EXPECT_THAT(refused([&] { fit("TT-1", "S-1", "2026-02-15 08:00"); }),
              ElementsAre(HasSubstr("from: S-2 was fitted to TT-1 at 2026-03-01T08:00:00")));
  EXPECT_THAT(refused([&] { fit("TT-1", "S-9", "2026-05-01 08:00"); }),
              ElementsAre("sensor: the sensor \"S-9\" is not described"));
  EXPECT_THAT(refused([&] { fit("TT-1", "", ""); }),
              ElementsAre(HasSubstr("sensor: no sensor is chosen"), HasSubstr("from: ")));
  // A new channel takes the sensor with it, from a moment after it was fitted elsewhere only.
  TypedFields other = with(with(channelFields(), "tag", "TT-2"), "fitting.sensor", "S-2");
  EXPECT_THAT(refused([&] { add(RegisterKind::channel, other); }),
              ElementsAre(HasSubstr("fitting.sensor: S-2 is on TT-1 from 2026-03-01T08:00:00")));
  other["setup.from"] = "2026-06-01 08:00";
  add(RegisterKind::channel, other);
  EXPECT_EQ(store().site().channel("TT-1")->fittings[1].until, at("2026-06-01T08:00:00"));
  EXPECT_EQ(store().site().channel("TT-2")->fittings.size(), 1U);
  expectWhole();
}

}  // namespace
}  // namespace spanwright
