// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/life.h"

#include <gtest/gtest.h>

#include <set>

namespace spanwright {
namespace {

const Date kToday = *parseDate("2026-11-20");
using A = LifeAct;

Register people() {
  Register site;
  site.people = {{"tara", "Tara Example", {Role::technician}, {}},
                 {"tim", "Tim Example", {Role::technician, Role::reviewer}, {}},
                 {"rita", "Rita Example", {Role::reviewer}, {}},
                 {"pia", "Pia Example", {Role::planner, Role::administrator}, {}},
                 {"lena", "Lena Example", {Role::reviewer}, kToday}};
  return site;
}

Calibration madeBy(const std::string& person) {
  Calibration c;
  c.id = 7;
  c.channel = "FT-1";
  c.person = person;
  return c;
}

std::vector<LifeEvent> events(std::initializer_list<std::pair<LifeAct, const char*>> acts) {
  std::vector<LifeEvent> made;
  for (const auto& [act, person] : acts) {
    LifeEvent event;
    event.act = act;
    event.person = person;
    made.push_back(event);
  }
  return made;
}

std::string fault(const std::vector<LifeEvent>& before, LifeAct act, const std::string& person,
                  const std::string& reason = "because", const std::string& madeByWhom = "tara") {
  const Register site = people();
  const auto found = actFault(site, madeBy(madeByWhom), before, {act, person, reason, kToday});
  if (found) {
    EXPECT_FALSE(found->todo.empty());
  }
  return found ? found->what : "";
}

TEST(LifeOfACalibration, GoesItsWholeWay) {
  EXPECT_EQ(fault({}, A::performed, "tara"), "");
  EXPECT_EQ(fault(events({{A::performed, "tara"}}), A::reviewed, "rita"), "");
  EXPECT_EQ(fault(events({{A::performed, "tara"}, {A::reviewed, "rita"}}), A::approved, "rita"), "");
  EXPECT_EQ(fault(events({{A::performed, "tara"}, {A::reviewed, "rita"}}), A::approved, "tim"), "");
  EXPECT_EQ(fault(events({{A::performed, "tara"}}), A::sentBack, "rita"), "");
  EXPECT_EQ(fault(events({{A::performed, "tara"}, {A::sentBack, "rita"}}), A::performed, "tara"), "");
}

// 21 CFR 11.10(f): steps in their order; every pair of a state and an act is decided here.
TEST(LifeOfACalibration, LeavesNoStepOut) {
  const std::vector<std::vector<LifeEvent>> states{
      events({}),
      events({{A::performed, "tara"}}),
      events({{A::performed, "tara"}, {A::reviewed, "rita"}}),
      events({{A::performed, "tara"}, {A::reviewed, "rita"}, {A::approved, "rita"}}),
      events({{A::performed, "tara"}, {A::sentBack, "rita"}}),
      events({{A::withdrawn, "rita"}}),
      events({{A::superseded, "tara"}})};
  const std::set<std::pair<std::size_t, LifeAct>> allowed{
      {0, A::performed}, {4, A::performed}, {1, A::reviewed},  {2, A::approved},
      {1, A::sentBack},  {2, A::sentBack},  {0, A::withdrawn}, {1, A::withdrawn},
      {2, A::withdrawn}, {3, A::withdrawn}, {4, A::withdrawn}};
  for (std::size_t s = 0; s < states.size(); ++s) {
    for (const LifeAct act :
         {A::performed, A::reviewed, A::approved, A::sentBack, A::withdrawn, A::superseded}) {
      const std::string said = fault(states[s], act, act == A::performed ? "tara" : "rita");
      EXPECT_EQ(said.empty(), allowed.contains({s, act}))
          << text(stateAfter(states[s])) << ", " << text(act) << said;
    }
  }
}

// 21 CFR 11.10(g), ISO/IEC 17025:2017 7.8.1.1: a reviewer cannot review their own work.
TEST(LifeOfACalibration, NobodyReviewsTheirOwnWork) {
  for (const LifeAct act : {A::reviewed, A::sentBack, A::withdrawn}) {
    EXPECT_NE(fault(events({{A::performed, "tim"}}), act, "tim", "because", "tim").find("their own work"),
              std::string::npos);
  }
  EXPECT_NE(
      fault(events({{A::performed, "tim"}, {A::reviewed, "rita"}}), A::approved, "tim", "because", "tim")
          .find("their own work"),
      std::string::npos);
  EXPECT_EQ(fault({}, A::withdrawn, "tara"), "") << "what nobody relies on yet may be taken back";
}

TEST(LifeOfACalibration, RolesReasonsAndPeopleWhoLeft) {
  EXPECT_NE(fault({}, A::performed, "tim").find("was made by tara"), std::string::npos);
  EXPECT_NE(fault({}, A::performed, "pia", "", "pia").find("not a technician"), std::string::npos);
  EXPECT_NE(fault(events({{A::performed, "tara"}}), A::reviewed, "pia").find("not a reviewer"),
            std::string::npos);
  EXPECT_NE(fault(events({{A::performed, "tara"}}), A::reviewed, "lena").find("left on 2026-11-20"),
            std::string::npos);
  EXPECT_NE(fault(events({{A::performed, "tara"}}), A::reviewed, "nobody").find("no person"),
            std::string::npos);
  EXPECT_NE(fault(events({{A::performed, "tara"}}), A::sentBack, "rita", " \n").find("without a reason"),
            std::string::npos);
  EXPECT_NE(fault({}, A::withdrawn, "tara", "").find("without a reason"), std::string::npos);
}

TEST(LifeOfACalibration, StatesAndActsAreNamedAndReadBack) {
  for (const LifeAct act :
       {A::performed, A::reviewed, A::approved, A::sentBack, A::withdrawn, A::superseded}) {
    EXPECT_EQ(parseLifeAct(text(act)), act);
    EXPECT_EQ(text(stateAfter(act)), text(act));
    EXPECT_EQ(parseLifeState(text(act)), stateAfter(act));
  }
  EXPECT_EQ(parseLifeState("recorded"), LifeState::recorded);
  EXPECT_FALSE(parseLifeAct("recorded"));
  EXPECT_FALSE(parseLifeState("Approved"));
}

TEST(LifeOfACalibration, WhatCountsAndWhatProves) {
  EXPECT_TRUE(counts(LifeState::sentBack) && !proves(LifeState::sentBack));
  EXPECT_FALSE(counts(LifeState::withdrawn) || proves(LifeState::withdrawn));
  EXPECT_FALSE(counts(LifeState::superseded) || proves(LifeState::superseded));
  EXPECT_TRUE(counts(LifeState::recorded) && proves(LifeState::recorded) && proves(LifeState::approved));
}

TEST(Corrections, AreOfTheSameThingAndSayWhy) {
  Calibration corrected = madeBy("tara"), correction = madeBy("tara");
  correction.correctionReason = "typed 41 for 14";
  EXPECT_FALSE(correctionFault(corrected, {}, correction));
  EXPECT_TRUE(correctionFault(corrected, events({{A::withdrawn, "rita"}}), correction));
  EXPECT_TRUE(correctionFault(corrected, events({{A::superseded, "tara"}}), correction));
  Calibration other = correction, loop = correction, silent = correction;
  other.channel = "FT-2";
  loop.subject = Subject::loop;
  silent.correctionReason = " ";
  for (const Calibration* bad : {&other, &loop, &silent}) {
    EXPECT_TRUE(correctionFault(corrected, {}, *bad));
  }
}

// No two different acts may have one text, or a signature could be moved from one to the other.
TEST(SignedText, DiffersWhereverTheActDoes) {
  LifeEvent event;
  event.calibration = 1;
  event.person = "tara";
  event.atUtc = *parseMoment("2026-11-20T10:00:00");
  event.reason = "a";
  event.digest = std::string(32, 'd');
  std::set<std::string> texts{signedText("SITE", event, "key")};
  const auto add = [&](const LifeEvent& changed, std::string_view site = "SITE",
                       std::string_view key = "key") {
    EXPECT_TRUE(texts.insert(signedText(site, changed, key)).second);
  };
  LifeEvent e = event;
  e.calibration = 11, add(e), e = event;
  e.act = A::reviewed, add(e), e = event;
  e.person = "tar", add(e), e = event;
  e.atUtc += boost::posix_time::seconds(1), add(e), e = event;
  e.reason = "a\ndigest:1:x", add(e), e = event;
  e.digest[5] = 'x', add(e), e = event;
  add(event, "SITEX");
  add(event, "SITE", "kez");
}

TEST(StandardsInUse, FollowTheirCertificatesServiceAndAllowances) {
  const auto on = [](const char* day) { return *parseDate(day); };
  Standard standard;
  standard.serial = "S";
  StandardCertificate old, last;
  old.number = "1", old.validFrom = on("2024-01-01"), old.validUntil = on("2024-12-31");
  last.number = "2", last.validFrom = on("2025-01-01"), last.validUntil = on("2025-12-31");
  standard.certificates = {old, last};
  const auto event = [&](StandardAct act, const char* from, const char* until = nullptr) {
    StandardEvent made;
    made.act = act;
    made.firstDay = on(from);
    made.lastDay = until != nullptr ? on(until) : Date();
    standard.events.push_back(made);
  };
  EXPECT_EQ(standardUse(standard, on("2025-06-01")).certificate->number, "2");
  EXPECT_FALSE(standardUse(standard, on("2026-01-01")).usable());
  EXPECT_FALSE(standardUse(standard, on("2023-12-31")).usable());
  event(StandardAct::useAllowed, "2026-01-01", "2026-01-31");
  EXPECT_TRUE(standardUse(standard, on("2026-01-31")).allowed);
  EXPECT_EQ(standardUse(standard, on("2026-01-31")).certificate->number, "2");
  EXPECT_FALSE(standardUse(standard, on("2026-02-01")).usable());
  EXPECT_FALSE(standardUse(standard, on("2025-06-01")).allowed) << "a valid certificate needs no allowance";
  event(StandardAct::outOfService, "2025-06-01");
  EXPECT_TRUE(standardUse(standard, on("2025-05-31")).usable());
  EXPECT_FALSE(standardUse(standard, on("2025-06-01")).usable());
  EXPECT_FALSE(standardUse(standard, on("2026-01-15")).usable()) << "out of service, allowed or not";
  event(StandardAct::backInService, "2025-07-01");
  EXPECT_TRUE(standardUse(standard, on("2025-07-01")).usable());
  EXPECT_FALSE(standardUse(standard, on("2025-06-30")).usable());
  for (const StandardAct act :
       {StandardAct::outOfService, StandardAct::backInService, StandardAct::useAllowed}) {
    EXPECT_EQ(parseStandardAct(text(act)), act);
  }
}

}  // namespace
}  // namespace spanwright
