// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/visit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <functional>

#include "tests/core/tasks/visit_fixture.h"

namespace spanwright {
namespace {

using test::goodVisit;
using test::keyed;
using test::kNow;
using test::moment;
using test::sentences;
using test::skipped;
using test::typed;
using testing::ElementsAre;
using testing::HasSubstr;

using VisitChecks = test::VisitTest;

TEST_F(VisitChecks, TheSiteOfTheTestsIsSound) {
  EXPECT_THAT(registerFaults(site_), testing::IsEmpty());
}

TEST_F(VisitChecks, AGoodVisitBecomesACalibration) {
  ProposedVisit visit = goodVisit();
  visit.conditions = {21.5, 45.0, "draughty"};
  visit.remarks = "door was open";
  const Calibration made = checked(visit);
  EXPECT_EQ(made.channel, "TT-110");
  EXPECT_EQ(made.setupVersion, 1);
  EXPECT_EQ(made.plan, "AI-3");
  EXPECT_EQ(made.planRevision, "2");
  EXPECT_EQ(made.sensor, "");
  EXPECT_EQ(made.person, "mtolland");
  EXPECT_EQ(made.source, "entered");
  EXPECT_EQ(made.remarks, "door was open");
  EXPECT_EQ(made.conditions.temperature, 21.5);
  ASSERT_EQ(made.standards.size(), 1U);
  EXPECT_EQ(made.standards[0].certificate, "C-2") << "the newer of two valid then";
  ASSERT_EQ(made.asFound.size(), 3U);
  EXPECT_EQ(made.asFound[0].appliedText, "4.000 mA");
  EXPECT_EQ(made.asFound[0].applied, 4.0);
  EXPECT_EQ(made.asFound[1].applied, 12.0) << "left out: the nominal value";
  EXPECT_NEAR(made.asFound[1].expected, 75.0, 1e-12);
  EXPECT_NEAR(made.asFound[1].error(), 0.2, 1e-12);
  EXPECT_NEAR(made.asFound[1].limits.high, 0.375, 1e-12);
  EXPECT_EQ(made.foundVerdict, Verdict::pass);
  EXPECT_EQ(made.leftVerdict, Verdict::pass);
}

struct Mistake {
  const char* name;
  std::function<void(ProposedVisit&)> make;
  const char* says;
};

void PrintTo(const Mistake& mistake, std::ostream* out) {
  *out << mistake.name;
}

class Mistakes : public VisitChecks, public testing::WithParamInterface<Mistake> {};

TEST_P(Mistakes, GetOneClearSentence) {
  ProposedVisit visit = goodVisit();
  GetParam().make(visit);
  EXPECT_THAT(problems(visit), ElementsAre(HasSubstr(GetParam().says)));
}

INSTANTIATE_TEST_SUITE_P(
    Table, Mistakes,
    testing::Values(
        Mistake{"unknownTag", [](auto& v) { v.channel = "TT-999"; },
                "there is no channel \"TT-999\" in the register"},
        Mistake{"noRoutine", [](auto& v) { v.subject = Subject::loop; },
                "TT-110 has no routine for the loop"},
        Mistake{"beforeSetup",
                [](auto& v) {
                  v.performed = moment("2017-01-01T08:00");
                  v.standards = {"LC-0900"};
                },
                "TT-110 had no setup in force on 2017-01-01T08:00:00; its first is of 2018-03-01T08:00:00"},
        Mistake{"future", [](auto& v) { v.performed = moment("2026-03-01T12:01"); },
                "the visit's date 2026-03-01T12:01:00 lies in the future"},
        Mistake{"noDate", [](auto& v) { v.performed = Moment(); }, "the visit has no date"},
        Mistake{"nobody", [](auto& v) { v.person = ""; }, "nobody is named as having made the visit"},
        Mistake{"stranger", [](auto& v) { v.person = "nn"; }, "there is no person \"nn\" in the register"},
        Mistake{"planner", [](auto& v) { v.person = "pplan"; }, "pplan is not a technician"},
        Mistake{"left", [](auto& v) { v.person = "gone"; }, "gone left on 2025-06-30, before the visit"},
        Mistake{"noStandard", [](auto& v) { v.standards = {}; }, "no standard is named"},
        Mistake{"unknownStandard",
                [](auto& v) {
                  v.standards = {"LC-2201", "X-1"};
                },
                "there is no standard \"X-1\" in the register"},
        Mistake{"standardTwice",
                [](auto& v) {
                  v.standards = {"LC-2201", "LC-2201"};
                },
                "standard LC-2201 is named twice"},
        Mistake{"expired", [](auto& v) { v.standards = {"LC-1100"}; },
                "standard LC-1100 has no certificate valid on 2026-02-20: its last, C-0, was valid from "
                "2022-01-01 to "
                "2023-01-01"},
        Mistake{"neverCertified", [](auto& v) { v.standards = {"NEW-1"}; },
                "standard NEW-1 has no certificate valid on 2026-02-20: it has none at all"},
        Mistake{"otherUnit", [](auto& v) { v.standards = {"VM-7"}; },
                "no named standard has a certificate for what is applied, in mA; name the one that was used; "
                "valid for mA "
                "on the day: LC-2201"},
        Mistake{"notANumber", [](auto& v) { v.asFound[1].typed.indicatedText = "75..2"; },
                "as found, 50 % up: \"75..2\" is not a number"},
        Mistake{"unknownUnit", [](auto& v) { v.asFound[1].typed.indicatedText = "75.2 furlong"; },
                "as found, 50 % up: the unit \"furlong\" in \"75.2 furlong\" is not understood"},
        Mistake{
            "wrongUnit", [](auto& v) { v.asFound[1].typed.indicatedText = "75.2 bar"; },
            "as found, 50 % up: \"75.2 bar\" is in bar, which cannot be told as degC here; give it in degC"},
        Mistake{"impossible", [](auto& v) { v.asFound[1].typed.indicatedText = "752"; },
                "as found, 50 % up: 752.000 degC cannot be: readings here lie between -15.0000 degC and "
                "165.000 degC"},
        Mistake{"badApplied", [](auto& v) { v.asFound[1].typed.appliedText = "12,0,0"; },
                "as found, 50 % up: \"12,0,0\" is not a number"},
        Mistake{"noReading",
                [](auto& v) {
                  v.asFound[1].typed = {"12 mA", "", ""};
                },
                "as found, 50 % up: there is no reading"},
        Mistake{"blankReason",
                [](auto& v) {
                  v.asFound[1].typed = {"", "", "  "};
                },
                "as found, 50 % up: there is no reading; give the reading, or the reason why the point was "
                "skipped"},
        Mistake{"readingAndReason", [](auto& v) { v.asFound[1].typed.skipReason = "valve"; },
                "as found, 50 % up: the point has a reading and a reason for skipping it"},
        Mistake{"elsewhere", [](auto& v) { v.asFound[1].typed.appliedText = "14 mA"; },
                "as found: no point of plan AI-3 is applied at \"14 mA\""},
        Mistake{"farFromNominal",
                [](auto& v) {
                  v.asFound[1].sequence = 2;
                  v.asFound[1].typed.appliedText = "13 mA";
                },
                "as found, 50 % up: 13.0000 mA is too far from the 12.0000 mA of this point"},
        Mistake{"twiceBySequence",
                [](auto& v) {
                  for (int i = 0; i < 3; ++i)
                    v.asFound[static_cast<std::size_t>(i)].sequence = i + 1;
                  v.asFound[2].sequence = 2;
                },
                "as found: 50 % up is given twice"},
        Mistake{"twiceByKey",
                [](auto& v) {
                  v.asFound = {keyed("0", "0.1"), keyed("50", "75"), keyed("50.0", "75")};
                },
                "as found: 50 % up is given twice"},
        Mistake{"notInPlan", [](auto& v) { v.asFound[1] = keyed("25", "37.5"); },
                "as found: \"25\" is not a point of plan AI-3; its points are 0, 50, 100"},
        Mistake{"wrongDirection", [](auto& v) { v.asFound[1] = keyed("50", "75", Direction::down); },
                "as found: \"50\" down is not a point of plan AI-3"},
        Mistake{"beyondSheet", [](auto& v) { v.asFound[2].sequence = 9; },
                "as found has a reading for line 9, but plan AI-3 has 3 lines"},
        Mistake{"tooMany", [](auto& v) { v.asFound.insert(v.asFound.end(), 2, typed("75")); },
                "as found has 2 readings more than the 3 points of plan AI-3"},
        Mistake{"tooFew", [](auto& v) { v.asFound.resize(1); },
                "as found lacks 2 of 3 points: 50 % up, 100 % up; give each a reading, or the reason why it "
                "was skipped"},
        Mistake{"nothing", [](auto& v) { v.asFound.clear(); }, "the visit has no readings"},
        Mistake{"onlyAsLeft", [](auto& v) { v.asFound.swap(v.asLeft); },
                "there are as-left readings but no as-found ones; give the as-found readings, or a reason "
                "for skipping "
                "each of them"},
        Mistake{"asLeftTooFew", [](auto& v) { v.asLeft = {typed("0.0")}; },
                "as left lacks 2 of 3 points: 50 % up, 100 % up"},
        Mistake{"adjusted",
                [](auto& v) {
                  v.adjustment = {true, false, "zero trimmed"};
                },
                "TT-110 was adjusted but there are no as-left readings; enter the as-left readings taken "
                "afterwards, or "
                "take the adjustment back"},
        Mistake{"repaired",
                [](auto& v) {
                  v.adjustment = {false, true, "new card"};
                },
                "TT-110 was repaired but there are no as-left readings"},
        Mistake{"humidity", [](auto& v) { v.conditions.humidity = 101; },
                "the relative humidity is not between 0 and 100 %"},
        Mistake{"temperature", [](auto& v) { v.conditions.temperature = std::nan(""); },
                "the ambient temperature is not between -60 and 80 degC"},
        Mistake{"retired", [](auto& v) { v.channel = "TT-109"; }, "TT-109 is retired"}),
    [](const testing::TestParamInfo<Mistake>& mistake) { return mistake.param.name; });

TEST_F(VisitChecks, EveryProblemAtOnceWhereItStands) {
  ProposedVisit visit = goodVisit();
  visit.where = {"visit.toml", 1, 0, ""};
  visit.person = "nn";
  visit.standards = {"LC-1100", "X-1"};
  visit.asFound[0].typed.indicatedText = "4..2";
  visit.asFound[0].where = {"visit.toml", 9, 3, ""};
  visit.asFound[2].typed.appliedText = "20 bar";
  visit.adjustment.adjusted = true;
  EXPECT_THAT(problems(visit),
              testing::UnorderedElementsAre(
                  HasSubstr("visit.toml:1: there is no person \"nn\""), HasSubstr("LC-1100"),
                  HasSubstr("X-1"), HasSubstr("visit.toml:9:3: as found, 0 % up: \"4..2\" is not a number"),
                  HasSubstr("\"20 bar\" is in bar"), HasSubstr("no as-left readings")));
}

TEST_F(VisitChecks, LimitsOfDatesAreInside) {
  ProposedVisit visit = goodVisit();
  visit.performed = kNow;
  checked(visit);
  visit.person = "gone";
  visit.performed = moment("2025-06-30T23:59");  // the last day at work
  checked(visit);
  visit.performed = moment("2025-02-28T08:00");  // last day of C-1, and C-2 is already valid
  EXPECT_EQ(checked(visit).standards.at(0).certificate, "C-2");
  visit.performed = moment("2025-02-19T08:00");
  EXPECT_EQ(checked(visit).standards.at(0).certificate, "C-1");
}

TEST_F(VisitChecks, CautionsAreConfirmedBeforeAnEnteredVisit) {
  ProposedVisit visit = goodVisit();
  visit.channel = "TT-101";
  visit.asFound.clear();
  for (const char* reading : {"0", "37.5", "75", "112.5", "150", "150", "112.5", "75", "37.5", "0"}) {
    visit.asFound.push_back(typed(reading));
  }
  EXPECT_THAT(problems(visit), ElementsAre(HasSubstr("the cautions of plan AI-5UD are not confirmed")));
  EXPECT_FALSE(checked(visit, true).cautionsConfirmed);
  visit.cautionsConfirmed = true;
  EXPECT_TRUE(checked(visit).cautionsConfirmed);
}

TEST_F(VisitChecks, ReadingsFindTheirPointsHoweverTheyAreGiven) {
  ProposedVisit visit = goodVisit();
  visit.asFound = {typed("150", "20 mA"), typed("0.1", "4"), typed("75,2", "0.012 A")};
  const Calibration byApplied = checked(visit);
  EXPECT_EQ(byApplied.asFound[0].indicated, 0.1);
  EXPECT_EQ(byApplied.asFound[1].indicated, 75.2);
  EXPECT_NEAR(byApplied.asFound[1].applied, 12.0, 1e-12);
  EXPECT_EQ(byApplied.asFound[2].indicated, 150.0);

  visit.asFound = {keyed("100 %", "302 degF"), keyed("50", "75.2"), keyed("0", "0.1")};
  const Calibration byKey = checked(visit);
  EXPECT_EQ(byKey.asFound[0].indicated, 0.1);
  EXPECT_NEAR(byKey.asFound[2].indicated, 150.0, 1e-9);
  EXPECT_EQ(byKey.asFound[2].indicatedText, "302 degF");

  visit.asFound = goodVisit().asFound;
  for (std::size_t i = 0; i < 3; ++i) {
    visit.asFound[i].sequence = static_cast<int>(i) + 1;
  }
  std::swap(visit.asFound[0], visit.asFound[2]);
  EXPECT_TRUE(sameContent(checked(visit), checked(goodVisit())));
}

TEST_F(VisitChecks, FailingAsFoundPassingAsLeft) {
  ProposedVisit visit = goodVisit();
  visit.asFound[2].typed.indicatedText = "150.4";
  EXPECT_EQ(checked(visit).leftVerdict, Verdict::fail) << "as found stands as left";
  visit.asLeft = goodVisit().asFound;
  visit.adjustment = {true, false, "span trimmed"};
  const Calibration made = checked(visit);
  EXPECT_EQ(made.foundVerdict, Verdict::fail);
  EXPECT_EQ(made.leftVerdict, Verdict::pass);
  visit.adjustment = {};
  EXPECT_EQ(checked(visit).asLeft.size(), 3U) << "as left without an adjustment is allowed";
}

TEST_F(VisitChecks, SkippedPointsKeepTheirReasonsAndAreNotJudged) {
  ProposedVisit visit = goodVisit();
  visit.asFound[1] = skipped("  could not be isolated ");
  const Calibration made = checked(visit);
  EXPECT_EQ(made.asFound[1].skipReason, "could not be isolated");
  EXPECT_EQ(made.asFound[1].verdict, Verdict::notJudged);
  EXPECT_FALSE(made.asFound[1].expandedUncertainty.has_value());
  EXPECT_EQ(made.foundVerdict, Verdict::pass);

  visit.asFound = {skipped("new card"), skipped("new card"), skipped("new card")};
  visit.asLeft = goodVisit().asFound;
  const Calibration commissioned = checked(visit);
  EXPECT_EQ(commissioned.foundVerdict, Verdict::notJudged);
  EXPECT_EQ(commissioned.leftVerdict, Verdict::pass);
}

TEST_F(VisitChecks, AGuardedPlanJudgesByTheUncertaintyOfEachPoint) {
  for (Plan& plan : site_.plans) {
    plan.decisionRule = {.basis = GuardBasis::factor, .factor = 3.0};
  }
  // Limits of 0.375 degC; U is about 0.06 degC, nearly all of it from the step of 0.1 degC.
  ProposedVisit visit = goodVisit();
  visit.asFound = {typed("0.1"), typed("75.3"), typed("149.5")};
  const Calibration made = checked(visit);
  for (const Reading& reading : made.asFound) {
    ASSERT_TRUE(reading.expandedUncertainty.has_value());
    EXPECT_NEAR(*reading.expandedUncertainty, 0.06, 0.01);
  }
  EXPECT_EQ(made.asFound[0].verdict, Verdict::pass);
  EXPECT_EQ(made.asFound[1].verdict, Verdict::fail) << "0.3 is inside, but not by three times U";
  EXPECT_EQ(made.asFound[2].verdict, Verdict::fail);
  EXPECT_EQ(made.foundVerdict, Verdict::fail);

  const auto opened = openSheet(site_, "TT-110", Subject::channel, visit.performed);
  const auto& sheet = std::get<VisitSheet>(opened);
  const auto now = judge(sheet, sheet.points[1], {"", "75.3", ""}, {site_.standard("LC-2201")});
  EXPECT_EQ(std::get<Reading>(now).verdict, Verdict::fail);
  const auto early = judge(sheet, sheet.points[1], {"", "75.3", ""}, {});
  EXPECT_EQ(std::get<Reading>(early).verdict, Verdict::notJudged) << "no standard yet";
  const auto outside = judge(sheet, sheet.points[1], {"", "75.5", ""}, {});
  EXPECT_EQ(std::get<Reading>(outside).verdict, Verdict::fail) << "outside whatever the standard";
}

TEST_F(VisitChecks, WithoutUncertaintyAGuardedPlanPassesNothing) {
  for (Plan& plan : site_.plans) {
    plan.decisionRule = {.basis = GuardBasis::factor, .factor = 1.0};
  }
  ProposedVisit visit = goodVisit();
  visit.standards = {};
  const Calibration history = checked(visit, true);
  for (const Reading& reading : history.asFound) {
    EXPECT_EQ(reading.verdict, Verdict::notJudged);
  }
  EXPECT_EQ(history.foundVerdict, Verdict::notJudged);
  visit.asFound[1] = typed("76");
  EXPECT_EQ(checked(visit, true).foundVerdict, Verdict::fail);
  site_.plans[1].decisionRule = {};
  visit.asFound[1] = typed("75.2");
  EXPECT_EQ(checked(visit, true).foundVerdict, Verdict::pass) << "simple acceptance needs none";
}

TEST_F(VisitChecks, AHistoryMayLeaveThingsOut) {
  ProposedVisit visit = goodVisit();
  visit.channel = "TT-109";
  visit.standards = {};
  visit.asFound = {keyed("50", "75.2")};
  const Calibration made = checked(visit, true);
  ASSERT_EQ(made.asFound.size(), 1U);
  EXPECT_EQ(made.asFound[0].point.sequence, 2);
  EXPECT_FALSE(made.asFound[0].expandedUncertainty.has_value()) << "no standard, no uncertainty";

  visit.standards = {"LC-1100"};
  visit.asFound.push_back(keyed("50", "75.3"));
  visit.adjustment.adjusted = true;
  EXPECT_THAT(
      problems(visit, true),
      testing::UnorderedElementsAre(HasSubstr("LC-1100"), HasSubstr("given twice"), HasSubstr("adjusted")));
  visit = goodVisit();
  visit.asFound.swap(visit.asLeft);
  EXPECT_THAT(problems(visit, true), ElementsAre(HasSubstr("no as-found ones")));
  visit.asLeft.clear();
  EXPECT_THAT(problems(visit, true), ElementsAre(HasSubstr("the visit has no readings")));
}

TEST_F(VisitChecks, TheSheetIsOfTheSetupInForceThen) {
  AnalogInputSetup wider = std::get<AnalogInputSetup>(site_.channels[3].setups[0].setup.kind);
  wider.units = Span{0, 300, Unit::celsius};
  site_.channels[3].setups.push_back({2, moment("2026-01-01T00:00"), {wider}, "new range"});
  const auto before =
      std::get<VisitSheet>(openSheet(site_, "TT-110", Subject::channel, moment("2025-12-31T23:59")));
  const auto after =
      std::get<VisitSheet>(openSheet(site_, "TT-110", Subject::channel, moment("2026-01-01T00:00")));
  EXPECT_EQ(before.setup->version, 1);
  EXPECT_EQ(before.model->readingSpan().high, 150.0);
  EXPECT_EQ(after.setup->version, 2);
  EXPECT_EQ(after.model->readingSpan().high, 300.0);
  EXPECT_EQ(after.points.size(), 3U);
  EXPECT_EQ(after.sensor, nullptr);
}

TEST(Draft, BecomesTheVisitItAmountsTo) {
  Draft draft;
  draft.id = 7;
  draft.channel = "TT-110";
  draft.person = "mtolland";
  draft.started = moment("2026-02-20T09:30");
  draft.standards = {"LC-2201"};
  draft.cautionsConfirmed = true;
  draft.values = {{Phase::asLeft, 1, "", "0.0", ""},
                  {Phase::asFound, 3, "", "150.0", ""},
                  {Phase::asFound, 1, "4", "0.1", ""},
                  {Phase::asFound, 2, "", "", "no access"},
                  {Phase::asLeft, 2, "", "", ""}};
  const ProposedVisit visit = visitFromDraft(draft);
  EXPECT_EQ(visit.channel, "TT-110");
  EXPECT_EQ(visit.performed, draft.started);
  EXPECT_TRUE(visit.cautionsConfirmed);
  EXPECT_EQ(visit.source, "entered");
  ASSERT_EQ(visit.asFound.size(), 3U);
  EXPECT_EQ(visit.asFound[0].sequence, 1);
  EXPECT_EQ(visit.asFound[0].typed.appliedText, "4");
  EXPECT_EQ(visit.asFound[1].typed.skipReason, "no access");
  EXPECT_EQ(visit.asFound[2].sequence, 3);
  ASSERT_EQ(visit.asLeft.size(), 1U) << "a cleared line is no reading";
}

/// A record of the tests' site in a directory of its own.
class EnterVisit : public VisitChecks {
 protected:
  EnterVisit() {
    std::filesystem::remove_all(directory_);
    std::filesystem::create_directories(directory_);
  }
  ~EnterVisit() override { std::filesystem::remove_all(directory_); }

