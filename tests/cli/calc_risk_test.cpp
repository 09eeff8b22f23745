// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/calc_call.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::expectRefusal;

// JCGM 106:2012 9.5.3.2: tolerance 0.2, acceptance 0.18, spread 0.12, u = 0.04, all in ohm.
TEST(CalcRisk, ReproducesTheResistors) {
  const auto document = calcDocument(
      {"risk", "--tolerance", "0.2", "--uncertainty", "0.08", "--spread", "0.12", "--accept-limit", "0.18"});
  EXPECT_NEAR(document.at("ratio").get<double>(), 2.5, 1e-12);
  EXPECT_NEAR(document.at("acceptance_limit").get<double>(), 0.18, 1e-12);
  EXPECT_NEAR(document.at("guard_band").get<double>(), 0.02, 1e-12);
  EXPECT_NEAR(document.at("global_false_accept").get<double>(), 0.00987829152177211, 1e-11);
  EXPECT_NEAR(document.at("global_false_reject").get<double>(), 0.0690265104614507, 1e-11);
  EXPECT_NEAR(document.at("in_tolerance_probability").get<double>(), 0.904419295454371, 1e-11);
  EXPECT_TRUE(document.at("conformance_probability").is_null());
  EXPECT_TRUE(document.at("specific_false_accept").is_null());
  EXPECT_TRUE(document.at("answer").is_null());
  // The same band as a quarter of U.
  const auto quarter = calcDocument(
      {"risk", "--tolerance", "0.2", "--uncertainty", "0.08", "--spread", "0.12", "--guard", "0.25"});
  EXPECT_NEAR(quarter.at("global_false_accept").get<double>(),
              document.at("global_false_accept").get<double>(), 1e-14);
}

// JCGM 106:2012 7.3.3 example 1: below -5.40 V, found -5.47 V, u = 0.05 V.
TEST(CalcRisk, OneSided) {
  const auto document =
      calcDocument({"risk", "--tolerance", ":-5.40", "--uncertainty", "0.1", "--error", "-5.47"});
  EXPECT_NEAR(document.at("conformance_probability").get<double>(), 0.919243340766229, 1e-12);
  EXPECT_NEAR(document.at("specific_false_accept").get<double>(), 1.0 - 0.919243340766229, 1e-12);
  EXPECT_EQ(document.at("answer"), "pass");
  EXPECT_TRUE(document.at("acceptance_low").is_null());
  EXPECT_TRUE(document.at("global_false_accept").is_null());
  // 7.3.3 example 2: at least 490 kPa, found 509.7, u = 8.6, given at k = 1.
  const auto container = calcDocument(
      {"risk", "--tolerance", "490:", "--uncertainty", "8.6", "--coverage", "1", "--error", "509.7"});
  EXPECT_NEAR(container.at("conformance_probability").get<double>(), 0.989009547384822, 1e-12);
  EXPECT_EQ(container.at("acceptance_limit").get<double>(), 490.0);
}

TEST(CalcRisk, AnswersWithExitStatus) {
  struct Row {
    const char *error, *answer;
    int status;
  };
  for (const Row& row : {Row{"0.7", "pass", kDone}, Row{"0.9", "conditional_pass", kDone},
                         Row{"-1.1", "conditional_fail", kFound}, Row{"1.3", "fail", kFound}}) {
    const std::vector<std::string> words{"risk",    "--tolerance", "1", "--uncertainty", "0.2", "--error",
                                         row.error, "--guard",     "1"};
    std::vector<std::string> withJson = words;
    withJson.emplace_back("--json");
    const auto answer = calc(withJson);
    EXPECT_EQ(answer.status, row.status) << row.error;
    EXPECT_EQ(nlohmann::json::parse(answer.out).at("answer"), row.answer) << row.error;
    const auto table = calc(words);
    EXPECT_EQ(table.status, row.status) << row.error;
    EXPECT_NE(table.out.find("Answer: "), std::string::npos);
  }
}

