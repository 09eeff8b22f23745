// SPDX-License-Identifier: GPL-3.0-or-later
#include <functional>

#include "core/store/verify.h"
#include "full_record.h"

namespace spanwright {
namespace {

using test::at;
using test::everything;
using test::on;

struct Edit {
  const char* name;
  std::function<void(Store&)> make;
  std::string unit, key, act;
};

Person newPerson() {
  return {"nils", "Nils Example", {Role::technician},
          {},     12.0,           {{on("2026-12-01"), on("2026-12-03"), "course"}}};
}

Channel newChannel(const Register& site) {
  Channel channel = site.channels[1];
  channel.tag = "AI-002";
  channel.fittings = {{"TX-5510", at("2021-01-01T08:00:00"), {}}};
  return channel;
}

std::vector<Edit> edits() {
  return {
      {"a place",
       [](Store& s) {
         s.addPlace({"Hall / Rack", "Rack", "Hall", 3});
       },
       "place", "5", "added"},
      {"a place's name",
       [](Store& s) {
         s.changePlace("Annex", {"Shed", "Shed", "Hall", 4});
       },
       "place", "4", "changed"},
      {"a person", [](Store& s) { s.addPerson(newPerson()); }, "person", "4", "added"},
      {"a person's days",
       [](Store& s) {
         Person zora = *s.site().person("zora");
         zora.name = "Zora Other";
         zora.roles = {Role::technician};
         zora.hoursPerWeek.reset();
         zora.away.pop_back();
         s.changePerson(zora);
       },
       "person", "1", "changed"},
      {"a standard",
       [](Store& s) {
         s.addStandard({"NEW-1", "maker", "model", "mA source", "shelf", {}, {}});
       },
       "standard", "3", "added"},
      {"a standard's shelf",
       [](Store& s) {
         Standard standard = s.site().standards[0];
         standard.location = "drawer";
         s.changeStandard(standard);
       },
       "standard", "1", "changed"},
      {"a sensor",
       [](Store& s) {
         Sensor sensor = s.site().sensors[0];
         sensor.serial = "TX-9";
         s.addSensor(sensor);
       },
       "sensor", "4", "added"},
      {"a sensor's range",
       [](Store& s) {
         Sensor sensor = s.site().sensors[0];
         sensor.range.process.high += 50.0;
         s.changeSensor(sensor);
       },
       "sensor", "1", "changed"},
      {"a plan",
       [](Store& s) {
         Plan plan = s.site().plans[0];
         plan.code = "OTHER";
         s.addPlan(plan);
       },
       "plan", "3", "added"},
      {"a plan's revision",
       [](Store& s) {
         Plan plan = s.site().plans[0];
         plan.revision = "17";
         plan.minutes = 45.0;
         plan.cautions = {"one", "two"};
         s.changePlan(plan);
       },
       "plan", "1", "changed"},
      {"an interval policy",
       [](Store& s) {
         s.addInterval({"weekly", PolicyKind::fixed, 7, 0, 0, 0});
       },
       "interval", "3", "added"},
      {"an interval policy's length",
       [](Store& s) {
         IntervalPolicy policy = s.site().intervals[0];
         policy.months = 18;
         s.changeInterval(policy);
       },
       "interval", "1", "changed"},
      {"a channel", [](Store& s) { s.addChannel(newChannel(s.site())); }, "fitting", "4/1", "added"},
      {"a channel's routine",
       [](Store& s) {
         Channel channel = *s.site().channel("AI-001");
         channel.place = "Hall";
         channel.title = "Inlet";
         channel.retired = true;
         channel.routines = {{Subject::channel, "AI-5UD", "days"}};
         s.changeChannel(channel);
       },
       "channel", "2", "changed"},
      {"the site",
       [](Store& s) {
         SiteInfo info = s.site().site;
         info.issuer = "Other workshop";
         CalendarRules calendar = s.site().calendar;
         calendar.closed.push_back({on("2027-05-01"), on("2027-05-01"), "holiday"});
         s.changeSite(info, calendar);
       },
       "site", "", "changed"},
  };
}

class RegisterEdits : public testing::Test {
 protected:
  const test::Folder folder;
  const test::FixedClock clock{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  const std::filesystem::path file = folder / "site.record";
};

TEST_F(RegisterEdits, EachIsEnteredInThePersonsNameAndLeavesTheRecordWhole) {
  test::makeFullRecord(file, clock);
  Store store = Store::open(file, Store::Mode::readWrite, clock);
  store.actAs("olaf");
  for (const Edit& edit : edits()) {
    SCOPED_TRACE(edit.name);
    const std::string before = everything(store.site());
    const JournalHead head = store.journalHead();
    edit.make(store);
    EXPECT_NE(everything(store.site()), before);
    EXPECT_EQ(everything(Store::open(file, Store::Mode::readOnly, clock).site()), everything(store.site()));
    std::vector<JournalEntry> entries;
    store.forEachEntry(head.entry + 1, [&](const JournalEntry& entry) {
      entries.push_back(entry);
      return true;
    });
    ASSERT_FALSE(entries.empty());
    EXPECT_EQ(entries.back().unit + " " + entries.back().unitKey, edit.unit + " " + edit.key);
    EXPECT_EQ(entries.back().act, edit.act);
    EXPECT_EQ(entries.back().person, "olaf");
    if (edit.act == "changed") {
      EXPECT_FALSE(entries.back().detail.empty()) << "the old values are kept";
    }
    EXPECT_EQ(registerFaults(store.site()), std::vector<std::string>{});
    for (const RecordProblem& problem : verifyRecord(file).problems) {
      ADD_FAILURE() << problem.what;
    }
  }
}

TEST_F(RegisterEdits, ANewChannelHasAllThatBelongsToIt) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  const Channel channel = newChannel(store.site());
  store.addChannel(channel);
  const Channel& kept = *store.site().channel("AI-002");
  EXPECT_EQ(kept.place, channel.place);
  ASSERT_EQ(kept.setups.size(), 1U);
  EXPECT_EQ(describe(kept.setups[0].setup), describe(channel.setups[0].setup));
  ASSERT_EQ(kept.fittings.size(), 1U);
  ASSERT_EQ(kept.routines.size(), 1U);
  EXPECT_EQ(store.add(test::plainCalibration("AI-002", "2026-11-01T08:00:00")), 1);
}

TEST_F(RegisterEdits, WhatLiesWithinAPlaceIsRenamedWithIt) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  store.changePlace("Hall / Cabinet P1", {"Hall / Cupboard", "Cupboard", "Hall", 0});
  EXPECT_EQ(store.site().places[2].path, "Hall / Cupboard / Station 1");
  EXPECT_EQ(store.site().places[2].parentPath, "Hall / Cupboard");
  EXPECT_EQ(store.site().channel("TT-101")->place, "Hall / Cupboard / Station 1");
  EXPECT_TRUE(verifyRecord(file).problems.empty());
}

TEST_F(RegisterEdits, WhatIsThereAlreadyOrNotThereIsRefusedAndNothingIsWritten) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  const std::string before = everything(store.site());
  const JournalHead head = store.journalHead();
  const auto refused = [](const std::function<void()>& work, const char* words) {
    const std::string said = test::inputRefusal(work);
    EXPECT_NE(said.find(words), std::string::npos) << said;
  };
  refused([&] { store.addPlace({"Annex", "Annex", "", 1}); }, "one place \"Annex\" in the record already");
  refused([&] { store.addPlace({"Attic / A", "A", "Attic", 1}); }, "no place \"Attic\"");
  refused(
      [&] {
        store.changePlace("Annex", {"Hall", "Hall", "", 1});
      },
      "one place \"Hall\" in the record already");
  refused([&] { store.changePlace("Attic", {"Loft", "Loft", "", 1}); }, "no place \"Attic\"");
  refused([&] { store.addPerson(*store.site().person("zora")); }, "one person \"zora\"");
  refused([&] { store.changePerson(newPerson()); }, "no person \"nils\"");
  refused([&] { store.addStandard(store.site().standards[0]); }, "one standard");
  refused([&] { store.addSensor(store.site().sensors[0]); }, "one sensor");
  refused([&] { store.addPlan(store.site().plans[0]); }, "one plan");
  refused([&] { store.addInterval(store.site().intervals[0]); }, "one interval policy");
  refused([&] { store.addChannel(store.site().channels[0]); }, "one channel");
  Channel lost = *store.site().channel("AI-001");
  lost.routines[0].plan = "NONE";
  refused([&] { store.changeChannel(lost); }, "no plan \"NONE\"");
  EXPECT_EQ(everything(store.site()), before);
  EXPECT_EQ(store.journalHead(), head);
  EXPECT_EQ(everything(Store::open(file, Store::Mode::readOnly, clock).site()), before);
}

TEST_F(RegisterEdits, AreUndoneWithTheirTransaction) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  const std::string before = everything(store.site());
  {
    const Store::Transaction transaction(store);
    store.addPerson(newPerson());
    store.changePlace("Annex", {"Shed", "Shed", "", 4});
    EXPECT_NE(store.site().person("nils"), nullptr);
  }
  EXPECT_EQ(everything(store.site()), before);
  store.addPerson(newPerson());
  EXPECT_TRUE(verifyRecord(file).problems.empty());
}

}  // namespace
}  // namespace spanwright
