// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <string>
#include <vector>

#include "tests/cli/calc_call.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::calcFile;
using test::expectRefusal;

std::string published(const std::string& name) {
  return SPANWRIGHT_REFERENCE_DIR "/statistics/budgets/" + name + ".toml";
}
std::string sample(const std::string& name) {
  return SPANWRIGHT_SOURCE_DIR "/sample_sites/budgets/" + name + ".toml";
}

// JCGM 100:2008 H.1: l = 50.000838 mm, u_c = 32 nm, nu_eff 16.7 cut to 16, k99 = 2.92, U99 = 93 nm (unrounded
// 92.5).
TEST(CalcBudget, HasTheKeysOfTheContract) {
  const auto document = calcDocument({"budget", published("gum_h1")});
  EXPECT_NEAR(document.at("value").get<double>(), 50000838, 0.5);
  EXPECT_NEAR(document.at("combined").get<double>(), 32, 0.5);
  EXPECT_NEAR(document.at("degrees_of_freedom").get<double>(), 16.7, 0.05);
  EXPECT_EQ(document.at("used_degrees_of_freedom"), 16);
  EXPECT_NEAR(document.at("coverage_factor").get<double>(), 2.92, 0.005);
  EXPECT_NEAR(document.at("expanded").get<double>(), 92.5, 0.5);
  EXPECT_EQ(document.at("probability"), 0.99);
  ASSERT_EQ(document.at("lines").size(), 9U);
  const auto& line = document.at("lines")[8];
  EXPECT_EQ(line.at("name"), "delta_theta");
  EXPECT_NEAR(line.at("standard_uncertainty").get<double>(), 0.029, 0.0005);
  EXPECT_NEAR(line.at("sensitivity").get<double>(), -50000623 * 11.5e-6, 1e-6);
  EXPECT_NEAR(line.at("contribution").get<double>(), 16.6, 0.05);
  EXPECT_EQ(line.at("degrees_of_freedom"), 2);
  EXPECT_EQ(document.at("also").size(), 2U);
  EXPECT_EQ(document.at("result_correlations").size(), 3U);
  EXPECT_FALSE(document.contains("monte_carlo"));
}

TEST(CalcBudget, InfiniteDegreesOfFreedomAreNull) {
  const auto document = calcDocument({"budget", published("gum_dmm_1V")});
  EXPECT_TRUE(document.at("degrees_of_freedom").is_null());
  EXPECT_NEAR(document.at("coverage_factor").get<double>(), 2.0, 1e-9);
  EXPECT_TRUE(document.at("lines")[0].at("degrees_of_freedom").is_null());
}

// JCGM 101:2008 Table 4: first order 10.1 and 19.9, simulated 17.0.
TEST(CalcBudget, MonteCarloBesideTheBudget) {
  const std::vector<std::string> words{"budget", published("jcgm101_additive_unequal"), "--monte-carlo",
                                       "--seed", "7"};
  const auto document = calcDocument(words);
  EXPECT_NEAR(document.at("expanded").get<double>(), 19.9, 0.05);
  const auto& simulated = document.at("monte_carlo");
  EXPECT_EQ(simulated.at("seed"), 7);
  EXPECT_EQ(simulated.at("digits"), 2);
  EXPECT_EQ(simulated.at("stabilised"), true);
  EXPECT_EQ(simulated.at("validated"), false);
  // Twice the standard deviation of each end is within a fifth of the numerical tolerance of 0.5.
  EXPECT_NEAR(simulated.at("symmetric_interval")[1].get<double>(), 17.0, 0.05 + 0.1);
  EXPECT_NEAR(simulated.at("numerical_tolerance").get<double>(), 0.5, 1e-12);
  EXPECT_GE(simulated.at("trials").get<int>(), 100'000);
  EXPECT_EQ(simulated, calcDocument(words).at("monte_carlo"));
}

TEST(CalcBudget, SecondOrderTermsAreListed) {
  const auto document = calcDocument({"budget", published("gum_h1_second_order")});
  EXPECT_NEAR(document.at("combined").get<double>(), 34, 0.5);
  EXPECT_NEAR(document.at("first_order").get<double>(), 32, 0.5);
  EXPECT_FALSE(document.at("second_order").empty());
}

TEST(CalcBudget, ForPeople) {
  auto answer = calc({"budget", sample("transmitter"), "--monte-carlo", "--digits", "1"});
  EXPECT_EQ(answer.status, kDone) << answer.err;
  for (const char* part :
       {"0 to 10 bar pressure transmitter", "triangular", "combined standard uncertainty",
        "contribution (bar)", "95 %", "Monte Carlo", "seed 1", "validated", "correlation with error"}) {
    EXPECT_NE(answer.out.find(part), std::string::npos) << part << "\n" << answer.out;
  }
  answer = calc({"budget", published("ea402_s3")});
  EXPECT_NE(answer.out.find("R_X = 10000.1780 ohm"), std::string::npos) << answer.out;
  EXPECT_NE(answer.out.find("expanded uncertainty 0.0167 ohm (k = 2.00, as stated)"), std::string::npos)
      << answer.out;
  EXPECT_EQ(calc({"budget", sample("loop-input")}).status, kDone);
}

TEST(CalcBudget, Refusals) {
  expectRefusal({"budget", "no-such-file.toml"}, kStorage, "no-such-file.toml");
  expectRefusal({"budget", published("gum_dmm_1V"), "--seed", "1"}, kUsage, "--monte-carlo");
  expectRefusal({"budget", published("gum_dmm_1V"), "--monte-carlo", "--digits", "9"}, kUsage, "9");
  const std::string head = "[result]\nname = \"y\"\nformula = \"sqrt(x)\"\n[[input]]\nname = \"x\"\n";
  expectRefusal({"budget", calcFile("a.toml", head + "value = -1\nstandard_uncertainty = 1\n")}, kRefused,
                "a.toml:3:11: the model has no value");
  expectRefusal({"budget", calcFile("b.toml", head + "value = 0\nstandard_uncertainty = 1\n")}, kRefused,
                "b.toml:4:1: the model has no derivative with respect to \"x\"");
  expectRefusal({"budget", calcFile("c.toml", head + "value = 1\nreadings = 1\nhalf_width = 2\n")}, kRefused,
                "c.toml:8:");
  const std::string wide = calcFile("d.toml", head + "value = 1\nstandard_uncertainty = 1\n");
  expectRefusal({"budget", wide, "--monte-carlo"}, kRefused, "no value for some of the values");
  expectRefusal({"budget", published("gum_h2"), "--monte-carlo", "--trials", "5"}, kUsage, "5");
}

}  // namespace
}  // namespace spanwright
