// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/journal_view.h"

#include <gmock/gmock.h>

#include "core/record/problem.h"
#include "core/tasks/signing.h"
#include "tests/core/tasks/record_fixture.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

class ReadingTheJournal : public RecordTest {
 protected:
  JournalEntry last() { return journalEntries(store(), head(), head()).at(0); }
  std::int64_t head() { return store().journalHead().entry; }
};

TEST_F(ReadingTheJournal, EntriesComeByRange) {
  store();
  ASSERT_GT(head(), 10);
  const auto some = journalEntries(store(), 3, 5);
  ASSERT_EQ(some.size(), 3U);
  EXPECT_EQ(some.front().entry, 3);
  EXPECT_EQ(some.back().entry, 5);
  EXPECT_THAT(journalEntries(store(), 5, 4), IsEmpty());
  EXPECT_EQ(journalEntries(store(), head(), head() + 100).size(), 1U);
}

TEST_F(ReadingTheJournal, WordsFindWhatHoldsThemAll) {
  const CalibrationId id = add(visitTo("TT-110", "2026-02-20T09:30", {"0.1", "75.2", "150.0"}));
  const std::int64_t recorded = head();
  add(visitTo("TT-110", "2026-02-21T09:30", {"0.1", "75.2", "150.0"}));
  signCalibration(store(), id, LifeAct::performed, {"mtolland", "a kettle of fish", {1, 8192}}, "");
  const std::int64_t signedAt = head();
  EXPECT_THAT(findEntries(store(), "SIGNED mtolland"), ElementsAre(signedAt));
  EXPECT_THAT(findEntries(store(), "recorded tt-110"), ElementsAre(recorded + 1, recorded));
  const auto about = findEntries(store(), "TT-110");
  EXPECT_THAT(about, testing::IsSupersetOf({signedAt, recorded, recorded + 1}));
  EXPECT_THAT(findEntries(store(), "recorded TT-101"), IsEmpty()) << "no calibration of it";
  EXPECT_THAT(findEntries(store(), "no such thing"), IsEmpty());
  EXPECT_EQ(std::ssize(findEntries(store(), "")), head());
}

TEST_F(ReadingTheJournal, AnEntryLeadsToItsCalibration) {
  const CalibrationId id = add(visitTo("TT-110", "2026-02-20T09:30", {"0.1", "75.2", "150.0"}));
  EXPECT_EQ(calibrationOf(store(), last()), id);
  EXPECT_EQ(aboutText(store(), last()), "calibration 1, TT-110");
  store().issueCertificate(id);
  EXPECT_EQ(last().unit, "certificate");
  EXPECT_EQ(calibrationOf(store(), last()), id);
  Attachment paper;
  paper.calibration = id;
  paper.name = "paper.txt";
  paper.mediaType = "text/plain";
  store().addAttachment(paper, "as read");
  EXPECT_EQ(calibrationOf(store(), last()), id);
  paper.calibration = 0;
  paper.channel = "TT-110";
  store().addAttachment(paper, "as read");
  EXPECT_EQ(calibrationOf(store(), last()), std::nullopt);
}

TEST_F(ReadingTheJournal, WhatChangedStandsBeforeAndAfter) {
  store().setPersonLeft("mtolland", day(2026, 12, 31));
  ASSERT_EQ(last().act, acts::kChanged);
  const auto changes = changesOf(last());
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(changes[0].field, "left_on");
  EXPECT_EQ(changes[0].before, "");
  EXPECT_EQ(changes[0].after, "2026-12-31");
  bool found = false;
  for (const UnitField& each : fieldsOf(store(), last())) {
    found = found || (each.part == "person" && each.field == "login" && each.value == "mtolland");
  }
  EXPECT_TRUE(found);
  EXPECT_THAT(changesOf(journalEntries(store(), 1, 1).at(0)), IsEmpty());
  EXPECT_EQ(aboutText(store(), journalEntries(store(), 1, 1).at(0)), "the record");
}

}  // namespace
}  // namespace spanwright::test
