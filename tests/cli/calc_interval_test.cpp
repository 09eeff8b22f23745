// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "tests/cli/calc_call.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::calcFile;
using test::expectRefusal;

std::string outcomes(int in, int out, const std::string& days) {
  std::string text = "interval_days,in_tolerance\n";
  for (int i = 0; i < in; ++i) {
    text += days + ",yes\n";
  }
  for (int i = 0; i < out; ++i) {
    text += days + ",no\n";
  }
  return calcFile("outcomes.csv", text);
}

// reliability_interval_computed.csv: 80 % after 12, so 90 % after 5.66597681379378 (whatever the unit).
TEST(CalcInterval, ReproducesThePairTable) {
  const auto document = calcDocument({"interval", outcomes(8, 2, "12"), "--target", "0.9"});
  EXPECT_NEAR(document.at("interval_days").get<double>(), 5.66597681379378, 1e-9);
  EXPECT_NEAR(document.at("failure_rate_per_day").get<double>(), -std::log(0.8) / 12.0, 1e-12);
  EXPECT_NEAR(document.at("reliability_at_present").get<double>(), 0.8, 1e-9);
  EXPECT_LT(document.at("interval_days_low").get<double>(), 5.6);
  EXPECT_GT(document.at("interval_days_high").get<double>(), 5.7);
  // More confidence, wider limits.
  const auto wide =
      calcDocument({"interval", outcomes(8, 2, "12"), "--target", "0.9", "--confidence", "0.99"});
  EXPECT_LT(wide.at("interval_days_low").get<double>(), document.at("interval_days_low").get<double>());
  EXPECT_GT(wide.at("interval_days_high").get<double>(), document.at("interval_days_high").get<double>());
}

TEST(CalcInterval, PresentIsTheLastIntervalOrTheOneGiven) {
  const std::string file = calcFile("mixed.csv", "in_tolerance,interval_days\nYes,100\n0,300\nin,200\n");
  EXPECT_EQ(calcDocument({"interval", file, "--target", "0.9"}).at("present_days"), 200.0);
  const auto document = calcDocument({"interval", file, "--target", "0.9", "--present", "400"});
  EXPECT_NEAR(document.at("reliability_at_present").get<double>(),
              std::exp(-400.0 * document.at("failure_rate_per_day").get<double>()), 1e-12);
}

TEST(CalcInterval, AllInAndAllOutHaveOneLimit) {
  const auto in = calcDocument({"interval", outcomes(10, 0, "365"), "--target", "0.9"});
  EXPECT_EQ(in.at("mix"), "all_in");
  EXPECT_EQ(in.at("failure_rate_per_day"), 0.0);
  EXPECT_TRUE(in.at("interval_days").is_null());
  EXPECT_TRUE(in.at("interval_days_high").is_null());
  // ln 0.9 / ln 0.05 of the ten intervals together.
  EXPECT_NEAR(in.at("interval_days_low").get<double>(), 3650.0 * std::log(0.9) / std::log(0.05), 1e-9);
  const auto table = calc({"interval", outcomes(10, 0, "365"), "--target", "0.9"});
  EXPECT_NE(table.out.find("lower limit only"), std::string::npos) << table.out;
  EXPECT_EQ(table.out.find("inf"), std::string::npos) << table.out;

  const auto out = calcDocument({"interval", outcomes(0, 3, "365"), "--target", "0.9"});
  EXPECT_EQ(out.at("mix"), "all_out");
  EXPECT_TRUE(out.at("failure_rate_per_day").is_null());
  EXPECT_TRUE(out.at("interval_days").is_null());
  EXPECT_TRUE(out.at("interval_days_low").is_null());
  EXPECT_GT(out.at("interval_days_high").get<double>(), 0.0);
  EXPECT_NE(calc({"interval", outcomes(0, 3, "365"), "--target", "0.9"}).out.find("upper limit only"),
            std::string::npos);
}

TEST(CalcInterval, Refuses) {
  const std::string good = outcomes(3, 1, "365");
  expectRefusal({"interval", good}, kUsage, "--target");
  for (const char* target : {"0", "1", "95", "x"}) {
    expectRefusal({"interval", good, "--target", target}, kRefused, "--target");
  }
  expectRefusal({"interval", good, "--target", "0.9", "--confidence", "1"}, kRefused, "--confidence");
  expectRefusal({"interval", good, "--target", "0.9", "--present", "0"}, kRefused, "--present");
  expectRefusal({"interval", calcFile("none.csv", "interval_days,in_tolerance\n"), "--target", "0.9"},
                kRefused, "no measurements");
  expectRefusal({"interval", calcFile("empty.csv", ""), "--target", "0.9"}, kRefused, "empty.csv");
  const std::string bad =
      calcFile("bad.csv", "interval_days,in_tolerance\n365,yes\n0,no\n-3,no\n365,perhaps\nsoon,yes\n");
  const auto answer = calc({"interval", bad, "--target", "0.9"});
  EXPECT_EQ(answer.status, kRefused);
  for (const char* place : {"bad.csv:3:1: ", "bad.csv:4:1: ", "bad.csv:5:2: ", "bad.csv:6:1: "}) {
    EXPECT_NE(answer.err.find(place), std::string::npos) << place << answer.err;
  }
}

}  // namespace
}  // namespace spanwright
