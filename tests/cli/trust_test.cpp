// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing, verifying, copying and the journal, as scripts meet them.
#include "core/store/sqlite_connection.h"
#include "tests/cli/record_call.h"

namespace spanwright::cli_test {
namespace {

class Trust : public Commands {
 protected:
  void SetUp() override {
    Commands::SetUp();
    make();
    const Json recorded = document({"record", record_, sample("visit.toml")});
    calibration_ = std::to_string(recorded.at("calibration").get<int>());
    adale_ = write("adale.txt", "brew house at dawn\r\nsecond line is not read\n");
    bquill_ = write("bquill.txt", "a second pair of eyes\n");
  }
  Answer sign(const std::string& person, const std::string& meaning, const std::string& file) {
    return call(
        {"sign", record_, calibration_, "--person", person, "--meaning", meaning, "--passphrase-file", file});
  }
  std::string calibration_, adale_, bquill_;
};

TEST_F(Trust, ACalibrationIsSignedReviewedApprovedAndShown) {
  const Json performed = document({"sign", record_, calibration_, "--person", "adale", "--meaning",
                                   "performed", "--passphrase-file", adale_});
  expectKeys(performed,
             {"calibration", "meaning", "person", "at", "state", "key", "digest", "journal_entry"});
  EXPECT_EQ(performed.at("state"), "performed");
  EXPECT_EQ(sign("bquill", "reviewed", bquill_).status, kDone);
  EXPECT_EQ(sign("bquill", "approved", bquill_).status, kDone);
  const Json shown = document({"show", record_, "FT-8", "--calibration", calibration_});
  EXPECT_EQ(shown.at("state"), "approved");
  EXPECT_EQ(shown.at("signatures").size(), 3U);
  EXPECT_EQ(document({"show", record_, "FT-8"}).at("calibrations").back().at("state"), "approved");
}

TEST_F(Trust, RefusalsSayWhyAndExitWithThree) {
  const Answer own = sign("adale", "reviewed", adale_);
  EXPECT_EQ(own.status, kRefused);
  EXPECT_NE(own.err.find("a review follows the technician"), std::string::npos) << own.err;
  ASSERT_EQ(sign("adale", "performed", adale_).status, kDone);
  const Answer wrong = sign("bquill", "reviewed", write("short.txt", "short\n"));
  EXPECT_NE(wrong.err.find("fewer than 8 characters"), std::string::npos) << wrong.err;
  const Answer missing = sign("bquill", "reviewed", (folder_ / "missing.txt").string());
  EXPECT_EQ(missing.status, kRefused);
  EXPECT_NE(missing.err.find("no passphrase can be read from"), std::string::npos) << missing.err;
  const Answer meaning = sign("bquill", "liked", bquill_);
  EXPECT_EQ(meaning.status, kUsage);
  const Answer reviewOwn = sign("adale", "reviewed", adale_);
  EXPECT_NE(reviewOwn.err.find("cannot mark their own work"), std::string::npos) << reviewOwn.err;
}

TEST_F(Trust, SendBackWithdrawAndCorrect) {
  ASSERT_EQ(sign("adale", "performed", adale_).status, kDone);
  EXPECT_EQ(
      call({"send-back", record_, calibration_, "--person", "bquill", "--passphrase-file", bquill_}).status,
      kUsage)
      << "a reason is asked for";
  const Json back = document({"send-back", record_, calibration_, "--person", "bquill", "--reason",
                              "which calibrator?", "--passphrase-file", bquill_});
  EXPECT_EQ(back.at("state"), "sent back");
  const Json corrected = document({"record", record_, sample("visit.toml"), "--corrects", calibration_,
                                   "--reason", "conditions were of the day before"});
  EXPECT_EQ(document({"show", record_, "FT-8", "--calibration", calibration_}).at("state"), "superseded");
  const std::string next = std::to_string(corrected.at("calibration").get<int>());
  const Json withdrawn = document({"withdraw", record_, next, "--person", "bquill", "--reason", "wrong loop",
                                   "--passphrase-file", bquill_});
  EXPECT_EQ(withdrawn.at("state"), "withdrawn");
  EXPECT_EQ(call({"record", record_, sample("visit.toml"), "--corrects", calibration_}).status, kUsage);
}

TEST_F(Trust, VerifyAnswersTheContractAndFindsAChange) {
  sign("adale", "performed", adale_);
  const Json whole = document({"verify", record_});
  expectKeys(whole, {"entries", "head", "problems"});
  EXPECT_TRUE(whole.at("problems").empty());
  EXPECT_EQ(whole.at("signatures"), 1);
  const std::string head = document({"journal", record_, "--head"}).at("head");
  EXPECT_EQ(whole.at("head"), head);
  EXPECT_EQ(call({"verify", record_, "--head", head}).status, kDone);
  EXPECT_EQ(call({"verify", record_, "--head", "nonsense"}).status, kRefused);
  std::string other = head;
  other.back() = other.back() == '0' ? '1' : '0';
  EXPECT_EQ(call({"verify", record_, "--head", other}).status, kFound);
  {
    Connection raw(record_, Connection::Access::readWrite);
    raw.execute("DROP TRIGGER reading_not_changed");
    raw.execute("UPDATE reading SET indicated = 4.0 WHERE phase = 'as found' AND sequence = 1");
  }
  const Answer changed = call({"verify", record_, "--json"});
  EXPECT_EQ(changed.status, kFound);
  const Json problems = Json::parse(changed.out).at("problems");
  ASSERT_EQ(problems.size(), 3U) << problems.dump(1);
  for (const Json& problem : problems) {
    expectKeys(problem, {"entry", "what"});
  }
  EXPECT_NE(call({"verify", record_}).out.find("the row \"reading as found 1\" was changed"),
            std::string::npos);
}

TEST_F(Trust, BackupAndRestore) {
  const std::string copy = (folder_ / "copy.spanwright").string(),
                    again = (folder_ / "again.spanwright").string();
  const Json backup = document({"backup", record_, copy});
  expectKeys(backup, {"file", "bytes", "sha256", "calibrations", "readings", "head", "verified"});
  EXPECT_EQ(backup.at("verified"), true);
  EXPECT_EQ(document({"restore", copy, again}).at("head"), backup.at("head"));
  EXPECT_EQ(document({"verify", again}).at("head"), document({"verify", record_}).at("head"));
  const Answer twice = call({"backup", record_, copy});
  EXPECT_EQ(twice.status, kStorage);
  EXPECT_NE(twice.err.find("is already there"), std::string::npos) << twice.err;
}

TEST_F(Trust, TheJournalIsListedAndFiltered) {
  sign("adale", "performed", adale_);
  sign("adale", "performed", adale_);
  const Json by = document({"journal", record_, "--person", "adale"});
  ASSERT_GE(by.size(), 3U);
  for (const Json& entry : by) {
    EXPECT_EQ(entry.at("person"), "adale");
    expectKeys(entry, {"entry", "at", "act", "unit", "key", "detail", "digest", "hash"});
  }
  EXPECT_EQ(document({"journal", record_, "--act", "signed"}).size(), 1U);
  EXPECT_EQ(document({"journal", record_, "--last", "2"}).size(), 2U);
  EXPECT_NE(call({"journal", record_, "--last", "1"}).out.find("calibration " + calibration_ + " performed"),
            std::string::npos);
}

TEST_F(Trust, PeoplePassphrasesAndLeaving) {
  const std::string next = write("next.txt", "brew house at dusk\n");
  EXPECT_EQ(call({"passphrase", record_, "--person", "adale", "--new-passphrase-file", adale_}).status,
            kDone);
  EXPECT_EQ(call({"passphrase", record_, "--person", "adale", "--passphrase-file", bquill_,
                  "--new-passphrase-file", next})
                .status,
            kRefused);
  EXPECT_EQ(call({"passphrase", record_, "--person", "adale", "--passphrase-file", adale_,
                  "--new-passphrase-file", next})
                .status,
            kDone);
  EXPECT_EQ(sign("adale", "performed", next).status, kDone);
  EXPECT_EQ(call({"passphrase", record_, "--person", "bquill", "--reset-by", "adale", "--passphrase-file",
                  next, "--new-passphrase-file", bquill_})
                .status,
            kDone);
  const Answer must = sign("bquill", "reviewed", bquill_);
  EXPECT_NE(must.err.find("somebody else chose"), std::string::npos) << must.err;
  const Json people = document({"people", record_, "--leaves", "bquill", "--on", "2026-11-01", "--by",
                                "adale", "--passphrase-file", next});
  EXPECT_EQ(people.at(1).at("left_on"), "2026-11-01");
  EXPECT_EQ(people.at(1).at("must_change"), true);
  EXPECT_EQ(people.at(0).at("wrong_tries"), 0);
  EXPECT_TRUE(document({"verify", record_}).at("problems").empty());
}

TEST_F(Trust, AStandardsService) {
  const Json out = document({"service", record_, "CAL-1", "--out", "--reason", "dropped", "--person", "adale",
                             "--passphrase-file", adale_});
  EXPECT_EQ(out.at("act"), "out of service");
  EXPECT_EQ(out.at("from"), "2026-11-25");
  const Answer both =
      call({"service", record_, "CAL-1", "--out", "--back", "--reason", "x", "--person", "adale"});
  EXPECT_EQ(both.status, kUsage);
  const Answer allow = call({"service", record_, "CAL-1", "--allow", "--reason", "late", "--person", "bquill",
                             "--passphrase-file", bquill_});
  EXPECT_EQ(allow.status, kRefused);
  EXPECT_NE(allow.err.find("give the first and the last day"), std::string::npos) << allow.err;
}

}  // namespace
}  // namespace spanwright::cli_test
