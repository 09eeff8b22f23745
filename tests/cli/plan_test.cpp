// SPDX-License-Identifier: GPL-3.0-or-later
//
// The plan, its calendar and its sheets as scripts meet them.
#include <gmock/gmock.h>
#include <libical/ical.h>

#include "tests/cli/record_call.h"

namespace spanwright {
namespace {

using namespace cli_test;
using testing::HasSubstr;

std::string content(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

int events(const std::string& file) {
  icalcomponent* calendar = icalparser_parse_string(content(file).c_str());
  if (calendar == nullptr) {
    return -1;
  }
  const int count = icalcomponent_count_errors(calendar) > 0
                        ? -1
                        : icalcomponent_count_components(calendar, ICAL_VEVENT_COMPONENT);
  icalcomponent_free(calendar);
  return count;
}

/// The document of a command that may find something to act on.
Json planned(const Answer& answer) {
  EXPECT_THAT(answer.status, testing::AnyOf(kDone, kFound)) << answer.err;
  return Json::parse(answer.out);
}

class PlanCommands : public Commands {
 protected:
  std::vector<std::string> plan(std::vector<std::string> more = {}) {
    std::vector<std::string> words{"plan", record_, "--from", "2026-11-26", "--weeks", "26"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  }
};

TEST_F(PlanCommands, EntriesHaveTheContractsKeysAndWhatDoesNotFitHasNoDate) {
  fill();
  const Json list = planned(call(plan({"--hours", "adale=8", "--json"})));
  ASSERT_FALSE(list.empty());
  std::size_t dated = 0;
  for (const Json& entry : list) {
    expectKeys(entry, {"week", "date", "place", "channels", "hours", "standards", "technician", "reason"});
    dated += entry.at("date").is_null() ? 0 : 1;
    EXPECT_EQ(entry.at("date").is_null(), entry.at("week").is_null());
    EXPECT_EQ(entry.at("date").is_null(), entry.at("reason").is_string()) << entry.dump();
    EXPECT_FALSE(entry.at("channels").empty());
    EXPECT_GT(entry.at("hours").get<double>(), 0.0);
  }
  EXPECT_GT(dated, 0U);
  const Answer none = call(plan({"--hours", "adale=0", "--json"}));
  EXPECT_EQ(none.status, kFound);
  for (const Json& entry : Json::parse(none.out)) {
    EXPECT_TRUE(entry.at("date").is_null());
    EXPECT_EQ(entry.at("reason"), "no technician has hours for calibrations");
  }
}

TEST_F(PlanCommands, NothingIsWrittenIntoTheRecord) {
  fill();
  const std::string before = content(record_);
  call(plan({"--hours", "adale=8", "--hours-factor", "0.5", "--ics", (folder_ / "plan.ics").string()}));
  EXPECT_EQ(content(record_), before);
}

TEST_F(PlanCommands, CalendarsAreRead) {
  fill();
  const std::string file = (folder_ / "plan.ics").string();
  std::size_t dated = 0;
  for (const Json& entry : planned(call(plan({"--hours", "adale=8", "--ics", file, "--json"})))) {
    dated += entry.at("date").is_null() ? 0 : 1;
  }
  EXPECT_EQ(events(file), static_cast<int>(dated));
  EXPECT_THAT(content(file), HasSubstr("DTSTAMP:20261125T080000Z\r\n"));
  const std::string due = (folder_ / "due.ics").string();
  const Json items = document({"due", record_, "--ics", due});
  EXPECT_EQ(events(due), static_cast<int>(items.size()));
  const Answer nowhere = call({"due", record_, "--ics", (folder_ / "no" / "folder.ics").string()});
  EXPECT_EQ(nowhere.status, kStorage);
  EXPECT_THAT(nowhere.err, HasSubstr("cannot be written"));
}

TEST_F(PlanCommands, WhatIsNotUnderstoodIsSaid) {
  fill();
  struct Row {
    std::vector<std::string> words;
    int status;
    const char* says;
  };
  const Row rows[] = {{{"--hours", "adale"}, kUsage, "write PERSON=H"},
                      {{"--hours", "adale=many"}, kUsage, "0 to 168"},
                      {{"--away", "X=2026-12-09..2026-12-01"}, kUsage, "the earlier first"},
                      {{"--away", "X=soon"}, kUsage, "does not name days"},
                      {{"--working-days", "noday"}, kUsage, "noday"},
                      {{"--hours", "bquill=3"}, kRefused, "no technician \"bquill\""},
                      {{"--away", "X=2026-12-01..2026-12-09"}, kRefused, "no standard \"X\""},
                      {{"--only", "Y=2026-12-01"}, kRefused, "no channel \"Y\""}};
  for (const Row& row : rows) {
    const Answer answer = call(plan(row.words));
    EXPECT_EQ(answer.status, row.status) << row.says;
    EXPECT_THAT(answer.err, HasSubstr(row.says));
    EXPECT_EQ(answer.out, "");
  }
  EXPECT_EQ(call({"plan", record_, "--from", "tomorrow"}).status, kUsage);
  EXPECT_EQ(call({"plan", record_, "--weeks", "0"}).status, kUsage);
}

#ifdef SPANWRIGHT_WITH_GUI
TEST_F(PlanCommands, ASheetForChannels) {
  fill();
  const std::string file = (folder_ / "sheet.pdf").string();
  const Json made = document({"sheet", record_, "--channel", "FT-8", "--out", file});
  EXPECT_EQ(content(file).substr(0, 5), "%PDF-");
  EXPECT_EQ(made.at("sheets").at(0).at("channels").at(0).at("channel"), "FT-8");
  EXPECT_GT(made.at("sheets").at(0).at("channels").at(0).at("points").get<int>(), 2);
  EXPECT_EQ(made.at("pages"), 1);
}

TEST_F(PlanCommands, ASheetIsRefusedWithoutAnythingToFillIn) {
  fill();
  const std::string file = (folder_ / "sheet.pdf").string();
  EXPECT_EQ(call({"sheet", record_, "--channel", "NO-1", "--out", file}).status, kRefused);
  EXPECT_EQ(call({"sheet", record_, "--round", "7", "--out", file}).status, kRefused);
  EXPECT_EQ(call({"sheet", record_, "--out", file}).status, kUsage);
  EXPECT_EQ(call({"sheet", record_, "--channel", "FT-8", "--round", "1", "--out", file}).status, kUsage);
  EXPECT_EQ(call({"sheet", record_, "--channel", "FT-8", "--days", "2", "--out", file}).status, kUsage);
  EXPECT_FALSE(fs::exists(file));
  const Answer nowhere =
      call({"sheet", record_, "--channel", "FT-8", "--out", (folder_ / "no" / "sheet.pdf").string()});
  EXPECT_EQ(nowhere.status, kStorage);
  EXPECT_THAT(nowhere.err, HasSubstr("The sheet could not be written"));
}
#endif

}  // namespace
}  // namespace spanwright
