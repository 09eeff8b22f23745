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

TEST(CalcThermocouple, GivesThePrintedTableBothWays) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_emf_table.csv"))) {
    // Every fourth: each call parses a whole command line.
    if (++checked % 4 != 0) {
      continue;
    }
    const auto document = calcDocument({"thermocouple", row.at("type"), "--celsius", row.at("t_degC")});
    EXPECT_EQ(formatFixed(document.at("millivolt").get<double>(), 3), row.at("emf_printed_mV"));
    EXPECT_EQ(document.at("celsius").get<double>(), numberIn(row, "t_degC"));
  }
  EXPECT_EQ(checked, 135);
  int inverted = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_cold_junction_examples.csv"))) {
    if (row.at("case") != "compensate") {
      continue;
    }
    const auto document =
        calcDocument({"thermocouple", row.at("type"), "--millivolt", row.at("emf_measured_mV"),
                      "--reference-junction", row.at("t_reference_degC")});
    EXPECT_NEAR(document.at("celsius").get<double>(), numberIn(row, "t_hot_expected_degC"), 1e-4)
        << row.at("type");
    ++inverted;
  }
  EXPECT_EQ(inverted, 2);
}

TEST(CalcThermocouple, GivesTolerancesOrNull) {
  const auto warm = calcDocument({"thermocouple", "k", "--celsius", "500"});
  EXPECT_EQ(warm.at("tolerance_class_1"), 2.0);
  EXPECT_EQ(warm.at("tolerance_class_2"), 3.75);
  EXPECT_TRUE(warm.at("tolerance_class_3").is_null());
  EXPECT_NEAR(warm.at("seebeck_uv_per_k").get<double>(), 42.6, 0.1);
  const auto cold = calcDocument({"thermocouple", "K", "--celsius", "-100"});
  EXPECT_TRUE(cold.at("tolerance_class_1").is_null());
  EXPECT_EQ(cold.at("tolerance_class_3"), 2.5);
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_tolerance_examples.csv"))) {
    const auto document = calcDocument({"thermocouple", row.at("type"), "--celsius", row.at("t_degC")});
    const auto& tolerance = document.at("tolerance_class_" + row.at("class"));
    if (row.at("tolerance_degC") == "not_defined") {
      EXPECT_TRUE(tolerance.is_null()) << row.at("type") << row.at("t_degC");
    } else {
      EXPECT_NEAR(tolerance.get<double>(), numberIn(row, "tolerance_degC"), 1e-12);
    }
    ++checked;
  }
  EXPECT_EQ(checked, 29);
}

TEST(CalcThermocouple, PrintsATableForPeople) {
  const auto answer = calc({"thermocouple", "K", "--celsius", "100", "--reference-junction", "25"});
  EXPECT_EQ(answer.status, kDone);
  for (const char* part : {"3.096", "mV", "µV/K", "±1.50", "class 1", "above the range of the class"}) {
    EXPECT_NE(answer.out.find(part), std::string::npos) << part << "\n" << answer.out;
  }
}

TEST(CalcThermocouple, RefusesInOneSentence) {
  expectRefusal({"thermocouple", "Q", "--celsius", "1"}, kRefused, "type \"Q\"");
  expectRefusal({"thermocouple", "K", "--celsius", "1400"}, kRefused, "above the range");
  expectRefusal({"thermocouple", "K", "--millivolt", "99"}, kRefused, "--millivolt");
  expectRefusal({"thermocouple", "B", "--millivolt", "-0.001"}, kRefused, "no single answer");
  expectRefusal({"thermocouple", "K", "--celsius", "nan"}, kRefused, "not a number");
  expectRefusal({"thermocouple", "K", "--celsius", "inf"}, kRefused, "not a number");
  expectRefusal({"thermocouple", "K", "--celsius", "20", "--reference-junction", "5000"}, kRefused,
                "--reference-junction");
  expectRefusal({"thermocouple", "K"}, kUsage, "");
  expectRefusal({"thermocouple", "K", "--celsius", "1", "--millivolt", "1"}, kUsage, "");
  expectRefusal({"thermocouple", "--celsius", "1"}, kUsage, "TYPE");
}

