// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/issue_round.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <functional>

#include "core/record/problem.h"
#include "core/tasks/signing.h"
#include "core/units/time.h"
#include "tests/core/certificate/example.h"

namespace spanwright {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

class SetClock : public Clock {
 public:
  Moment localNow() const override { return now; }
  Moment utcNow() const override { return now; }
  Moment now = *parseMoment("2026-11-21T10:00");
};

class Issuing : public testing::Test {
 protected:
  void SetUp() override {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    folder_ =
        std::filesystem::temp_directory_path() / ("issue-" + std::to_string(getpid()) + "-" + test->name());
    std::filesystem::create_directories(folder_);
    example::fiveUpDown(made_);
    Register& site = made_.site;
    site.places = {
        {"Pasteuriser hall", "Pasteuriser hall", "", 0},
        {"Pasteuriser hall / Cabinet P1", "Cabinet P1", "Pasteuriser hall", 0},
        {"Pasteuriser hall / Cabinet P1 / Station 1", "Station 1", "Pasteuriser hall / Cabinet P1", 0}};
    site.intervals = {{"yearly", PolicyKind::fixed, 0, 12, 0, 0}};
    site.channels[0].routines = {{Subject::channel, "AI-5UD", "yearly"}};
    // Versions count from 1, so the example's version 3 has two before it.
    SetupVersion first = site.channels[0].setups[0];
    first.version = 1;
    first.inForceFrom = *parseMoment("2018-03-01T08:00");
    SetupVersion second = first;
    second.version = 2;
    second.inForceFrom = *parseMoment("2020-03-01T08:00");
    site.channels[0].setups.insert(site.channels[0].setups.begin(), {first, second});
    made_.calibration.id = 0;
  }
  void TearDown() override {
    store_.reset();
    std::filesystem::remove_all(folder_);
  }
  Store& store() {
    if (!store_) {
      made_.site.index();
      EXPECT_THAT(registerFaults(made_.site), IsEmpty());
      store_.emplace(Store::create(folder_ / "site.spanwright", made_.site, clock_));
    }
    return *store_;
  }
  CalibrationId stored() { return store().add(made_.calibration); }
  static std::vector<Problem> problemsOf(const std::function<void()>& action) {
    try {
      action();
    } catch (const InputError& error) {
      return error.problems();
    }
    ADD_FAILURE() << "nothing was refused";
    return {};
  }

