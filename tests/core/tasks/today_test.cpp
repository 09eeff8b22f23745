// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/today.h"

#include <gmock/gmock.h>

#include <filesystem>
#include <optional>

#include "core/tasks/signing.h"
#include "core/units/time.h"
#include "tests/core/tasks/record_fixture.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

class StandingClock : public Clock {
 public:
  Moment localNow() const override { return moment("2026-06-01T12:00"); }
  Moment utcNow() const override { return localNow(); }
};

class WhatNeedsDoing : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() /
              ("spanwright-today-" + std::to_string(::getpid()) + "-" +
               testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(folder_);
    site_.people.push_back({"rita", "Rita Example", {Role::reviewer, Role::technician}, {}});
    site_.people.push_back({"quinn", "Quinn Example", {Role::reviewer}, {}});
    site_.index();
    store_.emplace(Store::create(folder_ / "site.record", site_, clock_));
  }
  void TearDown() override {
    store_.reset();
    std::filesystem::remove_all(folder_);
  }
  CalibrationId made(const std::string& by, const std::string& when) {
    ProposedVisit visit = goodVisit();
    visit.person = by;
    visit.performed = moment(when);
    return enterVisit(*store_, visit, clock_.localNow()).id;
  }
  void sign(CalibrationId id, LifeAct act, const std::string& person, const std::string& reason = "") {
    signCalibration(*store_, id, act, {person, "passphrase of " + person, {1, 8192}}, reason);
  }
  Today todayOf(const std::string& person, std::size_t most = 3) const {
    const Date day = clock_.localNow().date();
    return todayFor(*store_, dueList(*store_, day), fleet_, person, day, most);
  }
  static std::vector<CalibrationId> ids(const std::vector<CalibrationSummary>& all) {
    std::vector<CalibrationId> numbers;
    for (const CalibrationSummary& each : all) {
      numbers.push_back(each.id);
    }
    return numbers;
  }

  std::vector<FleetRow> fleet_;
  Register site_ = visitSite();
  StandingClock clock_;
  std::optional<Store> store_;

 private:
  std::filesystem::path folder_;
};

TEST_F(WhatNeedsDoing, ConcernsPeopleByTheirRoles) {
  const Date day = clock_.localNow().date();
  const auto of = [&](const char* person) {
    const TodayConcerns concerns = concernsOf(store_->site(), person, day);
    return std::vector<bool>{concerns.visits, concerns.reviews, concerns.due};
  };
  EXPECT_THAT(of("mtolland"), ElementsAre(true, false, true));
  EXPECT_THAT(of("pplan"), ElementsAre(false, false, true));
  EXPECT_THAT(of("quinn"), ElementsAre(false, true, false));
  EXPECT_THAT(of("rita"), ElementsAre(true, true, true));
  EXPECT_THAT(of("gone"), ElementsAre(false, false, false)) << "left in 2025";
  EXPECT_THAT(of("nobody"), ElementsAre(false, false, false));
  EXPECT_THAT(of(""), ElementsAre(true, true, true));
}

TEST_F(WhatNeedsDoing, NobodyIsAskedToReviewTheirOwnWork) {
  const CalibrationId ritas = made("rita", "2026-03-01T09:00");
  const CalibrationId maras = made("mtolland", "2026-03-02T09:00");
  sign(ritas, LifeAct::performed, "rita");
  sign(maras, LifeAct::performed, "mtolland");
  EXPECT_THAT(ids(todayOf("rita").toReview), ElementsAre(maras));
  EXPECT_THAT(ids(todayOf("quinn").toReview), ElementsAre(ritas, maras));
  EXPECT_THAT(ids(todayOf("").toReview), ElementsAre(ritas, maras));
  EXPECT_THAT(todayOf("mtolland").toReview, IsEmpty());
  sign(ritas, LifeAct::reviewed, "quinn");
  EXPECT_THAT(ids(todayOf("quinn").toReview), ElementsAre(maras));
  EXPECT_THAT(ids(todayOf("quinn").toApprove), ElementsAre(ritas));
  EXPECT_THAT(todayOf("rita").toApprove, IsEmpty());
}

