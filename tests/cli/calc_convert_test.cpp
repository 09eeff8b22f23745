// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "core/units/unit.h"
#include "tests/cli/calc_call.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::expectRefusal;
using test::numberIn;
using test::readReferenceCsv;

/// The name a reference row gives a unit, as it is typed here.
std::string typedName(std::string name) {
  if (name == "inH2O (60 degF)") {
    return "inH2O_60F";
  }
  if (name == "at (kgf/cm2)") {
    return "kgf/cm2";
  }
  const std::string ending = " conventional";
  if (name.ends_with(ending)) {
    name.erase(name.size() - ending.size());
  }
  return name;
}

TEST(CalcConvert, GivesTheWorkedExamples) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/signals/unit_conversion_examples.csv")) {
    const std::string to = typedName(row.at("to"));
    const auto document = calcDocument({"convert", row.at("value"), typedName(row.at("from")), to});
    EXPECT_NEAR(document.at("value").get<double>(), numberIn(row, "result"),
                5.1e-11 + 1e-15 * std::abs(numberIn(row, "result")))
        << row.at("from");
    EXPECT_EQ(document.at("unit"), to);
    ++checked;
  }
  EXPECT_EQ(checked, 19);
}

TEST(CalcConvert, UnderstandsEveryNameOfTheContract) {
  for (const char* name : {"bar", "mbar", "psi", "kPa", "inH2O", "inH2O_4C", "mmH2O", "inHg", "torr"}) {
    EXPECT_EQ(calcDocument({"convert", "1", name, name}).at("unit"), name);
    EXPECT_EQ(calcDocument({"convert", "1", name, name}).at("value"), 1.0);
    EXPECT_GT(calcDocument({"convert", "1", name, "Pa"}).at("value").get<double>(), 9.0);
  }
  EXPECT_EQ(calcDocument({"convert", "-40", "degC", "degF"}).at("value"), -40.0);
  EXPECT_EQ(calcDocument({"convert", "0", "degC", "K"}).at("value"), 273.15);
  EXPECT_EQ(calcDocument({"convert", "1500", "mV", "V"}).at("value"), 1.5);
  EXPECT_EQ(calcDocument({"convert", "4", "mA", "A"}).at("value"), 0.004);
  EXPECT_EQ(calcDocument({"convert", "100", "inH2O", "Pa"}).at("value"), 24908.891);
  EXPECT_EQ(calcDocument({"convert", "100", "inH2O_4C", "Pa"}).at("value"), 24908.2);
  EXPECT_EQ(calcDocument({"convert", "2.5", "kW", "W"}).at("value"), 2500.0);
}

TEST(CalcConvert, TellsAPointFromADifference) {
  EXPECT_EQ(calcDocument({"convert", "1", "K", "degF", "--difference"}).at("value"), 1.8);
  EXPECT_EQ(calcDocument({"convert", "-300", "degC", "K", "--difference"}).at("value"), -300.0);
}

TEST(CalcConvert, PrintsALineForPeople) {
  EXPECT_EQ(calc({"convert", "1", "bar", "psi"}).out, "14.50377377 psi\n");
  EXPECT_EQ(calc({"convert", "212", "degF", "degC"}).out, "100 °C\n");
}

TEST(CalcConvert, RefusesInOneSentence) {
  expectRefusal({"convert", "1", "bar", "degC"}, kRefused, "different things");
  expectRefusal({"convert", "1", "bar", "parsec"}, kRefused, "parsec");
  expectRefusal({"convert", "1", "MA", "A"}, kRefused, "MA");
  expectRefusal({"convert", "x", "bar", "psi"}, kRefused, "\"x\"");
  expectRefusal({"convert", "inf", "bar", "psi"}, kRefused, "not a number");
  expectRefusal({"convert", "-300", "degC", "K"}, kRefused, "absolute zero");
  expectRefusal({"convert", "1e308", "MPa", "Pa"}, kRefused, "too large");
  expectRefusal({"convert", "1", "bar"}, kUsage, "TO");
}

}  // namespace
}  // namespace spanwright
