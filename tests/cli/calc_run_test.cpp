// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/number.h"
#include "tests/cli/calc_call.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::calcFile;
using test::expectRefusal;

// The report's data as a run file, in the order of its table; `withCycle` keeps its cycle column.
std::string isaFile(bool withCycle) {
  std::string text = withCycle ? "direction,applied,reading,cycle\n" : "direction,applied,reading\n";
  for (const auto& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/signals/example_isa51_report_data.csv")) {
    const double at = test::numberIn(row, "input_percent");
    text += row.at("direction") + "," + row.at("input_percent") + "," +
            formatShortest(at + test::numberIn(row, "error_percent_of_span")) +
            (withCycle ? "," + row.at("cycle") : "") + "\n";
  }
  return calcFile("run.csv", text);
}

TEST(CalcRun, ReproducesTheIsaReport) {
  for (const bool withCycle : {false, true}) {
    const auto document = calcDocument({"run", isaFile(withCycle), "--span", "0:100"});
    EXPECT_NEAR(document.at("zero_error").get<double>(), -0.05, 1e-9);
    EXPECT_NEAR(document.at("span_error").get<double>(), 0.15, 1e-9);
    EXPECT_NEAR(document.at("max_error").get<double>(), -0.30, 1e-9);
    EXPECT_NEAR(document.at("inaccuracy_high").get<double>(), 0.26, 1e-9);
    EXPECT_NEAR(document.at("inaccuracy_low").get<double>(), -0.32, 1e-9);
    EXPECT_NEAR(document.at("linearity_terminal").get<double>(), 0.28, 1e-9);
    EXPECT_NEAR(document.at("linearity_best").get<double>(), 0.1786, 5e-5);
    EXPECT_NEAR(document.at("linearity_zero").get<double>(), 0.2139, 5e-5);
    EXPECT_NEAR(document.at("hysteresis").get<double>(), 0.20, 1e-9);
    EXPECT_NEAR(document.at("hysteresis_within_cycle").get<double>(), 0.22, 1e-9);
    EXPECT_NEAR(document.at("repeatability").get<double>(), 0.05, 1e-9);
    EXPECT_EQ(document.at("cycles"), 3);
    EXPECT_EQ(document.at("points").size(), 11U);
  }
}

TEST(CalcRun, SaysNothingOfWhatTheRunDoesNotShow) {
  const std::string file = calcFile("up.csv", "Direction;Applied;Reading\nup;4;4,016\nup;20;20\n");
  const auto document = calcDocument({"run", file, "--span", "4:20"});
  EXPECT_NEAR(document.at("zero_error").get<double>(), 0.1, 1e-9);
  EXPECT_NEAR(document.at("span_error").get<double>(), -0.1, 1e-9);
  for (const char* key : {"linearity_terminal", "linearity_best", "linearity_zero", "hysteresis",
                          "hysteresis_within_cycle", "repeatability"}) {
    EXPECT_TRUE(document.at(key).is_null()) << key;
  }
  const auto table = calc({"run", file, "--span", "4:20"});
  EXPECT_EQ(table.status, kDone);
  EXPECT_NE(table.out.find("0.1000"), std::string::npos);
  EXPECT_NE(table.out.find("not shown"), std::string::npos);
}

TEST(CalcRun, RefusesWithLineAndColumn) {
  const std::string bad = calcFile("bad.csv",
                                   "direction,applied,reading\n"
                                   "up,4,4.01\n"
                                   "sideways,8,8.01\n"
                                   "up,12,x\n"
                                   "up,16\n");
  const auto answer = calc({"run", bad, "--span", "4:20"});
  EXPECT_EQ(answer.status, kRefused);
  EXPECT_NE(answer.err.find("bad.csv:5: "), std::string::npos) << answer.err;

  const std::string cells =
      calcFile("cells.csv", "direction,applied,reading\n\nsideways,8,8.01\nup,12,x\nup,,nan\n");
  const auto more = calc({"run", cells, "--span", "4:20"});
  EXPECT_EQ(more.status, kRefused);
  for (const char* place : {"cells.csv:3:1: ", "cells.csv:4:3: ", "cells.csv:5:2: ", "cells.csv:5:3: "}) {
    EXPECT_NE(more.err.find(place), std::string::npos) << place << more.err;
  }
  EXPECT_TRUE(more.out.empty());
}

TEST(CalcRun, Refuses) {
  const std::string good = calcFile("good.csv", "direction,applied,reading\nup,4,4.01\nup,20,20\n");
  expectRefusal({"run", good}, kUsage, "--span");
  expectRefusal({"run", good, "--span", "4"}, kRefused, "--span");
  expectRefusal({"run", good, "--span", "4:20:30"}, kRefused, "--span");
  expectRefusal({"run", good, "--span", "4:x"}, kRefused, "--span");
  expectRefusal({"run", good, "--span", "4:4"}, kRefused, "two ends");
  expectRefusal({"run", calcFile("none.csv", "direction,applied,reading\n"), "--span", "4:20"}, kRefused,
                "no measurements");
  expectRefusal({"run", calcFile("missing.csv", "direction,applied\nup,4\n"), "--span", "4:20"}, kRefused,
                "\"reading\"");
  expectRefusal(
      {"run", calcFile("double.csv", "direction,applied,reading,reading\nup,4,4,4\n"), "--span", "4:20"},
      kRefused, "twice");
  expectRefusal(
      {"run", calcFile("cycle.csv", "direction,applied,reading,cycle\nup,4,4,1.5\n"), "--span", "4:20"},
      kRefused, "cycle.csv:2:4: ");
  expectRefusal({"run", calcFile("again.csv", "direction,applied,reading,cycle\nup,4,4,1\nup,4,4,1\n"),
                 "--span", "4:20"},
                kRefused, "read twice");
  expectRefusal({"run", "/nowhere/at/all.csv", "--span", "4:20"}, kStorage, "all.csv");
}

}  // namespace
}  // namespace spanwright