TEST_F(WhatNeedsDoing, WhatWasSentBackGoesToWhoMadeItWithTheReason) {
  const CalibrationId id = made("mtolland", "2026-03-02T09:00");
  sign(id, LifeAct::performed, "mtolland");
  sign(id, LifeAct::sentBack, "quinn", "which adapter?");
  const Today maras = todayOf("mtolland");
  ASSERT_EQ(maras.sentBack.size(), 1U);
  EXPECT_EQ(maras.sentBack[0].calibration.id, id);
  EXPECT_EQ(maras.sentBack[0].by, "quinn");
  EXPECT_EQ(maras.sentBack[0].reason, "which adapter?");
  EXPECT_THAT(todayOf("rita").sentBack, IsEmpty());
  EXPECT_EQ(todayOf("").sentBack.size(), 1U);
}

TEST_F(WhatNeedsDoing, DraftsGoToWhoBeganThemOrToEverybody) {
  Draft draft;
  draft.channel = "TT-101";
  draft.person = "mtolland";
  draft.started = moment("2026-05-30T08:00");
  const std::int64_t maras = store_->saveDraft(draft);
  draft.person.clear();
  const std::int64_t nobodys = store_->saveDraft(draft);
  const auto of = [this](const char* person) {
    std::vector<std::int64_t> numbers;
    for (const Draft& each : todayOf(person).drafts) {
      numbers.push_back(each.id);
    }
    return numbers;
  };
  EXPECT_THAT(of("mtolland"), ElementsAre(nobodys, maras));
  EXPECT_THAT(of("rita"), ElementsAre(nobodys));
  EXPECT_THAT(of("quinn"), IsEmpty()) << "makes no visits";
  EXPECT_THAT(of(""), ElementsAre(nobodys, maras));
}

TEST_F(WhatNeedsDoing, RoundsGoToWhoWalksThemWithHowFarTheyAre) {
  const ProposedRound maras{
      "Monday", "mtolland", std::nullopt, {{"TT-101", Subject::channel}, {"TT-110", Subject::channel}}};
  ProposedRound anybodys = maras;
  anybodys.name = "Tuesday";
  anybodys.person.clear();
  const std::int64_t first = makeRound(*store_, maras);
  makeRound(*store_, anybodys);
  const auto names = [this](const char* person) {
    std::vector<std::string> all;
    for (const RoundToWalk& each : todayOf(person).rounds) {
      all.push_back(each.round.name);
    }
    return all;
  };
  EXPECT_THAT(names("mtolland"), ElementsAre("Tuesday", "Monday"));
  EXPECT_THAT(names("rita"), ElementsAre("Tuesday"));
  EXPECT_THAT(names("quinn"), IsEmpty()) << "makes no visits";
  EXPECT_EQ(todayOf("mtolland").rounds[1].next->stop.channel, "TT-101");
  ProposedVisit visit = goodVisit();  // to TT-110, the second stop
  visit.performed = moment("2026-06-01T09:00");
  enterVisit(*store_, visit, clock_.localNow());
  const RoundToWalk monday = todayOf("mtolland").rounds[1];
  EXPECT_EQ(monday.done, 1U);
  EXPECT_EQ(monday.next->stop.channel, "TT-101");
  store_->closeRound(first);
  EXPECT_THAT(names("mtolland"), ElementsAre("Tuesday"));
}

TEST_F(WhatNeedsDoing, VisitsNobodySignedGoToWhoMadeThem) {
  const CalibrationId maras = made("mtolland", "2026-03-01T09:00");
  const CalibrationId ritas = made("rita", "2026-03-02T09:00");
  ProposedVisit old = goodVisit();
  old.performed = moment("2025-03-01T09:00");
  old.source = "history.csv";
  store_->add(*checkVisit(store_->site(), old, clock_.localNow(), true).calibration);
  EXPECT_THAT(ids(todayOf("mtolland").toSign), ElementsAre(maras)) << "what was imported needs no signature";
  EXPECT_THAT(ids(todayOf("").toSign), ElementsAre(maras, ritas));
  EXPECT_THAT(todayOf("quinn").toSign, IsEmpty());
  sign(maras, LifeAct::performed, "mtolland");
  EXPECT_THAT(todayOf("mtolland").toSign, IsEmpty());
}

