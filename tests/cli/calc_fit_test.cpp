// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <map>

#include "core/units/number.h"
#include "tests/cli/calc_call.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

using test::calc;
using test::calcDocument;
using test::calcFile;
using test::expectRefusal;
using test::readReferenceCsv;

const std::string kStatistics = SPANWRIGHT_REFERENCE_DIR "/statistics/";

/// A reference file of x and y as time and error.
std::string asData(const std::string& name) {
  std::string text = "time,error\n";
  for (const auto& row : readReferenceCsv(kStatistics + name)) {
    text += row.at("x") + "," + row.at("y") + "\n";
  }
  return calcFile(name, text);
}

double certifiedNorris(const std::string& quantity) {
  for (const auto& row : readReferenceCsv(kStatistics + "expected_drift.csv")) {
    if (row.at("example") == "strd_norris" && row.at("quantity") == quantity) {
      return parseNumber(row.at("published").empty() ? row.at("recomputed") : row.at("published"))
          .value()
          .value;
    }
  }
  throw std::runtime_error("no " + quantity);
}

void expectRelative(double value, double reference, double relative) {
  EXPECT_NEAR(value, reference, relative * std::abs(reference));
}

// NIST StRD, set Norris.
TEST(CalcFit, MeetsCertifiedNorris) {
  const auto document = calcDocument({"fit", asData("strd_norris.csv"), "--at", "500"});
  expectRelative(document.at("rate"), certifiedNorris("B1"), 1e-13);
  expectRelative(document.at("rate_standard_error"), certifiedNorris("sd_B1"), 1e-12);
  ASSERT_EQ(document.at("intercepts").size(), 1u);
  expectRelative(document.at("intercepts")[0], certifiedNorris("B0"), 1e-11);
  expectRelative(document.at("intercept_standard_errors")[0], certifiedNorris("sd_B0"), 1e-12);
  expectRelative(document.at("residual_sd"), certifiedNorris("residual_sd"), 1e-12);
  expectRelative(document.at("r_squared"), certifiedNorris("R_squared"), 1e-13);
  EXPECT_EQ(document.at("degrees_of_freedom"), 34);
  EXPECT_TRUE(document.at("robust_rate").is_number());
  EXPECT_EQ(document.at("prediction").at("at"), 500.0);
  expectRelative(document.at("prediction").at("value"), certifiedNorris("fit_at_x=500"), 1e-11);
  expectRelative(document.at("prediction").at("low"), certifiedNorris("pred95_lo_at_x=500"), 1e-11);
  expectRelative(document.at("prediction").at("high"), certifiedNorris("pred95_hi_at_x=500"), 1e-11);
}

// NIST StRD, set NoInt1.
TEST(CalcFit, MeetsCertifiedNoInt1ThroughZero) {
  std::map<std::string, double> certified;
  for (const auto& row : readReferenceCsv(kStatistics + "strd_noint1_certified.csv")) {
    certified[row.at("quantity")] = test::numberIn(row, "value");
  }
  const auto document = calcDocument({"fit", asData("strd_noint1.csv"), "--through-zero"});
  expectRelative(document.at("rate"), certified.at("B1"), 1e-14);
  expectRelative(document.at("rate_standard_error"), certified.at("sd_B1"), 1e-12);
  expectRelative(document.at("residual_sd"), certified.at("residual_sd"), 1e-12);
  expectRelative(document.at("r_squared"), certified.at("R_squared"), 1e-14);
  EXPECT_EQ(document.at("degrees_of_freedom"), 10);
  EXPECT_EQ(document.at("intercepts")[0], 0.0);
  EXPECT_TRUE(document.at("prediction").is_null());
}

TEST(CalcFit, FitsSegmentsWithOneRate) {
  // Two lines of rate 2, a step of 10 between them; lines out of order and a semicolon file are taken too.
  const std::string file =
      calcFile("two.csv", "Segment;Time;Error;remark\nb;4;18,5;\na;0;1;\na;1;3;\na;2;5;\n\nb;3;16,5;x\n");
  const auto document = calcDocument({"fit", file, "--at", "5", "--confidence", "0.9"});
  EXPECT_NEAR(document.at("rate").get<double>(), 2.0, 1e-12);
  ASSERT_EQ(document.at("intercepts").size(), 2u);
  EXPECT_EQ(document.at("segments"), nlohmann::json({"b", "a"}));
  EXPECT_NEAR(document.at("intercepts")[0].get<double>(), 10.5, 1e-12);
  EXPECT_NEAR(document.at("intercepts")[1].get<double>(), 1.0, 1e-12);
  EXPECT_EQ(document.at("degrees_of_freedom"), 2);
}

TEST(CalcFit, SaysNothingItCannotTell) {
  const auto document = calcDocument({"fit", calcFile("two.csv", "time,error\n0,1\n1,2\n"), "--at", "2"});
  EXPECT_EQ(document.at("rate"), 1.0);
  EXPECT_TRUE(document.at("rate_standard_error").is_null());
  EXPECT_TRUE(document.at("intercept_standard_errors")[0].is_null());
  EXPECT_TRUE(document.at("residual_sd").is_null());
  EXPECT_EQ(document.at("prediction").at("value"), 3.0);
  EXPECT_TRUE(document.at("prediction").at("low").is_null());
  const auto answer = calc({"fit", calcFile("two.csv", "time,error\n0,1\n1,2\n")});
  EXPECT_NE(answer.out.find("Too few readings"), std::string::npos) << answer.out;
}

TEST(CalcFit, RefusesInSentencesThatNameTheLine) {
  expectRefusal({"fit", calcFile("a.csv", "time,error\n0,1\n1,x\n2,\n")}, kRefused,
                ":3:2: column \"error\": \"x\"");
  expectRefusal({"fit", calcFile("a.csv", "time,error\n0,1\n1,x\n2,\n")}, kRefused,
                ":4:2: column \"error\": there is no number");
  expectRefusal({"fit", calcFile("b.csv", "time,fault\n0,1\n")}, kRefused, "no column \"error\"");
  expectRefusal({"fit", calcFile("c.csv", "time,error,time\n0,1,2\n")}, kRefused, "twice");
  expectRefusal({"fit", calcFile("d.csv", "time,error\n")}, kRefused, "no measurements");
  expectRefusal({"fit", calcFile("e.csv", "")}, kRefused, "e.csv");
  expectRefusal({"fit", calcFile("f.csv", "time,error\n1,2\n1,3\n")}, kRefused, "no rate");
  expectRefusal({"fit", calcFile("f.csv", "time,error\n0,2\n"), "--through-zero"}, kRefused,
                "away from time 0");
  expectRefusal({"fit", calcFile("g.csv", "time,error\n1,nan\n2,3\n")}, kRefused, "\"nan\"");
  expectRefusal({"fit", calcFile("h.csv", "time,error\n1,2,3\n")}, kRefused,
                "3 cells where the heading has 2");
  const std::string good = calcFile("good.csv", "time,error\n0,1\n1,2\n2,2\n");
  expectRefusal({"fit", good, "--confidence", "1"}, kRefused, "--confidence");
  expectRefusal({"fit", good, "--confidence", "95"}, kRefused, "between 0 and 1");
  expectRefusal({"fit", good, "--at", "soon"}, kRefused, "--at");
  expectRefusal({"fit", "/nowhere/at/all.csv"}, kStorage, "all.csv");
  expectRefusal({"fit"}, kUsage, "DATA");
}

}  // namespace
}  // namespace spanwright
