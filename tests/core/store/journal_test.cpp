// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/journal.h"

#include "core/store/verify.h"
#include "full_record.h"

namespace spanwright {
namespace {

class JournalOfAStore : public testing::Test {
 protected:
  std::vector<JournalEntry> entries(const Store& store, std::int64_t first = 1) {
    std::vector<JournalEntry> found;
    store.forEachEntry(first, [&](const JournalEntry& entry) {
      found.push_back(entry);
      return true;
    });
    return found;
  }
  const test::Folder folder;
  test::FixedClock clock{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  const std::filesystem::path file = folder / "site.record";
};

TEST_F(JournalOfAStore, EveryWritingCallLeavesAnEntryWithItsPerson) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  const auto newest = [&] { return entries(store, store.journalHead().entry).front(); };
  store.add(test::plainCalibration("AI-001", "2026-01-01T08:00:00"));
  EXPECT_EQ(newest().act, acts::kRecorded);
  EXPECT_EQ(newest().person, "zora");
  store.actAs("adam");
  store.issueCertificate(1);
  EXPECT_EQ(newest().act, acts::kIssued);
  EXPECT_EQ(newest().person, "adam");
  SetupVersion setup = store.site().channel("AI-001")->setups.back();
  setup.inForceFrom = test::at("2026-02-01T08:00:00");
  store.addSetup("AI-001", setup);
  EXPECT_EQ(newest().unit, "setup");
  store.setPersonLeft("zora", test::on("2026-05-01"));
  EXPECT_EQ(newest().act, acts::kChanged);
  EXPECT_EQ(newest().detail, R"({"left_on":[null,"2026-05-01"]})");
  store.noteWrongPassphrase("zora");
  EXPECT_EQ(newest().act, acts::kPassphraseWrong);
  EXPECT_FALSE(newest().digest);
  const std::int64_t before = store.journalHead().entry;
  Draft draft;
  draft.channel = "AI-001";
  store.saveDraft(draft);
  EXPECT_EQ(store.journalHead().entry, before) << "drafts may change and go";
}

TEST_F(JournalOfAStore, AClockThatWentBackIsNoted) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  clock.utc = test::at("2026-11-20T07:59:00");
  store.add(test::plainCalibration("AI-001", "2026-01-01T08:00:00"));
  const auto all = entries(store);
  ASSERT_EQ(all[all.size() - 2].act, acts::kClockBack);
  EXPECT_EQ(all[all.size() - 2].detail, "from 2026-11-20T09:00:00Z to 2026-11-20T07:59:00Z");
  EXPECT_EQ(all.back().act, acts::kRecorded);
  const RecordCheck check = verifyRecord(file);
  EXPECT_TRUE(check.problems.empty());
  ASSERT_EQ(check.notes.size(), 1U);
  store.add(test::plainCalibration("AI-001", "2026-01-02T08:00:00"));
  EXPECT_EQ(verifyRecord(file).notes.size(), 1U) << "once for each time it went back";
}

TEST_F(JournalOfAStore, AFailedChangeLeavesNoEntry) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  const JournalHead before = store.journalHead();
  {
    Store::Transaction transaction(store);
    store.add(test::plainCalibration("AI-001", "2026-01-01T08:00:00"));
    EXPECT_NE(store.journalHead(), before);
  }
  EXPECT_EQ(store.journalHead(), before);
  test::inputRefusal([&] { store.add(test::plainCalibration("NO-001", "2026-01-01T08:00:00")); });
  EXPECT_EQ(store.journalHead(), before);
}

TEST(JournalHeads, AreWrittenAndReadBack) {
  const JournalHead head{57, sha256("x")};
  EXPECT_EQ(parseHead(headText(head)), head);
  for (const std::string& bad : {std::string("57"), "x" + headText(head), headText(head) + "0",
                                 ":" + hex(head.hash), "0:" + hex(head.hash), "-1:" + hex(head.hash)}) {
    EXPECT_FALSE(parseHead(bad)) << bad;
  }
}

TEST(JournalDetails, NameWhatChanged) {
  EXPECT_EQ(changeDetail(R"({"t":[{"a":1,"b":"x"}]})", R"({"t":[{"a":1,"b":"y"}]})"), R"({"b":["x","y"]})");
  EXPECT_EQ(changeDetail(R"({"t":[{"a":1}]})", R"({"t":[{"a":1},{"a":2}]})"), R"({"t 2 a":[null,2]})");
  EXPECT_EQ(changeDetail(R"({"t":[{"a":1}]})", R"({"t":[{"a":1}]})"), "{}");
}

}  // namespace
}  // namespace spanwright