  SetClock clock_;
  example::Example made_;
  std::optional<Store> store_;
  std::filesystem::path folder_;
};

TEST_F(Issuing, NumberIsAllottedOnceAndTheCertificateStaysTheSame) {
  const CalibrationId id = stored();
  EXPECT_THAT(issueFaults(store(), id), IsEmpty());
  const Certificate first = issueCertificate(store(), id);
  EXPECT_EQ(first.number, "LARK-2026-0001");
  EXPECT_EQ(first.mark, "Unsigned");
  EXPECT_EQ(first.issueDate, "2026-11-21");
  clock_.now = *parseMoment("2027-02-03T10:00");
  const Certificate again = issueCertificate(store(), id);
  EXPECT_EQ(again.number, first.number);
  EXPECT_EQ(again.issueDate, first.issueDate);
  EXPECT_EQ(again.foundConclusion, first.foundConclusion);
  made_.calibration.performed = *parseMoment("2026-11-20T11:00");
  EXPECT_EQ(issueCertificate(store(), store().add(made_.calibration)).number, "LARK-2027-0001");
}

TEST_F(Issuing, SaysWhatWasStored) {
  const Certificate certificate = issueCertificate(store(), stored());
  ASSERT_EQ(certificate.tables.size(), 2U);
  EXPECT_EQ(certificate.tables[0].rows[3].reading, "112.93");
  EXPECT_EQ(certificate.tables[0].rows[3].verdict, "fail");
  EXPECT_EQ(certificate.tables[1].rows[3].verdict, "pass");
  EXPECT_THAT(certificate.setup, Contains(Field(&LabelledText::value, "3")));
  EXPECT_THAT(certificate.people, Contains(Field(&LabelledText::value, "Mara Tolland")));
  EXPECT_EQ(certificate.standards.at(0).certificate, "C-11873");
}

TEST_F(Issuing, PreviewStoresNothing) {
  const CalibrationId id = stored();
  const Certificate preview = previewCertificate(store(), id);
  EXPECT_EQ(preview.number, "");
  EXPECT_EQ(preview.mark, "Preview, not issued");
  EXPECT_EQ(preview.tables.size(), 2U);
  EXPECT_FALSE(store().issuedCertificate(id));
}

TEST_F(Issuing, PreviewAfterASignatureIsTheNextRevisionWithTheSignature) {
  const CalibrationId id = stored();
  issueCertificate(store(), id);
  EXPECT_FALSE(signedSince(store(), *store().issuedCertificate(id)));
  EXPECT_EQ(previewCertificate(store(), id).revision, 1);
  signCalibration(store(), id, LifeAct::performed, {"mtolland", "a kettle of fish", {1, 8 << 10}}, "");
  EXPECT_TRUE(signedSince(store(), *store().issuedCertificate(id)));
  const Certificate preview = previewCertificate(store(), id);
  EXPECT_EQ(preview.number, "LARK-2026-0001");
  EXPECT_EQ(preview.revision, 2);
  EXPECT_EQ(preview.issueDate, "");
  EXPECT_EQ(preview.mark, "Preview");
  EXPECT_THAT(preview.people, Contains(Field(&LabelledText::label, "Signed as performed")));
  EXPECT_EQ(store().issuedCertificate(id)->revision, 1) << "a preview stores nothing";
  const Certificate issued = issueCertificate(store(), id);
  EXPECT_EQ(issued.revision, 2);
  EXPECT_EQ(issued.people.size(), preview.people.size());
  EXPECT_FALSE(signedSince(store(), *store().issuedCertificate(id)));
}

// One stop done, one whose record is not complete, one not done.
TEST_F(Issuing, ARoundSaysWhatWillBeIssuedAndWhatNotAndWhy) {
  for (const char* tag : {"TT-102", "TT-103"}) {
    Channel& other = made_.site.channels.emplace_back(made_.site.channels[0]);
    other.tag = tag;
    other.fittings.clear();
  }
  store().addRound(
      {0,
       "Monday",
       "due work",
       "",
       {},
       {},
       {{"TT-101", Subject::channel}, {"TT-102", Subject::channel}, {"TT-103", Subject::channel}}});
  const Round round = store().rounds().front();
  const CalibrationId good = stored();
  made_.calibration.channel = "TT-102";
  made_.calibration.standards.clear();
  const CalibrationId bad = stored();
  auto all = certificatesOfRound(store(), round);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0].deed, CertificateDeed::first);
  EXPECT_EQ(all[0].calibration, good);
  EXPECT_EQ(all[1].deed, CertificateDeed::none);
  EXPECT_EQ(all[1].calibration, bad);
  EXPECT_THAT(all[1].faults, Contains(HasSubstr("7.8.4.1 c")));
  EXPECT_EQ(all[2].deed, CertificateDeed::none);
  EXPECT_EQ(all[2].calibration, 0) << "not done yet";
  issueCertificate(store(), good);
  EXPECT_EQ(certificatesOfRound(store(), round)[0].deed, CertificateDeed::again);
  signCalibration(store(), good, LifeAct::performed, {"mtolland", "a kettle of fish", {1, 8 << 10}}, "");
  all = certificatesOfRound(store(), round);
  EXPECT_EQ(all[0].deed, CertificateDeed::revision);
  EXPECT_EQ(all[0].number, "LARK-2026-0001");
  EXPECT_EQ(all[0].revision, 2);
  EXPECT_EQ(all[0].state, LifeState::performed);
}

TEST_F(Issuing, TogetherMeansAllOrNone) {
  const CalibrationId first = stored();
  made_.calibration.performed = *parseMoment("2026-11-20T11:00");
  const CalibrationId second = stored();
  made_.calibration.performed = *parseMoment("2026-11-20T12:00");
  made_.calibration.standards.clear();
  const CalibrationId faulty = stored();
  std::vector<std::string> taken;
  const auto take = [&taken](const Certificate& each) {
    taken.push_back(each.number);
    return true;
  };
  EXPECT_EQ(problemsOf([&] { issueTogether(store(), {first, faulty}, take); }).size(), 1U);
  EXPECT_FALSE(store().issuedCertificate(first)) << "the one before the refused one has no number either";
  EXPECT_EQ(issueTogether(store(), {first, second}, [](const Certificate&) { return false; }), std::nullopt);
  EXPECT_THROW(issueTogether(store(), {first, second},
                             [](const Certificate& each) -> bool {
                               if (each.number == "LARK-2026-0002") {
                                 throw StorageError("The disk is full.");
                               }
                               return true;
                             }),
               StorageError);
  EXPECT_FALSE(store().issuedCertificate(first));
  taken.clear();
  const auto issued = issueTogether(store(), {first, second}, take);
  ASSERT_TRUE(issued);
  EXPECT_THAT(taken, ElementsAre("LARK-2026-0001", "LARK-2026-0002")) << "no number was lost to what failed";
  EXPECT_EQ(issued->size(), 2U);
  EXPECT_TRUE(store().issuedCertificate(second));
}