  std::filesystem::path directory_ =
      std::filesystem::path(testing::TempDir()) /
      (std::string("spanwright-visit-") + testing::UnitTest::GetInstance()->current_test_info()->name());
};

TEST_F(EnterVisit, StoresOnceAndRemovesTheDraft) {
  Store store = Store::create(directory_ / "site.db", site_);
  Draft draft;
  draft.channel = "TT-110";
  draft.person = "mtolland";
  draft.started = moment("2026-02-20T09:30");
  draft.setupVersion = 1;
  draft.standards = {"LC-2201"};
  const std::int64_t id = store.saveDraft(draft);
  int sequence = 0;
  for (const char* reading : {"0.1", "75.2", "150.0"}) {
    store.saveDraftValue(id, {Phase::asFound, ++sequence, "", reading, ""});
  }
  const ProposedVisit visit = visitFromDraft(store.draft(id).value());
  const Calibration entered = enterVisit(store, visit, kNow, id);
  EXPECT_GT(entered.id, 0);
  EXPECT_FALSE(entered.recordedUtc.is_special());
  EXPECT_TRUE(store.drafts().empty());
  EXPECT_EQ(store.calibrationCount(), 1);
  EXPECT_TRUE(sameContent(store.calibration(entered.id).value(), checked(visit)));

  try {
    enterVisit(store, visit, kNow);
    FAIL() << "the same visit was stored twice";
  } catch (const InputError& refusal) {
    ASSERT_EQ(refusal.problems().size(), 1U);
    EXPECT_THAT(
        sentence(refusal.problems()[0]),
        HasSubstr(
            "a visit to the channel of TT-110 at 2026-02-20T09:30:00 is already there, as calibration"));
  }
  EXPECT_EQ(store.calibrationCount(), 1);
}

TEST_F(EnterVisit, ARefusedVisitLeavesRecordAndDraftAlone) {
  Store store = Store::create(directory_ / "site.db", site_);
  Draft draft;
  draft.channel = "TT-110";
  draft.started = moment("2026-02-20T09:30");
  draft.setupVersion = 1;
  const std::int64_t id = store.saveDraft(draft);
  ProposedVisit visit = goodVisit();
  visit.person = "nn";
  visit.asFound[1].typed.indicatedText = "x";
  try {
    enterVisit(store, visit, kNow, id);
    FAIL() << "a faulty visit was stored";
  } catch (const InputError& refusal) {
    EXPECT_EQ(refusal.problems().size(), 2U);
  }
  EXPECT_EQ(store.calibrationCount(), 0);
  EXPECT_EQ(store.drafts().size(), 1U);
  EXPECT_GT(enterVisit(store, goodVisit(), kNow).id, 0) << "the store goes on working";
}

}  // namespace
}  // namespace spanwright
