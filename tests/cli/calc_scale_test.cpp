// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "core/units/number.h"
#include "tests/cli/calc_call.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::expectRefusal;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;

TEST(CalcScale, NamesTheBandOfEveryExample) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("current_loop_band_examples.csv"))) {
    const auto document = calcDocument({"scale", "--signal", "4:20:mA", "--at", row.at("i_mA")});
    EXPECT_EQ(document.at("band"), row.at("band"));
    EXPECT_NEAR(document.at("percent").get<double>(), numberIn(row, "percent_of_span"), 1e-12);
    EXPECT_TRUE(document.at("counts").is_null());
    EXPECT_TRUE(document.at("units").is_null());
    EXPECT_TRUE(document.at("step_counts").is_null());
    EXPECT_TRUE(document.at("step_units").is_null());
    ++checked;
  }
  EXPECT_EQ(checked, 15);
  EXPECT_TRUE(calcDocument({"scale", "--signal", "0:10:V", "--at", "5"}).at("band").is_null());
}

TEST(CalcScale, TakesTheValueInAnyForm) {
  const std::vector<std::string> setup{"scale",  "--signal", "0:10:V",  "--counts",     "0:32000",
                                       "--bits", "12",       "--units", "-50:150:degC", "--at"};
  for (const char* at : {"5", "5V", "5000mV", "16000count", "16000 counts", "50degC", "122degF", "5,0 V"}) {
    auto words = setup;
    words.emplace_back(at);
    const auto document = calcDocument(words);
    EXPECT_NEAR(document.at("signal").get<double>(), 5.0, 1e-12) << at;
    EXPECT_NEAR(document.at("counts").get<double>(), 16000.0, 1e-9) << at;
    EXPECT_NEAR(document.at("units").get<double>(), 50.0, 1e-12) << at;
    EXPECT_NEAR(document.at("percent").get<double>(), 50.0, 1e-12) << at;
    EXPECT_NEAR(document.at("step_counts").get<double>(), 32000.0 / 4095.0, 1e-12) << at;
    EXPECT_NEAR(document.at("step_units").get<double>(), 200.0 / 4095.0, 1e-12) << at;
    EXPECT_EQ(document.at("code"), 2048) << at;
    EXPECT_EQ(document.at("whole_counts"), 16004) << at;
  }
  const auto negative =
      calcDocument({"scale", "--signal", "-10:10:V", "--counts", "-100:100", "--at", "-2.5"});
  EXPECT_EQ(negative.at("counts"), -25.0);
}

TEST(CalcScale, TakesTheSquareRoot) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("square_root_table.csv"))) {
    const auto document = calcDocument({"scale", "--signal", "4:20:mA", "--units", "0:100:%", "--transfer",
                                        "square-root", "--at", row.at("i_linear_mA")});
    EXPECT_EQ(formatFixed(document.at("units").get<double>(), 4), row.at("flow_percent"));
    ++checked;
  }
  EXPECT_EQ(checked, 15);
}

std::string rangeOf(const test::CsvRow& row, const std::string& side) {
  const std::string& unit = row.at(side + "_unit");
  return row.at(side + "_low") + ":" + row.at(side + "_high") + ":" + (unit == "percent" ? "%" : unit);
}

// Each example that has a voltage or current at one end: from the signal to what it means, or back.
TEST(CalcScale, FollowsTheLinearExamples) {
  const auto electrical = [](const std::string& unit) { return unit == "mA" || unit == "V" || unit == "mV"; };
  int forward = 0;
  int backward = 0;
  for (const auto& row : readReferenceCsv(signalReference("linear_scaling_examples.csv"))) {
    const bool fromSignal = electrical(row.at("in_unit"));
    if (!fromSignal && !electrical(row.at("out_unit"))) {
      continue;
    }
    const std::string signal = rangeOf(row, fromSignal ? "in" : "out");
    const std::string meaning = rangeOf(row, fromSignal ? "out" : "in");
    const bool counts = meaning.ends_with(":count");
    const std::string at = row.at("input") + (fromSignal                       ? ""
                                              : row.at("in_unit") == "percent" ? "%"
                                                                               : row.at("in_unit"));
    const auto document =
        calcDocument({"scale", "--signal", signal, counts ? "--counts" : "--units", meaning, "--at", at});
    const double result = document.at(!fromSignal ? "signal" : counts ? "counts" : "units").get<double>();
    EXPECT_NEAR(result, numberIn(row, "output"), 0.5e-6 + 1e-9 * std::abs(result)) << row.at("case");
    ++(fromSignal ? forward : backward);
  }
  EXPECT_EQ(forward, 5);
  EXPECT_EQ(backward, 4);
}

TEST(CalcScale, PrintsATableForPeople) {
  const auto answer =
      calc({"scale", "--signal", "4:20:mA", "--units", "0:150:degC", "--bits", "16", "--at", "3.7"});
  EXPECT_EQ(answer.status, kDone);
  for (const char* part :
       {"3.7", "gap_low", "neither measuring nor failure", "outside the signal's range", "under-range"}) {
    EXPECT_NE(answer.out.find(part), std::string::npos) << part << "\n" << answer.out;
  }
}

TEST(CalcScale, RefusesInOneSentence) {
  expectRefusal({"scale", "--signal", "4:4:mA", "--at", "4"}, kRefused, "equal");
  expectRefusal({"scale", "--signal", "4:20", "--at", "4"}, kRefused, "--signal");
  expectRefusal({"scale", "--signal", "4:20:mX", "--at", "4"}, kRefused, "mX");
  expectRefusal({"scale", "--signal", "4:x:mA", "--at", "4"}, kRefused, "\"x\"");
  expectRefusal({"scale", "--signal", "3:15:psi", "--at", "4"}, kRefused, "voltage or current");
  expectRefusal({"scale", "--signal", "4:20:mA", "--at", "4kPa"}, kRefused, "unit");
  expectRefusal({"scale", "--signal", "4:20:mA", "--at", "100counts"}, kRefused, "unit");
  expectRefusal({"scale", "--signal", "4:20:mA", "--at", "nan"}, kRefused, "--at");
  expectRefusal({"scale", "--signal", "4:20:mA", "--at", ""}, kRefused, "--at");
  expectRefusal({"scale", "--signal", "4:20:mA", "--bits", "12.5", "--at", "4"}, kRefused, "--bits");
  expectRefusal({"scale", "--signal", "4:20:mA", "--bits", "0", "--at", "4"}, kRefused, "--bits");
  expectRefusal({"scale", "--signal", "4:20:mA", "--counts", "7:7", "--at", "4"}, kRefused, "equal");
  expectRefusal({"scale", "--signal", "4:20:mA", "--counts", "0:7:V", "--at", "4"}, kRefused, "counts");
  expectRefusal({"scale", "--signal", "4:20:mA", "--transfer", "cube", "--at", "4"}, kRefused, "cube");
  expectRefusal({"scale", "--signal", "4:20:mA", "--transfer", "square-root", "--at", "4"}, kRefused,
                "square root");
  expectRefusal(
      {"scale", "--signal", "4:20:mA", "--units", "0:10:m3/h", "--transfer", "square-root", "--at=-1m3/h"},
      kRefused, "below the range");
  expectRefusal({"scale", "--signal", "4:20:mA"}, kUsage, "--at");
  expectRefusal({"scale", "--at", "4"}, kUsage, "--signal");
}

}  // namespace
}  // namespace spanwright
