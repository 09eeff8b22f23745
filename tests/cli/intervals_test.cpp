// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <iterator>

#include "record_call.h"

namespace spanwright::cli_test {
namespace {

using testing::HasSubstr;

class IntervalCommands : public Commands {
 protected:
  /// The tutorial site with its yearly interval under a staircase.
  void fillWithSteps() {
    std::ifstream file(sample("tiny.toml"));
    std::string site{std::istreambuf_iterator<char>(file), {}};
    const std::string fixed = "policy = \"fixed\"\nmonths = 12";
    const auto at = site.find(fixed);
    ASSERT_NE(at, std::string::npos);
    site.replace(at, fixed.size(),
                 "policy = \"staircase\"\nmonths = 12\nminimum_days = 90\nmaximum_days = 800\nlengthen = "
                 "1.25\nshorten = 0.5");
    ASSERT_EQ(call({"new", record_, "--site", write("steps.toml", site)}).status, kDone);
    const Answer answer =
        call({"import", record_, sample("history.csv"), "--map", sample("history.map.toml")});
    ASSERT_EQ(answer.status, kDone) << answer.err;
  }
  Json itemOf(const std::string& channel) {
    const Json list = document({"intervals", record_, "--channel", channel});
    EXPECT_EQ(list.size(), 1U);
    return list.at(0);
  }
};

TEST_F(IntervalCommands, ListEveryRoutineWithItsEvidence) {
  fillWithSteps();
  const Json list = document({"intervals", record_, "--on", "2026-11-25"});
  ASSERT_EQ(list.size(), 8U);
  for (const Json& item : list) {
    expectKeys(item, {"channel", "subject", "place", "policy", "kind", "now_days", "proposed_days",
                      "evidence", "visits", "accepted_from", "group"});
    EXPECT_FALSE(item.at("evidence").get<std::string>().empty());
    if (!item.at("proposed_days").is_null()) {
      EXPECT_GE(item.at("proposed_days"), 90);
      EXPECT_LE(item.at("proposed_days"), 800);
    }
  }
  const Answer table = call({"intervals", record_});
  EXPECT_EQ(table.status, kDone);
  EXPECT_THAT(table.out, HasSubstr("Nothing changes until a person accepts it."));
  EXPECT_THAT(table.out, HasSubstr("Visits that tell nothing about an interval:"));
}

TEST_F(IntervalCommands, AcceptWhatIsProposedAndSeeItInDueShowAndJournal) {
  fillWithSteps();
  const Json before = itemOf("PT-2");
  ASSERT_NE(before.at("proposed_days"), before.at("now_days"));
  const Json made = document({"intervals", record_, "--accept", "PT-2", "--person", "adale"});
  EXPECT_EQ(made.at("days"), before.at("proposed_days"));
  EXPECT_EQ(made.at("from"), "2026-11-25");
  EXPECT_EQ(made.at("reason"), "as proposed");
  EXPECT_EQ(made.at("evidence"), before.at("evidence"));
  const Json after = itemOf("PT-2");
  EXPECT_EQ(after.at("now_days"), before.at("proposed_days"));
  EXPECT_EQ(after.at("accepted_from"), "2026-11-25");
  for (const Json& due : document({"due", record_})) {
    if (due.at("channel") == "PT-2") {
      EXPECT_EQ(due.at("interval_days"), before.at("proposed_days"));
      EXPECT_THAT(due.at("reason").get<std::string>(), HasSubstr("that adale accepted from 2026-11-25 on"));
    }
  }
  const Json shown = document({"show", record_, "PT-2"});
  ASSERT_EQ(shown.at("accepted_intervals").size(), 1U);
  EXPECT_EQ(shown.at("accepted_intervals").at(0).at("person"), "adale");
  EXPECT_THAT(call({"show", record_, "PT-2"}).out, HasSubstr("accepted interval"));
  EXPECT_THAT(call({"journal", record_, "--last", "1"}).out, HasSubstr("accepted interval 1"));
  EXPECT_EQ(call({"verify", record_}).status, kDone);
}

TEST_F(IntervalCommands, AnotherLengthNeedsAReasonAndOneWhoMay) {
  fillWithSteps();
  const auto refused = [&](std::vector<std::string> words, int status, const char* part) {
    words.insert(words.begin(), {"intervals", record_});
    const Answer answer = call(words);
    EXPECT_EQ(answer.status, status) << answer.out;
    EXPECT_THAT(answer.err, HasSubstr(part));
    EXPECT_EQ(answer.out, "");
  };
  refused({"--accept", "PT-2", "--days", "200", "--person", "adale"}, kRefused, "give the reason");
  refused({"--accept", "PT-2", "--days", "20", "--person", "adale", "--reason", "x"}, kRefused,
          "90 to 800 days");
  refused({"--accept", "PT-2", "--days", "200", "--person", "bquill", "--reason", "x"}, kRefused,
          "bquill is neither planner nor administrator");
  refused({"--accept", "XX-1", "--person", "adale"}, kRefused, "no channel \"XX-1\"");
  refused({"--channel", "XX-1"}, kRefused, "no channel \"XX-1\"");
  refused({"--accept", "PT-2", "--days", "200"}, kUsage, "--person");
  refused({"--accept", "PT-2", "--days", "200", "--months", "3", "--person", "adale"}, kUsage, "excludes");
  refused({"--days", "200"}, kUsage, "--accept");
  refused({"--accept", "PT-2", "--days", "-3", "--person", "adale"}, kUsage, "--days");
  refused({"--seed", "3"}, kUsage, "--compare");
  refused({"--on", "2026-13-01"}, kUsage, "2026-13-01");
  EXPECT_EQ(document({"show", record_, "PT-2"}).at("accepted_intervals").size(), 0U);
  const Json months = document({"intervals", record_, "--accept", "PT-2", "--subject", "channel", "--months",
                                "18", "--person", "adale", "--reason", "agreed with production"});
  EXPECT_EQ(months.at("months"), 18);
  EXPECT_TRUE(months.at("days").is_null());
  // An interval is never put before the one accepted last.
  refused({"--accept", "PT-2", "--days", "200", "--person", "adale", "--reason", "x", "--on", "2026-11-24"},
          kRefused, "before the one accepted last");
}

TEST_F(IntervalCommands, CompareTellsEachPolicyAndWhatIsAssumed) {
  fillWithSteps();
  const std::vector<std::string> words{"intervals", record_, "--compare", "--runs", "5", "--seed", "9"};
  const Json comparison = document(words);
  EXPECT_EQ(comparison, document(words));
  ASSERT_EQ(comparison.at("policies").size(), 2U);
  EXPECT_TRUE(comparison.at("policies").at(0).at("policy").is_null());
  EXPECT_EQ(comparison.at("policies").at(1).at("kind"), "staircase");
  expectKeys(comparison.at("policies").at(0),
             {"in_tolerance", "in_tolerance_standard_error", "visits_per_year", "mean_interval_days"});
  EXPECT_GT(comparison.at("subjects"), 0);
  const Answer table = call({"intervals", record_, "--compare", "--runs", "5"});
  EXPECT_THAT(table.out, HasSubstr("as it is now"));
  EXPECT_THAT(table.out, HasSubstr("Assumed: constant rates"));
  EXPECT_THAT(table.out, HasSubstr("The record itself:"));
}

}  // namespace
}  // namespace spanwright::cli_test