TEST_F(Issuing, UnknownCalibrationIsRefused) {
  for (const auto& action : std::initializer_list<std::function<void()>>{
           [&] { issueCertificate(store(), 77); }, [&] { previewCertificate(store(), 77); },
           [&] { issueFaults(store(), 77); }}) {
    EXPECT_THAT(problemsOf(action),
                ElementsAre(Field(&Problem::what, "there is no calibration 77 in the record")));
  }
}

TEST_F(Issuing, WhatMustNotBeCertifiedGetsNoNumber) {
  made_.calibration.standards.clear();
  made_.calibration.asFound[3].expandedUncertainty.reset();
  const CalibrationId id = stored();
  EXPECT_THAT(problemsOf([&] { issueCertificate(store(), id); }),
              ElementsAre(Field(&Problem::what, AllOf(HasSubstr("75 % up"), HasSubstr("7.8.4.1 a"))),
                          Field(&Problem::what, HasSubstr("7.8.4.1 c"))));
  EXPECT_FALSE(store().issuedCertificate(id));
  EXPECT_THAT(issueFaults(store(), id), testing::SizeIs(2));
  EXPECT_EQ(previewCertificate(store(), id).tables.size(), 2U);  // it can still be looked at
}

TEST_F(Issuing, DueDateOnlyWhenAgreedAndThenAWorkingDay) {
  const auto due = Contains(Field(&LabelledText::label, "Due again"));
  {
    const Certificate certificate = issueCertificate(store(), stored());
    EXPECT_THAT(certificate.work, Not(due));
  }
  store_.reset();
  std::filesystem::remove_all(folder_);
  std::filesystem::create_directories(folder_);
  made_.site.site.dueDateAgreed = true;
  // A year after 2026-11-20 is Saturday 2027-11-20; the working day before is the 19th.
  const Certificate certificate = issueCertificate(store(), stored());
  EXPECT_THAT(certificate.work, Contains(AllOf(Field(&LabelledText::label, "Due again"),
                                               Field(&LabelledText::value, HasSubstr("2027-11-19")))));
}

// Accepted from a day before the visit, once before it was certified and once after.
TEST_F(Issuing, TheDueDateIsThatOfTheIntervalAcceptedBeforeTheIssue) {
  made_.site.site.dueDateAgreed = true;
  const CalibrationId id = stored();
  AcceptedInterval accepted;
  accepted.months = 6;
  accepted.fromDay = *parseDate("2026-11-01");
  accepted.policy = "yearly";
  accepted.person = made_.calibration.person;
  accepted.atUtc = clock_.now;
  accepted.reason = "tried";
  store().acceptInterval("TT-101", accepted);
  const auto dueOn = [](const char* day) {
    return Contains(
        AllOf(Field(&LabelledText::label, "Due again"), Field(&LabelledText::value, HasSubstr(day))));
  };
  EXPECT_THAT(issueCertificate(store(), id).work, dueOn("2027-05-20"));
  accepted.months = 3;
  store().acceptInterval("TT-101", accepted);
  EXPECT_THAT(certificateAsIssued(store(), *store().issuedCertificate(id)).work, dueOn("2027-05-20"));
}

TEST_F(Issuing, NoDueDateAfterAFailure) {
  made_.site.site.dueDateAgreed = true;
  for (Reading& reading : made_.calibration.asLeft) {
    reading.verdict = Verdict::fail;
  }
  made_.calibration.leftVerdict = Verdict::fail;
  const Certificate certificate = issueCertificate(store(), stored());
  EXPECT_THAT(certificate.work, Not(Contains(Field(&LabelledText::label, "Due again"))));
}

TEST_F(Issuing, LaterSetupDoesNotChangeTheCertificate) {
  const CalibrationId id = stored();
  const Certificate before = issueCertificate(store(), id);
  SetupVersion next = made_.site.channels[0].setups.back();
  next.version = 4;
  next.inForceFrom = *parseMoment("2026-12-01T08:00");
  next.setup.kind = ThresholdSetup{24.0, 11.0, 7.5, 0};
  store().addSetup("TT-101", next);
  store().refresh();
  const Certificate after = issueCertificate(store(), id);
  ASSERT_EQ(after.setup.size(), before.setup.size());
  for (std::size_t i = 0; i < after.setup.size(); ++i) {
    EXPECT_EQ(after.setup[i].value, before.setup[i].value);
  }
}

}  // namespace
}  // namespace spanwright