TEST(CalcRisk, SetsTheGuardBandForARisk) {
  const auto specific =
      calcDocument({"risk", "--tolerance", "1", "--uncertainty", "0.2", "--limit-false-accept", "0.025"});
  EXPECT_NEAR(specific.at("guard_band").get<double>(), 0.1959963984540054, 1e-9);
  const auto global = calcDocument({"risk", "--tolerance", "1", "--uncertainty", "0.6", "--spread", "0.6",
                                    "--limit-false-accept", "0.02"});
  EXPECT_NEAR(global.at("global_false_accept").get<double>(), 0.02, 1e-9);
  const auto any = calcDocument(
      {"risk", "--tolerance", "1", "--uncertainty", "0.5", "--limit-false-accept", "0.02", "--any-spread"});
  EXPECT_NEAR(any.at("guard_band").get<double>() / 0.5, 0.281645308000088,
              0.03);  // the published fit, ratio 2
  const auto none = calcDocument(
      {"risk", "--tolerance", "1", "--uncertainty", "4", "--limit-false-accept", "0.02", "--error", "0"});
  EXPECT_EQ(none.at("guard_state"), "out_of_reach");
  EXPECT_EQ(none.at("answer"), "conditional_pass");
  EXPECT_EQ(none.at("accepted"), false);
}

TEST(CalcRisk, KnowingTheSpreadMovesTheProbability) {
  const auto document =
      calcDocument({"risk", "--tolerance", "1", "--uncertainty", "0.6", "--error", "1", "--spread", "0.3"});
  // Half way between the population's mean and what was found, u = 0.3 / sqrt 2: Phi(0.5 / 0.2121) and the
  // far side.
  EXPECT_NEAR(document.at("conformance_probability").get<double>(), 0.5, 1e-9);
  EXPECT_NEAR(document.at("conformance_probability_with_spread").get<double>(), 0.990788934, 1e-8);
}

TEST(CalcRisk, Refuses) {
  const auto with = [](std::vector<std::string> more) {
    std::vector<std::string> words{"risk", "--tolerance", "1", "--uncertainty", "0.2"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  expectRefusal({"risk", "--tolerance", "1"}, kUsage, "--uncertainty");
  expectRefusal({"risk", "--tolerance", "0", "--uncertainty", "0.2"}, kRefused, "--tolerance");
  expectRefusal({"risk", "--tolerance", "-1", "--uncertainty", "0.2"}, kRefused, "--tolerance");
  expectRefusal({"risk", "--tolerance", "0.5:-0.5", "--uncertainty", "0.2"}, kRefused, "tolerance");
  expectRefusal({"risk", "--tolerance", ":", "--uncertainty", "0.2"}, kRefused, "limit");
  expectRefusal({"risk", "--tolerance", "1:2:3", "--uncertainty", "0.2"}, kRefused, "2:3");
  expectRefusal({"risk", "--tolerance", "nan", "--uncertainty", "0.2"}, kRefused, "nan");
  expectRefusal({"risk", "--tolerance", "1", "--uncertainty", "0"}, kRefused, "--uncertainty");
  expectRefusal({"risk", "--tolerance", "1", "--uncertainty", "-0.2"}, kRefused, "--uncertainty");
  expectRefusal({"risk", "--tolerance", "1e300", "--uncertainty", "1e-300", "--coverage", "1e300"}, kRefused,
                "uncertainty");
  expectRefusal(with({"--coverage", "0"}), kRefused, "--coverage");
  expectRefusal(with({"--error", "inf"}), kRefused, "--error");
  expectRefusal(with({"--spread", "0"}), kRefused, "--spread");
  expectRefusal(with({"--mean", "1"}), kUsage, "--spread");
  expectRefusal(with({"--guard", "x"}), kRefused, "--guard");
  expectRefusal(with({"--guard", "1", "--accept-limit", "0.5"}), kUsage, "--accept-limit");
  expectRefusal(with({"--limit-false-accept", "0.5"}), kRefused, "false acceptance");
  expectRefusal(with({"--limit-false-accept", "2"}), kRefused, "false acceptance");
  expectRefusal(with({"--any-spread"}), kUsage, "--limit-false-accept");
  expectRefusal({"risk", "--tolerance", "-0.5:1", "--uncertainty", "0.2", "--accept-limit", "0.4"}, kRefused,
                "--accept-limit");
  expectRefusal(
      {"risk", "--tolerance", ":1", "--uncertainty", "0.2", "--limit-false-accept", "0.02", "--any-spread"},
      kRefused, "two limits");
}

}  // namespace
}  // namespace spanwright