TEST_F(WhatNeedsDoing, DueWorkIsCountedWholeAndShownInPart) {
  const Date day = clock_.localNow().date();
  const auto due = dueList(*store_, day);
  const auto unproven = static_cast<std::size_t>(std::count_if(
      due.begin(), due.end(), [](const DueItem& each) { return each.due.state == DueState::unproven; }));
  ASSERT_GT(unproven, 3U);
  const Today today = todayOf("pplan");
  ASSERT_EQ(today.due.size(), 4U);
  EXPECT_EQ(today.due[0].state, DueState::unproven);
  EXPECT_EQ(today.due[0].count, unproven);
  ASSERT_EQ(today.due[0].first.size(), 3U);
  EXPECT_EQ(today.due[0].first[0].channel, due[0].channel);
  EXPECT_EQ(today.due[1].count, 0U);
  EXPECT_THAT(todayOf("quinn").due, IsEmpty());
}

FleetRow found(const char* channel, std::vector<std::pair<FindingKind, double>> findings) {
  FleetRow row;
  row.channel = channel;
  for (const auto& [kind, pValue] : findings) {
    DriftFinding& finding = row.findings.emplace_back();
    finding.kind = kind;
    finding.pValue = pValue;
  }
  return row;
}

TEST_F(WhatNeedsDoing, StepsNobodyRecordedAreCountedWholeAndTheMostCertainShownFirst) {
  fleet_ = {found("TT-1", {{FindingKind::intermittent, 1e-9}, {FindingKind::step, 1e-5}}),
            found("TT-2", {{FindingKind::fastDrift, 1e-8}}),
            found("TT-3", {{FindingKind::step, 1e-7}, {FindingKind::step, 1e-6}}),
            found("TT-4", {{FindingKind::step, 1e-6}}), found("TT-5", {})};
  const StepGroup all = todayOf("pplan").steps;
  ASSERT_EQ(all.count, 3U);
  ASSERT_EQ(all.first.size(), 3U);
  EXPECT_EQ(all.first[0].channel, "TT-3");
  EXPECT_EQ(all.first[0].finding.pValue, 1e-7);
  EXPECT_EQ(all.first[1].channel, "TT-4");
  EXPECT_EQ(all.first[2].finding.kind, FindingKind::step);
  const StepGroup some = todayOf("mtolland", 2).steps;
  EXPECT_EQ(some.count, 3U);
  EXPECT_EQ(some.first.size(), 2U);
  EXPECT_EQ(todayOf("quinn").steps.count, 0U) << "a reviewer's day is another";
}

TEST(StandardsToSee, AreThoseThatRunOutWithinSixtyDaysOrCannotBeUsed) {
  Register site;
  const auto add = [&site](const char* serial, std::vector<StandardCertificate> certificates) -> Standard& {
    Standard& standard = site.standards.emplace_back();
    standard.serial = serial;
    standard.certificates = std::move(certificates);
    return standard;
  };
  const Date today = day(2026, 6, 1);
  const auto until = [](Date last) {
    return std::vector<StandardCertificate>{certificate("C", day(2025, 1, 1), last, {})};
  };
  add("S61", until(day(2026, 8, 1)));
  add("S60", until(day(2026, 7, 31)));
  add("S0", until(today));
  add("RAN-OUT", until(day(2026, 5, 1)));
  add("NONE", {});
  StandardEvent out;
  out.act = StandardAct::outOfService;
  out.firstDay = day(2026, 5, 1);
  out.reason = "dropped";
  add("OUT", until(day(2027, 6, 1))).events = {out};
  StandardEvent allowed;
  allowed.act = StandardAct::useAllowed;
  allowed.firstDay = day(2026, 5, 1);
  allowed.lastDay = day(2026, 6, 11);
  allowed.reason = "at the laboratory's limit";
  add("ALLOWED", until(day(2026, 4, 1))).events = {allowed};
  const auto all = standardsToSee(site, today);
  std::vector<std::string> serials;
  for (const StandardToSee& each : all) {
    serials.push_back(each.serial);
  }
  EXPECT_THAT(serials, ElementsAre("RAN-OUT", "NONE", "OUT", "S0", "ALLOWED", "S60"));
  EXPECT_EQ(all[2].reason, "dropped");
  EXPECT_EQ(all[3].daysLeft, 0);
  EXPECT_EQ(all[4].daysLeft, 10) << "of the allowance";
  EXPECT_EQ(all[5].daysLeft, kStandardDaysAhead);
}

}  // namespace
}  // namespace spanwright::test
