// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/thermocouple.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <vector>

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kInf;
using test::kNan;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;
using test::valueOf;
using test::why;

constexpr ThermocoupleType kTypes[] = {ThermocoupleType::B, ThermocoupleType::C, ThermocoupleType::E,
                                       ThermocoupleType::J, ThermocoupleType::K, ThermocoupleType::N,
                                       ThermocoupleType::R, ThermocoupleType::S, ThermocoupleType::T};

ThermocoupleType typeIn(const test::CsvRow& row) {
  return parseThermocoupleType(row.at("type")).value();
}

TEST(Thermocouple, GivesTheWholePrintedTable) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_emf_table.csv"))) {
    const auto type = typeIn(row);
    const Celsius t{numberIn(row, "t_degC")};
    const double emf = valueOf(thermocoupleMillivolts(type, t));
    EXPECT_EQ(formatFixed(emf, 3), row.at("emf_printed_mV")) << row.at("type") << " " << t.value;
    EXPECT_NEAR(emf, numberIn(row, "emf_function_mV"), 0.51e-6) << row.at("type") << " " << t.value;
    // The reference slopes are differences over 1 mK to both sides, cut at the ends of the range. They show
    // the steps of 0.1 nV and less where two pieces of a function meet, which a derivative does not.
    const CelsiusRange range = thermocoupleRange(type);
    const double below = std::max(range.low.value, t.value - 0.001);
    const double above = std::min(range.high.value, t.value + 0.001);
    const double difference =
        1000.0 / (above - below) *
        (valueOf(thermocoupleMillivolts(type, {above})) - valueOf(thermocoupleMillivolts(type, {below})));
    const double slope = numberIn(row, "seebeck_uV_per_degC");
    EXPECT_NEAR(difference, slope, 0.51e-3) << row.at("type") << " " << t.value;
    const bool meeting =
        (type == ThermocoupleType::J && t.value == 760.0) || (type == ThermocoupleType::K && t.value == 0.0);
    if (!meeting && below < t.value && above > t.value) {
      EXPECT_NEAR(valueOf(seebeckMicrovoltsPerKelvin(type, t)), slope, 0.51e-3)
          << row.at("type") << " " << t.value;
    }
    ++checked;
  }
  EXPECT_EQ(checked, 135);
}

// A second road: the published coefficients read from their file and summed power by power in long double.
TEST(Thermocouple, IsThePublishedPolynomialEverywhere) {
  struct Piece {
    std::map<int, long double> powers;
    std::map<std::string, long double> exponential;
  };
  std::map<std::string, std::map<std::pair<double, double>, Piece>> types;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_forward_coefficients.csv"))) {
    Piece& piece = types[row.at("type")][{numberIn(row, "t_min_degC"), numberIn(row, "t_max_degC")}];
    if (row.at("term") == "poly")
      piece.powers[static_cast<int>(numberIn(row, "power"))] = std::stold(row.at("value"));
    else
      piece.exponential[row.at("term")] = std::stold(row.at("value"));
  }
  ASSERT_EQ(types.size(), std::size(kTypes));
  for (const auto& [name, pieces] : types) {
    const auto type = parseThermocoupleType(name).value();
    EXPECT_EQ(thermocoupleRange(type).low.value, pieces.begin()->first.first);
    EXPECT_EQ(thermocoupleRange(type).high.value, pieces.rbegin()->first.second);
    for (const auto& [range, piece] : pieces) {
      for (int i = 1; i <= 1000; ++i) {
        const double t = range.first + (range.second - range.first) * i / 1000.0;
        long double emf = 0.0L;
        for (const auto& [power, value] : piece.powers)
          emf += value * std::pow(static_cast<long double>(t), power);
        if (!piece.exponential.empty()) {
          const long double d = t - piece.exponential.at("exp_a2");
          emf += piece.exponential.at("exp_a0") * std::exp(piece.exponential.at("exp_a1") * d * d);
        }
        // Rounding of terms that cancel, worst for type T near -270 degC with its fifteen powers: 0.1 pV.
        ASSERT_NEAR(valueOf(thermocoupleMillivolts(type, {t})), static_cast<double>(emf), 1e-10)
            << name << " " << t;
      }
    }
  }
}

TEST(Thermocouple, EndsWhereTheTablesEnd) {
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_ranges.csv"))) {
    const auto type = typeIn(row);
    const CelsiusRange range = thermocoupleRange(type);
    EXPECT_EQ(range.low.value, numberIn(row, "t_min_degC"));
    EXPECT_EQ(range.high.value, numberIn(row, "t_max_degC"));
    EXPECT_NEAR(valueOf(thermocoupleMillivolts(type, range.low)), numberIn(row, "e_at_t_min_mV"), 0.51e-3);
    EXPECT_NEAR(valueOf(thermocoupleMillivolts(type, range.high)), numberIn(row, "e_at_t_max_mV"), 0.51e-3);
    EXPECT_EQ(thermocoupleMillivolts(type, {range.low.value - 0.01}), why(RangeResult::belowFunction));
    EXPECT_EQ(thermocoupleMillivolts(type, {range.high.value + 0.01}), why(RangeResult::aboveFunction));
    EXPECT_EQ(seebeckMicrovoltsPerKelvin(type, {range.high.value + 0.01}), why(RangeResult::aboveFunction));
    const double last = valueOf(thermocoupleMillivolts(type, range.high));
    EXPECT_EQ(thermocoupleCelsius(type, {last + 0.001}), why(RangeResult::aboveFunction));
    EXPECT_EQ(thermocoupleCelsius(type, {-20.0}), why(RangeResult::belowFunction));
    EXPECT_EQ(thermocoupleCelsius(type, {1.0}, {-300.0}), why(RangeResult::belowFunction));
    EXPECT_EQ(thermocoupleCelsius(type, {1.0}, {3000.0}), why(RangeResult::aboveFunction));
    EXPECT_NEAR(valueOf(thermocoupleCelsius(type, {last})), range.high.value, 1e-6);
  }
}

