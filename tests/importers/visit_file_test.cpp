// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/visit_file.h"

#include <gmock/gmock.h>

#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr std::string_view kVisit = R"(channel = "TT-101"
subject = "channel"
performed = 2026-11-20T09:30:00
person = "mt"
standards = ["LC-1"]
cautions_confirmed = true
adjustment = { adjusted = true, text = "zero trimmed" }
conditions = { temperature = 21.5, humidity = 45, reference_junction = 23.4 }
as_found = [
  { applied = "4.000 mA", reading = "0.1" },
  { reading = "37,60" },
  { skip = "valve could not be isolated" },
]
as_left = [ { point = "25", direction = "down", reading = "37.5" } ]
)";

ProposedVisit read(std::string_view text) {
  const TempFile file(text, "visit.toml");
  return readVisitFile(file.path());
}

TEST(VisitFile, BecomesAProposal) {
  const ProposedVisit visit = read(kVisit);
  EXPECT_EQ(visit.channel, "TT-101");
  EXPECT_EQ(formatMoment(visit.performed), "2026-11-20T09:30:00");
  EXPECT_TRUE(visit.cautionsConfirmed);
  EXPECT_TRUE(visit.adjustment.adjusted);
  EXPECT_EQ(visit.conditions.temperature, 21.5);
  EXPECT_EQ(visit.conditions.referenceJunction, 23.4);
  ASSERT_EQ(visit.asFound.size(), 3U);
  EXPECT_EQ(visit.asFound[0].typed.appliedText, "4.000 mA");
  EXPECT_EQ(visit.asFound[1].sequence, 2);
  EXPECT_EQ(visit.asFound[1].typed.indicatedText, "37,60");
  EXPECT_EQ(visit.asFound[1].where.line, 11);
  EXPECT_EQ(visit.asFound[2].typed.skipReason, "valve could not be isolated");
  ASSERT_EQ(visit.asLeft.size(), 1U);
  EXPECT_EQ(visit.asLeft[0].sequence, 0);
  EXPECT_EQ(visit.asLeft[0].key, "25");
  EXPECT_EQ(visit.asLeft[0].direction, Direction::down);
}

struct Mistake {
  const char* from;
  const char* to;
  const char* says;
};
class VisitMistakes : public testing::TestWithParam<Mistake> {};

TEST_P(VisitMistakes, IsNamedWhereItStands) {
  std::string text(kVisit);
  const std::string_view from = GetParam().from;
  ASSERT_NE(text.find(from), std::string::npos);
  text.replace(text.find(from), from.size(), GetParam().to);
  const auto problems = problemsOf([&] { read(text); });
  ASSERT_EQ(problems.size(), 1U) << joined(problems);
  EXPECT_THAT(problems[0], HasSubstr(GetParam().says));
}

INSTANTIATE_TEST_SUITE_P(
    Table, VisitMistakes,
    testing::Values(
        Mistake{"channel = \"TT-101\"\n", "", "the visit file has no channel"},
        Mistake{"\"channel\"\nperf", "\"chanel\"\nperf", "2:11 subject of the visit file"},
        Mistake{
            "reading = \"0.1\"", "reading = 0.1",
            "10:37 reading of as_found, entry 1 is the number 0.1; a text in quotes, which keeps the digits"},
        Mistake{"\"37,60\"", "\"37..6\"", "11:15 reading of as_found, entry 2 is \"37..6\""},
        Mistake{"\"4.000 mA\"", "\"4.000 mX\"", "10:15 applied of as_found, entry 1 is \"4.000 mX\""},
        Mistake{"{ skip = ", "{ reading = \"1\", skip = ", "stands beside skip"},
        Mistake{"{ skip = \"valve could not be isolated\" }", "{ applied = \"3\" }",
                "reading of as_found, entry 3 and skip are both missing"},
        Mistake{"adjustment = { adjusted = true, text = \"zero trimmed\" }\n", "",
                "adjustment of the visit file is missing although there are as-left readings"},
        Mistake{"valve could not be isolated", " ", "say why"},
        Mistake{"{ reading = \"37,60\" }", "{ reading = \"37,60\", direction = \"up\" }", "without point"},
        Mistake{"junction = 23.4", "junction = 234",
                "8:72 reference_junction of conditions of the visit file is the number 234"},
        Mistake{"junction = 23.4", "junction = -40.5", "a number from -40 to 85 is expected"},
        Mistake{"junction = 23.4", "junction = \"warm\"",
                "reference_junction of conditions of the visit file is the text \"warm\""},
        Mistake{"humidity = 45", "humidity = 145", "a number from 0 to 100 is expected"},
        Mistake{"person = ", "persons = ", "4:1 \"persons\" is not a key of the visit file"},
        Mistake{"2026-11-20T09:30:00", "\"20.11.2026\"", "3:13 performed of the visit file"}));

TEST(VisitFile, PointsAreNamedForAllEntriesOrNone) {
  std::string text(kVisit);
  text.replace(text.find("{ reading = \"37,60\""), 9, "{ point = \"25\", reading");
  EXPECT_THAT(problemsOf([&] { read(text); }), ElementsAre(HasSubstr("point of as_found, entry 1 is missing"),
                                                           HasSubstr("entry 3 is missing")));
}

TEST(VisitFile, TruncatedAnywhereItIsReadOrRefused) {
  for (std::size_t length = 0; length < kVisit.size(); ++length) {
    try {
      read(kVisit.substr(0, length));
    } catch (const InputError& error) {
      EXPECT_FALSE(error.problems().empty());
    }
  }
}

}  // namespace
}  // namespace spanwright::test