TEST(CalcRtd, GivesThePrintedTableBothWays) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("rtd_pt100_table.csv"))) {
    const auto there = calcDocument({"rtd", "pt100", "--celsius", row.at("t_degC")});
    EXPECT_EQ(formatFixed(there.at("ohm").get<double>(), 2), row.at("r_printed_ohm"));
    const auto back = calcDocument({"rtd", "pt100", "--ohm", row.at("r_equation_ohm")});
    EXPECT_NEAR(back.at("celsius").get<double>(), numberIn(row, "t_degC"), 1e-7);
    ++checked;
  }
  EXPECT_EQ(checked, 38);
}

TEST(CalcRtd, GivesTolerancesByConstruction) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("rtd_tolerance_examples.csv"))) {
    const std::string construction = row.at("construction") == "film" ? "film" : "wire";
    const auto document =
        calcDocument({"rtd", "pt100", "--celsius", row.at("t_degC"), "--construction", construction});
    std::string key = "tolerance_class_";
    for (const char c : row.at("class")) {
      key += static_cast<char>(c - 'A' + 'a');
    }
    if (row.at("within_class_range") == "no") {
      EXPECT_TRUE(document.at(key).is_null()) << key << row.at("t_degC");
    } else {
      EXPECT_NEAR(document.at(key).get<double>(), numberIn(row, "tolerance_degC"), 1e-12);
    }
    EXPECT_EQ(document.at("construction"), construction);
    ++checked;
  }
  EXPECT_EQ(checked, 12);
  // Without the option the wire-wound ranges.
  EXPECT_FALSE(calcDocument({"rtd", "pt1000", "--celsius", "200"}).at("tolerance_class_aa").is_null());
}

TEST(CalcRtd, AddsTheLeads) {
  const auto two = calcDocument({"rtd", "pt100", "--celsius", "0", "--leads", "0.5:0.5"});
  EXPECT_EQ(two.at("lead_error_ohm"), 1.0);
  EXPECT_NEAR(two.at("lead_error_kelvin").get<double>(), 2.5596, 1e-4);
  EXPECT_EQ(calcDocument({"rtd", "pt100", "--celsius", "0", "--leads", "2:2:9"}).at("lead_error_ohm"), 0.0);
  EXPECT_EQ(calcDocument({"rtd", "pt100", "--celsius", "0", "--leads", "2:2:9", "--three-wire", "loop"})
                .at("lead_error_ohm"),
            -7.0);
  EXPECT_EQ(calcDocument({"rtd", "pt100", "--celsius", "0", "--leads", "2:2:9:1"}).at("lead_error_ohm"), 0.0);
  EXPECT_FALSE(calcDocument({"rtd", "pt100", "--celsius", "0"}).contains("lead_error_ohm"));
}

TEST(CalcRtd, RefusesInOneSentence) {
  expectRefusal({"rtd", "pt500", "--celsius", "1"}, kRefused, "pt500");
  expectRefusal({"rtd", "pt100", "--celsius", "900"}, kRefused, "above the range");
  expectRefusal({"rtd", "pt100", "--ohm", "0"}, kRefused, "above zero");
  expectRefusal({"rtd", "pt100", "--ohm", "-100"}, kRefused, "above zero");
  expectRefusal({"rtd", "pt100", "--ohm", "1"}, kRefused, "below the range");
  expectRefusal({"rtd", "pt100", "--celsius", "1", "--construction", "clay"}, kRefused, "clay");
  expectRefusal({"rtd", "pt100", "--celsius", "1", "--leads", "1"}, kRefused, "2, 3 or 4 wires");
  expectRefusal({"rtd", "pt100", "--celsius", "1", "--leads", "1:-1"}, kRefused, "second");
  expectRefusal({"rtd", "pt100", "--celsius", "1", "--leads", "1:"}, kRefused, "not a number");
  expectRefusal({"rtd", "pt100", "--celsius", "1", "--leads", "1:1:1", "--three-wire", "x"}, kRefused,
                "--three-wire");
  expectRefusal({"rtd", "pt100", "--celsius", "849", "--leads", "9:9"}, kRefused, "--leads");
  expectRefusal({"rtd", "pt100"}, kUsage, "");
}

}  // namespace
}  // namespace spanwright
