// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/figures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "core/units/number.h"

namespace spanwright {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

TEST(UncertaintyText, HasTwoSignificantDigits) {
  struct Case {
    double value;
    const char* text;
    int decimals;
  };
  // Worked by hand from JCGM 100:2008 7.2.6 (no more than two significant digits), rounding half away from
  // zero.
  for (const Case& c : {Case{0.0123, "0.012", 3}, Case{0.0128, "0.013", 3}, Case{0.0996, "0.10", 2},
                        Case{0.099, "0.099", 3}, Case{0.1, "0.10", 2}, Case{1.0, "1.0", 1},
                        Case{1.26, "1.3", 1}, Case{9.96, "10", 0}, Case{12.3, "12", 0}, Case{123.0, "120", 0},
                        Case{1287.0, "1300", 0}, Case{0.00001234, "0.000012", 6}}) {
    EXPECT_EQ(uncertaintyText(c.value), c.text) << c.value;
    EXPECT_EQ(uncertaintyDecimals(c.value), c.decimals) << c.value;
  }
}

TEST(UncertaintyText, IsWithinFivePercentOfTheUncertainty) {
  // Two digits round by at most 0.5 in 10: no more than 5 % is ever lost.
  const unsigned seed = 20261125;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> exponent(-6.0, 4.0);
  for (int i = 0; i < 2000; ++i) {
    const double value = std::pow(10.0, exponent(random));
    const auto shown = parseNumber(uncertaintyText(value));
    ASSERT_TRUE(shown);
    EXPECT_LE(std::abs(shown->value - value), 0.0501 * value) << value;
  }
}

TEST(LimitsText, ShowsBothSides) {
  EXPECT_EQ(limitsText({-0.375, 0.375}, 2), "±0.375");
  EXPECT_EQ(limitsText({-0.1, 0.2}, 1), "-0.1 to +0.2");
  EXPECT_EQ(limitsText({-0.375, 0.375}, 3), "±0.375");
  EXPECT_EQ(limitsText({-1.0 / 3.0, 1.0 / 3.0}, 1), "±0.3333");  // three digits more than the error at most
  EXPECT_EQ(limitsText({-2.0, kInfinity}, 1), "at least -2.0");
  EXPECT_EQ(limitsText({-kInfinity, 1.0}, 1), "at most +1.0");
  EXPECT_EQ(limitsText({-kInfinity, kInfinity}, 1), "none");
}

TEST(FractionOfLimit, TakesTheSideOfTheError) {
  const ErrorLimits limits{-0.1, 0.4};
  EXPECT_DOUBLE_EQ(fractionOfLimit(0.2, limits), 0.5);
  EXPECT_DOUBLE_EQ(fractionOfLimit(-0.2, limits), 2.0);
  EXPECT_EQ(fractionOfLimit(0.0, {0.0, 0.0}), 0.0);
  EXPECT_EQ(fractionOfLimit(0.1, {0.0, 0.0}), kInfinity);
  EXPECT_EQ(fractionOfLimit(5.0, {-1.0, kInfinity}), 0.0);
}

TEST(TypedDecimals, OnlyForANumberThatWasRecorded) {
  EXPECT_EQ(typedDecimals("37.60", 37.6, Unit::celsius), 2);
  EXPECT_EQ(typedDecimals("37,60 degC", 37.6, Unit::celsius), 2);
  EXPECT_EQ(typedDecimals("98.6 degF", 37.0, Unit::celsius), std::nullopt);
  EXPECT_EQ(typedDecimals("1000", 100.0, Unit::celsius), std::nullopt);
  EXPECT_EQ(typedDecimals("", 0.0, Unit::celsius), std::nullopt);
}

Reading sample(double indicated, double limit, Verdict verdict) {
  Reading reading;
  reading.point.label = "25 % up";
  reading.point.appliedUnit = Unit::milliampere;
  reading.point.readingUnit = Unit::celsius;
  reading.applied = 8.0;
  reading.expected = 37.5;
  reading.indicated = indicated;
  reading.indicatedText = formatShortest(indicated);
  reading.limits = {-limit, limit};
  reading.expandedUncertainty = 0.12;
  reading.verdict = verdict;
  return reading;
}

TEST(CertificateRowText, ErrorHasTheDecimalsOfItsUncertainty) {
  const CertificateRow row = certificateRow(sample(37.6, 0.375, Verdict::pass), {0, 0.1, 150.0});
  EXPECT_EQ(row.error, "+0.10");
  EXPECT_EQ(row.expected, "37.50");
  EXPECT_EQ(row.reading, "37.6");
  EXPECT_EQ(row.uncertainty, "0.12");
  EXPECT_EQ(row.coverage, "2.00");
  EXPECT_EQ(row.percentOfSpan, "+0.067");  // 0.1 of 150
  EXPECT_EQ(row.fraction, "0.27");         // 0.1 of 0.375
}

TEST(CertificateRowText, RoundingNeverContradictsTheVerdict) {
  // The error 0.3751 with two decimals reads 0.38, above the limit: enough. 0.501 would read 0.50, on it.
  const CertificateRow over = certificateRow(sample(38.001, 0.5, Verdict::fail), {0, 0.001, 150.0});
  EXPECT_EQ(over.error, "+0.501");
  EXPECT_EQ(over.fraction, ">1.00");
  const CertificateRow on = certificateRow(sample(38.0, 0.5, Verdict::pass), {0, 0.1, 150.0});
  EXPECT_EQ(on.error, "+0.50");
  EXPECT_EQ(on.fraction, "1.00");
}

TEST(CertificateRowText, ConvertedReadingSaysWhatWasTyped) {
  Reading reading = sample(37.6, 0.375, Verdict::pass);
  reading.indicatedText = "99.68 degF";
  const CertificateRow row = certificateRow(reading, {0, 0.1, 150.0});
  EXPECT_EQ(row.reading, "37.6");  // by the reading's step
  EXPECT_EQ(row.readAs, "99.68 degF");
  EXPECT_EQ(row.appliedAs, "");
}

TEST(CertificateRowText, ConvertedAppliedValueHasNoMoreDigitsThanTheResult) {
  Reading reading = sample(37.6, 0.375, Verdict::pass);
  reading.appliedText = "80.31 ohm";
  reading.applied = -49.990637;
  const CertificateRow row = certificateRow(reading, {6, 0.1, 150.0});
  EXPECT_EQ(row.applied, "-49.99");
  EXPECT_EQ(row.appliedAs, "80.31 ohm");
  reading.appliedText.clear();
  EXPECT_EQ(certificateRow(reading, {6, 0.1, 150.0}).applied, "-49.990637");
  EXPECT_EQ(certificateRow(reading, {6, 0.1, 150.0}).appliedAs, "");
}

TEST(CertificateRowText, SkippedPointShowsNoNumbers) {
  Reading reading = sample(37.6, 0.375, Verdict::notJudged);
  reading.skipReason = "valve could not be isolated";
  const CertificateRow row = certificateRow(reading, {0, 0.1, 150.0});
  EXPECT_EQ(row.verdict, "skipped");
  EXPECT_EQ(row.note, "valve could not be isolated");
  for (const auto cell : {&CertificateRow::applied, &CertificateRow::expected, &CertificateRow::reading,
                          &CertificateRow::error, &CertificateRow::limits, &CertificateRow::uncertainty,
                          &CertificateRow::fraction, &CertificateRow::percentOfSpan}) {
    EXPECT_EQ(row.*cell, "");
  }
}

}  // namespace
}  // namespace spanwright
