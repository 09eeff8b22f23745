// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/signing.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <unistd.h>

#include <filesystem>

#include "core/store/verify.h"
#include "core/tasks/issue.h"
#include "core/tasks/rounds.h"
#include "core/tasks/status.h"
#include "tests/core/tasks/visit_fixture.h"

namespace spanwright::test {
namespace {

using testing::HasSubstr;

class MovingClock : public Clock {
 public:
  Moment localNow() const override { return now; }
  Moment utcNow() const override { return now; }
  Moment now = kNow;
};

class Signing : public VisitTest {
 protected:
  void SetUp() override {
    folder_ =
        std::filesystem::temp_directory_path() /
        fmt::format("signing-{}-{}", getpid(), testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(folder_);
    site_.people.push_back({"rita", "Rita Example", {Role::reviewer}, {}});
    site_.people.push_back({"ada", "Ada Example", {Role::administrator}, {}});
    site_.index();
    store_.emplace(Store::create(folder_ / "site.record", site_, clock_));
    id_ = enterVisit(*store_, goodVisit(), kNow).id;
  }
  void TearDown() override {
    store_.reset();
    std::filesystem::remove_all(folder_);
  }

  static Signer signer(const std::string& person, const std::string& passphrase) {
    return {person, passphrase, {1, 8192}};
  }
  LifeEvent sign(LifeAct act, const std::string& person, const std::string& reason = "",
                 CalibrationId id = 0) {
    return signCalibration(*store_, id == 0 ? id_ : id, act, signer(person, "passphrase of " + person),
                           reason);
  }
  template <class Work>
  static std::string refused(Work work) {
    try {
      work();
    } catch (const InputError& error) {
      return error.what();
    }
    ADD_FAILURE() << "nothing was refused";
    return {};
  }
  void expectWhole() {
    for (const RecordProblem& problem : verifyRecord(store_->file()).problems) {
      ADD_FAILURE() << problem.what;
    }
  }

  MovingClock clock_;
  std::filesystem::path folder_;
  std::optional<Store> store_;
  CalibrationId id_ = 0;
};

TEST_F(Signing, ACalibrationGoesItsWay) {
  const LifeEvent performed = sign(LifeAct::performed, "mtolland");
  EXPECT_EQ(performed.digest, store_->calibrationDigest(id_).view());
  EXPECT_THAT(refused([&] { sign(LifeAct::approved, "rita"); }), HasSubstr("an approval follows a review"));
  sign(LifeAct::reviewed, "rita", "as expected");
  sign(LifeAct::approved, "rita");
  EXPECT_EQ(store_->state(id_), LifeState::approved);
  const auto all = signatures(*store_, id_);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0].name, "Mara Tolland");
  EXPECT_EQ(all[1].event.reason, "as expected");
  EXPECT_EQ(all[1].keyMark, all[2].keyMark);
  EXPECT_NE(all[0].keyMark, all[1].keyMark);
  expectWhole();
}

TEST_F(Signing, TheFirstPassphraseHasToBeLongEnough) {
  const auto with = [&](const std::string& passphrase) {
    return refused(
        [&] { signCalibration(*store_, id_, LifeAct::performed, signer("mtolland", passphrase), ""); });
  };
  EXPECT_THAT(with("1234567"), HasSubstr("fewer than 8 characters"));
  EXPECT_THAT(with("öööööüü"), HasSubstr("fewer than 8 characters"));
  EXPECT_THAT(with(std::string(201, 'x')), HasSubstr("more than 200 characters"));
  EXPECT_FALSE(store_->personKey("mtolland"));
  EXPECT_FALSE(passphraseFault("öööööüüü"));
}

TEST_F(Signing, WrongPassphrasesSlowDownLockAndAreJournalled) {
  sign(LifeAct::performed, "mtolland");
  sign(LifeAct::reviewed, "rita");
  const auto wrong = [&] {
    return refused(
        [&] { signCalibration(*store_, id_, LifeAct::approved, signer("rita", "guess number 1"), ""); });
  };
  const auto journalled = [&] {
    int count = 0;
    store_->forEachEntry(1, [&](const JournalEntry& entry) {
      count += entry.act == acts::kPassphraseWrong ? 1 : 0;
      return true;
    });
    return count;
  };
  for (int i = 1; i <= kTriesWithoutWaiting; ++i) {
    EXPECT_THAT(wrong(), HasSubstr("the passphrase of rita is wrong"));
  }
  EXPECT_EQ(journalled(), 3);
  EXPECT_THAT(wrong(), HasSubstr("none is tried for 2 seconds"));
  EXPECT_THAT(refused([&] { sign(LifeAct::approved, "rita"); }), HasSubstr("none is tried"))
      << "not even the right one";
  EXPECT_EQ(journalled(), 3) << "what was not tried is not counted";
  for (int i = kTriesWithoutWaiting; i < kTriesUntilLock; ++i) {
    clock_.now += boost::posix_time::seconds(2L << (i - kTriesWithoutWaiting));
    EXPECT_THAT(wrong(), HasSubstr("is wrong")) << i;
  }
  EXPECT_THAT(wrong(), HasSubstr("none is tried for 24 hours; ask an administrator"));
  clock_.now += boost::posix_time::hours(23);
  EXPECT_THAT(wrong(), HasSubstr("none is tried"));
  clock_.now += boost::posix_time::hours(1);
  sign(LifeAct::approved, "rita");
  EXPECT_EQ(store_->state(id_), LifeState::approved);
  EXPECT_EQ(store_->passphraseTries("rita").wrong, 0);
  EXPECT_EQ(journalled(), kTriesUntilLock);
  expectWhole();
}

TEST_F(Signing, AClockSetBackLocksNobodyOutForLonger) {
  const PassphraseTries tries{4, kNow};
  EXPECT_EQ(waitingTime(tries, kNow), boost::posix_time::seconds(4));
  EXPECT_EQ(waitingTime(tries, kNow - boost::posix_time::hours(48)), boost::posix_time::seconds(4));
  EXPECT_EQ(waitingTime({2, kNow}, kNow), boost::posix_time::seconds(0));
}

TEST_F(Signing, ChangingAPassphraseKeepsOldSignatures) {
  sign(LifeAct::performed, "mtolland");
  const std::string key = signatures(*store_, id_)[0].keyMark;
  EXPECT_THAT(refused([&] {
                changePassphrase(*store_, signer("mtolland", "not the right one"), "a new passphrase");
              }),
              HasSubstr("is wrong"));
  changePassphrase(*store_, signer("mtolland", "passphrase of mtolland"), "a new passphrase");
  expectWhole();
  ProposedVisit later = goodVisit();
  later.performed += boost::posix_time::hours(1);
  const CalibrationId second = enterVisit(*store_, later, kNow).id;
  EXPECT_THAT(refused([&] { sign(LifeAct::performed, "mtolland", "", second); }), HasSubstr("is wrong"));
  signCalibration(*store_, second, LifeAct::performed, signer("mtolland", "a new passphrase"), "");
  EXPECT_EQ(signatures(*store_, second)[0].keyMark, key) << "the same key under another passphrase";
  expectWhole();
}

TEST_F(Signing, AnAdministratorsResetMustBeChangedFirst) {
  sign(LifeAct::performed, "mtolland");
  const Signer ada = signer("ada", "passphrase of ada");
  EXPECT_THAT(refused([&] {
                resetPassphrase(*store_, "mtolland", "temporary one", signer("rita", "passphrase of rita"));
              }),
              HasSubstr("not an administrator"));
  EXPECT_THAT(refused([&] { resetPassphrase(*store_, "ada", "temporary one", ada); }),
              HasSubstr("their own"));
  resetPassphrase(*store_, "mtolland", "temporary one", ada);
  sign(LifeAct::sentBack, "rita", "look again");
  EXPECT_THAT(refused([&] {
                signCalibration(*store_, id_, LifeAct::performed, signer("mtolland", "temporary one"), "");
              }),
              HasSubstr("somebody else chose"));
  changePassphrase(*store_, signer("mtolland", "temporary one"), "my own passphrase");
  signCalibration(*store_, id_, LifeAct::performed, signer("mtolland", "my own passphrase"), "");
  const auto all = signatures(*store_, id_);
  EXPECT_NE(all.front().keyMark, all.back().keyMark) << "a new key";
  expectWhole();
}

TEST_F(Signing, APersonLeavesAndTheirSignaturesStay) {
  sign(LifeAct::performed, "mtolland");
  setPersonLeft(*store_, "mtolland", kNow.date(), signer("ada", "passphrase of ada"));
  EXPECT_EQ(signatures(*store_, id_)[0].name, "Mara Tolland");
  sign(LifeAct::sentBack, "rita", "look again");
  EXPECT_THAT(refused([&] { sign(LifeAct::performed, "mtolland"); }), HasSubstr("left on 2026-03-01"));
  expectWhole();
}

TEST_F(Signing, WhatIsSignedAfterSomebodyElseActedIsRefused) {
  sign(LifeAct::performed, "mtolland");
  Store other = Store::open(store_->file(), Store::Mode::readWrite, clock_);
  sign(LifeAct::sentBack, "rita", "look again");
  EXPECT_THAT(refused([&] {
                signCalibration(other, id_, LifeAct::reviewed, signer("rita", "passphrase of rita"), "");
              }),
              HasSubstr("is sent back and cannot be reviewed now"));
}

TEST_F(Signing, ACorrectionTakesThePlaceOfAnUnsignedCalibrationAtOnce) {
  ProposedVisit correction = goodVisit();
  correction.corrects = id_;
  correction.correctionReason = "typed 75.2 for 72.5";
  correction.asFound[1].typed.indicatedText = "75.1";
  const Calibration stored = enterVisit(*store_, correction, kNow);
  EXPECT_EQ(stored.corrects, id_);
  EXPECT_EQ(store_->state(id_), LifeState::superseded);
  EXPECT_EQ(store_->life(id_).back().correction, stored.id);
  EXPECT_EQ(store_->history("TT-110").size(), 1U);
  EXPECT_THAT(refused([&] { enterVisit(*store_, correction, kNow); }), HasSubstr("takes no correction"));
  correction.corrects = stored.id;
  EXPECT_NO_THROW(enterVisit(*store_, correction, kNow)) << "a correction can be corrected";
  correction.corrects = 99;
  EXPECT_THAT(refused([&] { enterVisit(*store_, correction, kNow); }),
              HasSubstr("no calibration 99 to correct"));
  expectWhole();
}

TEST_F(Signing, ASignedCalibrationStandsUntilItsCorrectionIsSigned) {
  sign(LifeAct::performed, "mtolland");
  ProposedVisit correction = goodVisit();
  correction.corrects = id_;
  correction.correctionReason = "typed 75.2 for 72.5";
  const CalibrationId next = enterVisit(*store_, correction, kNow).id;
  EXPECT_EQ(store_->state(id_), LifeState::performed);
  sign(LifeAct::performed, "mtolland", "", next);
  EXPECT_EQ(store_->state(id_), LifeState::superseded);
  EXPECT_EQ(store_->state(next), LifeState::performed);
  expectWhole();
}

TEST_F(Signing, WithdrawnAndSentBackOnesProveNothing) {
  const auto state = [&] {
    for (const DueItem& item : dueList(*store_, kNow.date())) {
      if (item.channel == "TT-110" && item.subject == Subject::channel) {
        return item.due.state;
      }
    }
    return DueState::ok;
  };
  const DueState proven = state();
  EXPECT_NE(proven, DueState::unproven);
  sign(LifeAct::performed, "mtolland");
  sign(LifeAct::sentBack, "rita", "which calibrator?");
  EXPECT_EQ(state(), DueState::unproven);
  sign(LifeAct::performed, "mtolland", "LC-2201, as entered");
  EXPECT_EQ(state(), proven);
  sign(LifeAct::withdrawn, "rita", "wrong channel");
  EXPECT_EQ(state(), DueState::unproven);
  EXPECT_GT(enterVisit(*store_, goodVisit(), kNow).id, id_) << "the visit can be entered again";
}

TEST_F(Signing, AStandardOutOfServiceIsRefusedAtVisits) {
  const auto decide = [&](StandardAct act, const std::string& person, const char* from,
                          const char* until = nullptr) {
    StandardEvent event;
    event.standard = "LC-2201";
    event.act = act;
    event.firstDay = *parseDate(from);
    event.lastDay = until != nullptr ? *parseDate(until) : Date();
    event.reason = "dropped";
    return decideOnStandard(*store_, event, signer(person, "passphrase of " + person));
  };
  const auto later = [&](int hours) {
    ProposedVisit visit = goodVisit();
    visit.performed += boost::posix_time::hours(hours);
    return visit;
  };
  decide(StandardAct::outOfService, "mtolland", "2026-02-20");
  EXPECT_THAT(refused([&] { enterVisit(*store_, later(1), kNow); }),
              HasSubstr("standard LC-2201 is out of service from 2026-02-20: dropped"));
  EXPECT_THAT(refused([&] { decide(StandardAct::outOfService, "mtolland", "2026-02-21"); }),
              HasSubstr("already"));
  EXPECT_THAT(refused([&] { decide(StandardAct::backInService, "mtolland", "2026-02-20"); }),
              HasSubstr("not a reviewer"));
  decide(StandardAct::backInService, "rita", "2026-02-20");
  EXPECT_NO_THROW(enterVisit(*store_, later(2), kNow));
  expectWhole();
  const Store again = Store::open(store_->file(), Store::Mode::readOnly, clock_);
  ASSERT_EQ(again.site().standard("LC-2201")->events.size(), 2U);
  EXPECT_EQ(again.site().standard("LC-2201")->events[0].reason, "dropped");
}

TEST_F(Signing, AnExpiredStandardMayBeUsedWhenAReviewerAllowedIt) {
  const Date end = store_->site().standard("LC-2201")->certificates.back().validUntil;
  clock_.now = Moment(end + boost::gregorian::days(10), boost::posix_time::hours(12));
  ProposedVisit visit = goodVisit();
  visit.performed = Moment(end + boost::gregorian::days(5), boost::posix_time::hours(9));
  EXPECT_THAT(refused([&] { enterVisit(*store_, visit, clock_.now); }),
              HasSubstr("or ask a reviewer to allow its use"));
  StandardEvent allowed;
  allowed.standard = "LC-2201";
  allowed.act = StandardAct::useAllowed;
  allowed.firstDay = end;
  allowed.lastDay = end + boost::gregorian::days(7);
  allowed.reason = "laboratory late, compared with LC-2202 before use";
  decideOnStandard(*store_, allowed, signer("rita", "passphrase of rita"));
  const Calibration stored = enterVisit(*store_, visit, clock_.now);
  EXPECT_EQ(stored.standards[0].certificate, store_->site().standard("LC-2201")->certificates.back().number);
  EXPECT_TRUE(stored.asFound[0].expandedUncertainty);
  visit.performed += boost::gregorian::days(3);
  EXPECT_THAT(refused([&] { enterVisit(*store_, visit, clock_.now); }), HasSubstr("no certificate valid on"));
  expectWhole();
}

TEST_F(Signing, RoundsSayWhatIsDone) {
  clock_.now += boost::posix_time::hours(1);
  Round round;
  round.name = "after the drop";
  round.stops = {{"TT-110", Subject::channel}};
  store_->addRound(round);
  EXPECT_EQ(roundProgress(*store_, store_->rounds()[0])[0].calibration, 0)
      << "visited before the round was made";
  clock_.now += boost::posix_time::hours(1);
  ProposedVisit visit = goodVisit();
  visit.performed = clock_.now;
  const CalibrationId id = enterVisit(*store_, visit, clock_.now).id;
  EXPECT_EQ(roundProgress(*store_, store_->rounds()[0])[0].calibration, id);
}

}  // namespace
}  // namespace spanwright::test
