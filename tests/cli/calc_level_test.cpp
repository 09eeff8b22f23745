// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/calc_call.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::expectRefusal;
using test::readReferenceCsv;

TEST(CalcLevel, GivesTheWorkedExamples) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/signals/discrete_input_examples.csv")) {
    const auto document = calcDocument(
        {"level", "--supply", "24", "--type", row.at("input_type"), "--volts", row.at("input_V")});
    EXPECT_EQ(document.at("state"), row.at("state")) << row.at("input_V");
    ++checked;
  }
  EXPECT_EQ(checked, 18);
}

TEST(CalcLevel, FollowsItsOwnLevels) {
  const auto state = [](const char* volts, std::vector<std::string> more) {
    std::vector<std::string> words{"level", "--on", "14", "--off", "6", "--volts", volts};
    words.insert(words.end(), more.begin(), more.end());
    return calcDocument(words).at("state").get<std::string>();
  };
  EXPECT_EQ(state("14", {}), "on");
  EXPECT_EQ(state("6", {}), "off");
  EXPECT_EQ(state("-3", {}), "off");
  EXPECT_EQ(state("10", {}), "indeterminate");
  EXPECT_EQ(state("10", {"--was", "on"}), "on");
  EXPECT_EQ(state("10", {"--was", "off"}), "off");
  EXPECT_EQ(state("13.99", {"--was", "off"}), "off");
}

TEST(CalcLevel, SaysAWordToPeople) {
  EXPECT_EQ(calc({"level", "--supply", "24", "--type", "3", "--volts", "24"}).out, "on\n");
}

TEST(CalcLevel, RefusesInOneSentence) {
  expectRefusal({"level", "--supply", "48", "--type", "1", "--volts", "9"}, kRefused, "48");
  expectRefusal({"level", "--supply", "24", "--type", "4", "--volts", "9"}, kRefused, "--type");
  expectRefusal({"level", "--supply", "24", "--type", "1.5", "--volts", "9"}, kRefused, "--type");
  expectRefusal({"level", "--supply", "24", "--type", "1", "--volts", "nan"}, kRefused, "--volts");
  expectRefusal({"level", "--on", "6", "--off", "14", "--volts", "9"}, kRefused, "on level");
  expectRefusal({"level", "--on", "6", "--off", "6", "--volts", "9"}, kRefused, "on level");
  expectRefusal({"level", "--on", "14", "--off", "6", "--volts", "9", "--was", "maybe"}, kRefused, "maybe");
  expectRefusal({"level", "--volts", "9"}, kUsage, "--type");
  expectRefusal({"level", "--on", "14", "--volts", "9"}, kUsage, "--off");
  expectRefusal({"level", "--on", "14", "--off", "6", "--supply", "24", "--type", "1", "--volts", "9"},
                kUsage, "");
  expectRefusal({"level", "--supply", "24", "--type", "1"}, kUsage, "--volts");
}

}  // namespace
}  // namespace spanwright