TEST(Thermocouple, TypeCFollowsItsCoefficients) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_type_c_values.csv"))) {
    const Celsius t{numberIn(row, "t_degC")};
    EXPECT_NEAR(valueOf(thermocoupleMillivolts(ThermocoupleType::C, t)), numberIn(row, "emf_function_mV"),
                0.51e-6);
    EXPECT_NEAR(valueOf(seebeckMicrovoltsPerKelvin(ThermocoupleType::C, t)),
                numberIn(row, "seebeck_uV_per_degC"), 0.51e-3);
    ++checked;
  }
  EXPECT_EQ(checked, 8);
}

TEST(Thermocouple, InvertsTheWorkedExamples) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_inverse_examples.csv"))) {
    const double t = valueOf(thermocoupleCelsius(typeIn(row), {numberIn(row, "emf_printed_mV")}));
    EXPECT_NEAR(t, numberIn(row, "t_numeric_inverse_degC"), 0.51e-5)
        << row.at("type") << row.at("emf_printed_mV");
    EXPECT_NEAR(t, numberIn(row, "t_table_degC"), numberIn(row, "allowed_difference_from_table_degC"));
    ++checked;
  }
  EXPECT_EQ(checked, 32);
}

struct InverseSegment {
  test::CsvRow row;
  std::map<int, double> powers;
  double celsius(double emf) const {
    double sum = 0.0;
    for (auto power = powers.rbegin(); power != powers.rend(); ++power)
      sum = sum * emf + power->second;
    return sum;
  }
};

std::vector<InverseSegment> publishedInverse() {
  std::vector<InverseSegment> segments;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_inverse_ranges.csv")))
    segments.push_back({row, {}});
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_inverse_coefficients.csv"))) {
    for (InverseSegment& segment : segments) {
      if (segment.row.at("type") == row.at("type") && segment.row.at("segment") == row.at("segment"))
        segment.powers[static_cast<int>(numberIn(row, "power"))] = numberIn(row, "value");
    }
  }
  return segments;
}

// The published inverse polynomials are approximations with published limits of error (approximate less
// exact), rounded, so that half a digit more is allowed. The exact inverse here must find the same.
TEST(Thermocouple, AgreesWithThePublishedInverseWithinItsPublishedError) {
  int checked = 0, coefficients = 0;
  for (const InverseSegment& segment : publishedInverse()) {
    const auto type = typeIn(segment.row);
    const std::string name = segment.row.at("type") + segment.row.at("segment");
    const double low = numberIn(segment.row, "t_min_degC"), high = numberIn(segment.row, "t_max_degC");
    // Coefficients of nothing may stand in the table; none may be missing.
    ASSERT_FALSE(segment.powers.empty()) << name;
    ASSERT_EQ(static_cast<int>(segment.powers.size()), segment.powers.rbegin()->first + 1) << name;
    double least = kInf, most = -kInf;
    for (int i = 0; i <= 20000; ++i) {
      const double emf = valueOf(thermocoupleMillivolts(type, {low + (high - low) * i / 20000.0}));
      const double error = segment.celsius(emf) - valueOf(thermocoupleCelsius(type, {emf}));
      least = std::min(least, error);
      most = std::max(most, error);
    }
    const auto within = [&](double found, const std::string& which) {
      const auto published = parseNumber(segment.row.at("published_error_" + which + "_degC")).value();
      const double halfDigit = 0.5 * std::pow(10.0, -published.decimals);
      EXPECT_LE(std::abs(found), std::abs(published.value) + halfDigit) << name << " " << which;
      // Found once before, on another grid and by another program.
      EXPECT_NEAR(found, numberIn(segment.row, "computed_error_" + which + "_degC"), 2e-5)
          << name << " " << which;
    };
    within(least, "min");
    within(most, "max");
    coefficients += static_cast<int>(segment.powers.size());
    ++checked;
  }
  EXPECT_EQ(checked, 23);
  EXPECT_EQ(coefficients, 225);
}

