// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

std::vector<std::string> problemsIn(std::string_view text) {
  const TempFile file(text, "map.toml");
  return problemsOf([&] { readCsvMapping(file.path()); });
}

TEST(CsvMapping, DeclaresTheDecimalSign) {
  const TempFile point(kLongMapping);
  EXPECT_EQ(decimalSign(*readCsvMapping(point.path())), DecimalSign::point);
  const TempFile comma("decimal = \"comma\"\n" + std::string(kLongMapping));
  EXPECT_EQ(decimalSign(*readCsvMapping(comma.path())), DecimalSign::comma);
}

struct Mistake {
  const char* before;  // put above kLongMapping, which then begins in line 2
  const char* says;
};
class MappingMistakes : public testing::TestWithParam<Mistake> {};

TEST_P(MappingMistakes, IsNamedWhereItStands) {
  const auto problems = problemsIn(GetParam().before + std::string(kLongMapping));
  ASSERT_EQ(problems.size(), 1U) << joined(problems);
  EXPECT_THAT(problems[0], HasSubstr(GetParam().says));
}

INSTANTIATE_TEST_SUITE_P(
    Table, MappingMistakes,
    testing::Values(
        Mistake{"separator = \";;\"", "1:13 separator of the mapping is \";;\""},
        Mistake{"encoding = \"ebcdic\"",
                "1:12 encoding of the mapping is the text \"ebcdic\"; one of the "
                "words detect, utf-8, utf-16le, utf-16be, latin-1 is expected"},
        Mistake{"decimal = 3", "1:11 decimal of the mapping is the number 3"},
        Mistake{"date_form = \"%d.%m.%y\"", "1:13 date_form of the mapping cannot be read by (%y is none of"},
        Mistake{"[value]\n", "\"value\" is not a key of the mapping"}, Mistake{"skip_lines = -1", "1:14"},
        Mistake{"values = { phase = { as_found = [\"x\"], as_left = [\"X\"] } }", "has two meanings"},
        Mistake{"values = { phase = { found = [\"x\"] } }", "\"found\" is not a key of [values.phase]"},
        Mistake{"aliases = { \"old\" = 3 }", "1:21 old of [aliases] is the number 3"},
        Mistake{"readings = [ { phase = \"as_found\", point = \"0\", reading = \"R\" } ]",
                "readings of the mapping is for the wide layout"}));

TEST(CsvMapping, SaysWhatIsMissing) {
  EXPECT_THAT(problemsIn("subject = \"channel\"\n"), ElementsAre(HasSubstr("the mapping has no columns")));
  EXPECT_THAT(
      problemsIn("[columns]\nreading = \"R\"\n"),
      ElementsAre(HasSubstr("no column for the channel"), HasSubstr("no column for the date"),
                  HasSubstr("no subject"), HasSubstr("no phase"), HasSubstr("no column for the point")));
  EXPECT_THAT(problemsIn("layout = \"wide\"\nsubject = \"loop\"\n[columns]\nchannel = \"T\"\nperformed = "
                         "\"D\"\nphase = \"P\"\n"),
              ElementsAre(HasSubstr("no reading"), HasSubstr("6:9 phase is a column of the wide layout")));
  EXPECT_THAT(problemsIn(std::string(kLongMapping) + "[[readings]]\nphase = \"as_found\"\nreading = \"R\"\n"),
              ElementsAre(HasSubstr("point of [[readings]] 1 is missing, and so is applied")));
}

TEST(CsvMapping, NamesMustBeInTheRegister) {
  const std::string mapping =
      "person = \"nobody\"\nstandards = [\"LC-1\", \"LC-9\"]\n" + std::string(kLongMapping) +
      "[aliases]\n\"TT 101\" = \"TT-100\"\n\"FT-102\" = \"TT-101\"\n[values.person]\nxy = [\"X\"]\n";
  const auto problems = problemsOf([&] { readHistory(mapping, kLongHead); });
  EXPECT_THAT(problems, ElementsAre(HasSubstr("1:10 the person \"nobody\""),
                                    HasSubstr("2:22 the standard \"LC-9\""), HasSubstr("the person \"xy\""),
                                    HasSubstr("the alias \"FT-102\" is itself a channel"),
                                    HasSubstr("the channel \"TT-100\"")));
}

}  // namespace
}  // namespace spanwright::test