TEST(Thermocouple, AllowsForAWarmReferenceJunction) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_cold_junction_examples.csv"))) {
    const auto type = typeIn(row);
    const Celsius reference{numberIn(row, "t_reference_degC")};
    const double measured = numberIn(row, "emf_measured_mV");
    // Half a digit of the emf as it is written, or of the temperature.
    const double emfHalfDigit = 0.51 * std::pow(10.0, -parseNumber(row.at("emf_measured_mV"))->decimals);
    if (row.at("case") == "forward") {
      const Celsius hot{numberIn(row, "t_hot_degC")};
      EXPECT_NEAR(valueOf(thermocoupleMillivolts(type, hot, reference)), measured, emfHalfDigit) << hot.value;
      const double slope = valueOf(seebeckMicrovoltsPerKelvin(type, hot)) / 1000.0;
      EXPECT_NEAR(valueOf(thermocoupleCelsius(type, {measured}, reference)), hot.value,
                  emfHalfDigit / slope * 1.01);
    } else {
      EXPECT_NEAR(valueOf(thermocoupleCelsius(type, {measured}, reference)),
                  numberIn(row, "t_hot_expected_degC"), 0.51e-4);
    }
    ++checked;
  }
  EXPECT_EQ(checked, 14);
}

TEST(Thermocouple, ComesBackToTheSameTemperature) {
  for (const auto type : kTypes) {
    const CelsiusRange range = thermocoupleRange(type);
    const double low = type == ThermocoupleType::B ? 43.0 : range.low.value;
    for (int i = 0; i <= 20000; ++i) {
      const double t = low + (range.high.value - low) * i / 20000.0;
      const double emf = valueOf(thermocoupleMillivolts(type, {t}));
      const double back = valueOf(thermocoupleCelsius(type, {emf}));
      ASSERT_NEAR(back, t, 1e-9 * (range.high.value - low)) << text(type) << " " << t;
      ASSERT_NEAR(valueOf(thermocoupleMillivolts(type, {back})), emf, 1e-10) << text(type) << " " << t;
    }
  }
}

TEST(Thermocouple, SeebeckIsTheDerivative) {
  for (const auto type : kTypes) {
    const CelsiusRange range = thermocoupleRange(type);
    const double h = 1e-3;
    for (int i = 1; i < 3000; ++i) {
      const double t = range.low.value + 0.0137 + (range.high.value - range.low.value - 0.03) * i / 3000.0;
      const double numeric =
          1000.0 *
          (valueOf(thermocoupleMillivolts(type, {t + h})) - valueOf(thermocoupleMillivolts(type, {t - h}))) /
          (2.0 * h);
      ASSERT_NEAR(valueOf(seebeckMicrovoltsPerKelvin(type, {t})), numeric, 1e-4) << text(type) << " " << t;
    }
  }
}

TEST(Thermocouple, RisesEverywhereButInTypeB) {
  for (const auto type : kTypes) {
    const CelsiusRange range = thermocoupleRange(type);
    const double low = type == ThermocoupleType::B ? 22.0 : range.low.value;
    for (int i = 0; i <= 20000; ++i) {
      const double t = low + (range.high.value - low) * i / 20000.0;
      ASSERT_GT(valueOf(seebeckMicrovoltsPerKelvin(type, {t})), 0.0) << text(type) << " " << t;
    }
  }
}

TEST(Thermocouple, TypeBHasNoSingleAnswerNearRoomTemperature) {
  const auto B = ThermocoupleType::B;
  for (const double t : {0.0, 10.0, 20.0, 21.02, 30.0, 42.0}) {
    const double emf = valueOf(thermocoupleMillivolts(B, {t}));
    EXPECT_EQ(thermocoupleCelsius(B, {emf}), why(RangeResult::notMonotonic)) << t;
  }
  EXPECT_EQ(thermocoupleCelsius(B, {-0.003}), why(RangeResult::belowFunction));
  EXPECT_NEAR(valueOf(thermocoupleCelsius(B, {1e-6})), 42.2, 0.1);  // just past the zero crossing
  EXPECT_NEAR(valueOf(thermocoupleCelsius(B, {valueOf(thermocoupleMillivolts(B, {50.0}))})), 50.0, 1e-6);
}

TEST(Thermocouple, RefusesWhatIsNoNumber) {
  for (const double bad : {kNan, kInf, -kInf}) {
    EXPECT_EQ(thermocoupleMillivolts(ThermocoupleType::K, {bad}), why(RangeResult::notANumber));
    EXPECT_EQ(thermocoupleCelsius(ThermocoupleType::K, {bad}), why(RangeResult::notANumber));
    EXPECT_EQ(thermocoupleCelsius(ThermocoupleType::K, {1.0}, {bad}), why(RangeResult::notANumber));
    EXPECT_EQ(seebeckMicrovoltsPerKelvin(ThermocoupleType::K, {bad}), why(RangeResult::notANumber));
  }
}

TEST(Thermocouple, KnowsItsLetters) {
  for (const auto type : kTypes)
    EXPECT_EQ(parseThermocoupleType(text(type)), type);
  EXPECT_EQ(parseThermocoupleType(" k "), ThermocoupleType::K);
  for (const char* bad : {"", "A", "KK", "type K", "1"})
    EXPECT_FALSE(parseThermocoupleType(bad).has_value()) << bad;
}

}  // namespace
}  // namespace spanwright
