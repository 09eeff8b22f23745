// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/sensor_classes.h"

#include <cmath>
#include <set>

#include "core/signal/rtd.h"
#include "tests/core/signal/support.h"

namespace spanwright {

inline std::ostream& operator<<(std::ostream& out, NoTolerance reason) {
  return out << text(reason);
}

namespace {

using test::kInf;
using test::kNan;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;

ClassTolerance none(NoTolerance reason) {
  return reason;
}

double toleranceOf(const ClassTolerance& tolerance) {
  if (const auto* value = std::get_if<double>(&tolerance))
    return *value;
  ADD_FAILURE() << "no tolerance: " << text(std::get<NoTolerance>(tolerance));
  return kNan;
}

ThermocoupleClass coupleClassIn(const test::CsvRow& row) {
  static const std::map<std::string, ThermocoupleClass> kNames{{"1", ThermocoupleClass::class1},
                                                               {"2", ThermocoupleClass::class2},
                                                               {"3", ThermocoupleClass::class3},
                                                               {"standard", ThermocoupleClass::astmStandard}};
  return kNames.at(row.at("class"));
}

/// The published row's own words, worked out apart from the code.
double byReferenceRow(const test::CsvRow& row, double t) {
  const std::string& rule = row.at("rule");
  const double relative = numberIn(row, "rel");
  if (rule == "max(fixed; rel*|t|)")
    return std::max(numberIn(row, "fixed_degC"), relative * std::abs(t));
  if (rule == "rel*|t|")
    return relative * std::abs(t);
  if (rule == "fixed")
    return numberIn(row, "fixed_degC");
  if (rule == "fixed + rel*(t-ref)")
    return numberIn(row, "fixed_degC") + relative * (t - numberIn(row, "ref_degC"));
  throw std::runtime_error("unknown rule " + rule);
}

TEST(ThermocoupleClasses, FollowEveryPublishedRowOverItsRange) {
  int rows = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_tolerances.csv"))) {
    const auto type = parseThermocoupleType(row.at("type")).value();
    const auto coupleClass = coupleClassIn(row);
    const double low = numberIn(row, "t_min_degC");
    const double high = numberIn(row, "t_max_degC");
    for (int i = 0; i <= 400; ++i) {
      const double t = low + (high - low) * i / 400.0;
      if (t == 0.0 && byReferenceRow(row, t) == 0.0)
        continue;  // 1 % of 0 degC is no tolerance, see below
      EXPECT_NEAR(toleranceOf(thermocoupleTolerance(type, coupleClass, {t})), byReferenceRow(row, t), 1e-12)
          << row.at("type") << " " << row.at("class") << " " << t;
    }
    ++rows;
  }
  EXPECT_EQ(rows, 24);
}

TEST(ThermocoupleClasses, EndWhereThePublishedRowsEnd) {
  // Several rows of one class make one range.
  std::map<std::pair<std::string, std::string>, std::pair<double, double>> ranges;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_tolerances.csv"))) {
    auto [at, isNew] = ranges.try_emplace({row.at("type"), row.at("class")}, numberIn(row, "t_min_degC"),
                                          numberIn(row, "t_max_degC"));
    at->second.first = std::min(at->second.first, numberIn(row, "t_min_degC"));
    at->second.second = std::max(at->second.second, numberIn(row, "t_max_degC"));
  }
  int defined = 0;
  for (const char* letter : {"B", "C", "E", "J", "K", "N", "R", "S", "T"}) {
    for (const char* name : {"1", "2", "3", "standard"}) {
      const auto type = parseThermocoupleType(letter).value();
      const auto coupleClass = coupleClassIn({{"class", name}});
      const auto published = ranges.find({letter, name});
      const auto range = classRange(type, coupleClass);
      ASSERT_EQ(range.has_value(), published != ranges.end()) << letter << name;
      if (!range) {
        EXPECT_EQ(thermocoupleTolerance(type, coupleClass, {700.0}), none(NoTolerance::noSuchClass));
        continue;
      }
      ++defined;
      const auto [low, high] = published->second;
      EXPECT_EQ(range->low.value, low) << letter << name;
      EXPECT_EQ(range->high.value, high) << letter << name;
      EXPECT_EQ(thermocoupleTolerance(type, coupleClass, {low - 0.001}), none(NoTolerance::belowClass));
      EXPECT_EQ(thermocoupleTolerance(type, coupleClass, {high + 0.001}), none(NoTolerance::aboveClass));
    }
  }
  EXPECT_EQ(defined, 22);
}

TEST(ThermocoupleClasses, GiveTheWorkedExamples) {
  int checked = 0;
  int undefined = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_tolerance_examples.csv"))) {
    const ClassTolerance tolerance = thermocoupleTolerance(parseThermocoupleType(row.at("type")).value(),
                                                           coupleClassIn(row), {numberIn(row, "t_degC")});
    ++checked;
    if (row.at("tolerance_degC") == "not_defined") {
      EXPECT_TRUE(std::holds_alternative<NoTolerance>(tolerance)) << row.at("type") << row.at("t_degC");
      ++undefined;
    } else {
      EXPECT_NEAR(toleranceOf(tolerance), numberIn(row, "tolerance_degC"), 1e-12)
          << row.at("type") << row.at("t_degC");
    }
  }
  EXPECT_EQ(checked, 29);
  EXPECT_EQ(undefined, 4);
}

TEST(ThermocoupleClasses, NeverGiveZeroOrTakeWhatIsNoNumber) {
  EXPECT_EQ(thermocoupleTolerance(ThermocoupleType::C, ThermocoupleClass::astmStandard, {0.0}),
            none(NoTolerance::belowClass));
  for (const double bad : {kNan, kInf, -kInf})
    EXPECT_EQ(thermocoupleTolerance(ThermocoupleType::K, ThermocoupleClass::class1, {bad}),
              none(NoTolerance::notANumber));
  // The end of a range come back from degF a rounding too far is still inside.
  const double end =
      *convert(*convert(1200.0, Unit::celsius, Unit::fahrenheit), Unit::fahrenheit, Unit::celsius);
  EXPECT_NEAR(toleranceOf(thermocoupleTolerance(ThermocoupleType::K, ThermocoupleClass::class2, {end})), 9.0,
              1e-9);
}

std::optional<RtdClass> rtdClassIn(const test::CsvRow& row) {
  for (const RtdClass each : {RtdClass::aa, RtdClass::a, RtdClass::b, RtdClass::c})
    if (text(each) == row.at("class"))
      return each;
  return std::nullopt;
}

std::optional<RtdResistorClass> resistorClassIn(const test::CsvRow& row) {
  for (int i = 0; i <= static_cast<int>(RtdResistorClass::f06); ++i)
    if (text(static_cast<RtdResistorClass>(i)) == row.at("class"))
      return static_cast<RtdResistorClass>(i);
  return std::nullopt;
}

TEST(RtdClasses, FollowEveryPublishedRowAndItsRange) {
  int thermometers = 0;
  int resistors = 0;
  for (const auto& row : readReferenceCsv(signalReference("rtd_tolerance_classes.csv"))) {
    const bool thermometer = row.at("item") == "thermometer";
    const auto rtdClass = rtdClassIn(row);
    const auto resistor = resistorClassIn(row);
    const auto construction = parseRtdConstruction(row.at("construction"));
    ASSERT_TRUE(construction && (thermometer ? rtdClass.has_value() : resistor.has_value()))
        << row.at("class");
    const auto tolerance = [&](double t) {
      return thermometer ? rtdTolerance(*rtdClass, *construction, {t}) : rtdTolerance(*resistor, {t});
    };
    const CelsiusRange range = thermometer ? classRange(*rtdClass, *construction) : classRange(*resistor);
    const double low = numberIn(row, "t_min_degC");
    const double high = numberIn(row, "t_max_degC");
    EXPECT_EQ(range.low.value, low) << row.at("class");
    EXPECT_EQ(range.high.value, high) << row.at("class");
    for (int i = 0; i <= 100; ++i) {
      const double t = low + (high - low) * i / 100.0;
      EXPECT_NEAR(toleranceOf(tolerance(t)),
                  numberIn(row, "fixed_degC") + numberIn(row, "slope") * std::abs(t), 1e-12);
    }
    EXPECT_EQ(tolerance(low - 0.01), none(NoTolerance::belowClass)) << row.at("class");
    EXPECT_EQ(tolerance(high + 0.01), none(NoTolerance::aboveClass)) << row.at("class");
    EXPECT_EQ(tolerance(kNan), none(NoTolerance::notANumber));
    ++(thermometer ? thermometers : resistors);
  }
  EXPECT_EQ(thermometers, 8);
  EXPECT_EQ(resistors, 8);
}

TEST(RtdClasses, GiveTheWorkedExamplesInKelvinAndOhm) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("rtd_tolerance_examples.csv"))) {
    const Celsius t{numberIn(row, "t_degC")};
    const auto construction = parseRtdConstruction(row.at("construction"));
    const ClassTolerance tolerance = rtdTolerance(rtdClassIn(row).value(), construction.value(), t);
    ++checked;
    if (row.at("within_class_range") == "no") {
      EXPECT_TRUE(std::holds_alternative<NoTolerance>(tolerance));
      EXPECT_EQ(inOhms(tolerance, RtdElement::pt100, t), tolerance);
      continue;
    }
    EXPECT_NEAR(toleranceOf(tolerance), numberIn(row, "tolerance_degC"), 1e-12);
    EXPECT_EQ(formatFixed(toleranceOf(inOhms(tolerance, RtdElement::pt100, t)), 4),
              row.at("tolerance_Pt100_ohm"));
    EXPECT_NEAR(toleranceOf(inOhms(tolerance, RtdElement::pt1000, t)),
                10.0 * toleranceOf(inOhms(tolerance, RtdElement::pt100, t)), 1e-12);
  }
  EXPECT_EQ(checked, 12);
}

TEST(RtdClasses, RuleGivesThePrintedTable) {
  int checked = 0;
  int printedOtherwise = 0;
  for (const auto& row : readReferenceCsv(signalReference("rtd_tolerance_table.csv"))) {
    const double t = numberIn(row, "t_degC");
    const RtdClassRule rule = rtdClassRule(rtdClassIn(row).value());
    const double kelvin = rule.fixed + rule.perKelvin * std::abs(t);
    EXPECT_NEAR(kelvin, numberIn(row, "rule_tolerance_degC"), 1e-12) << t;
    const double ohms = toleranceOf(inOhms(kelvin, RtdElement::pt100, {t}));
    EXPECT_EQ(formatFixed(ohms, 4), row.at("rule_tolerance_ohm")) << t;
    // Above 600 degC the printed table rounds three class B figures up, as its own note says.
    if (row.at("note").empty()) {
      EXPECT_EQ(formatFixed(ohms, 2), row.at("printed_tolerance_ohm")) << t;
    } else {
      ++printedOtherwise;
    }
    ++checked;
  }
  EXPECT_EQ(checked, 23);
  EXPECT_EQ(printedOtherwise, 3);
}

TEST(RtdClasses, KnowTheirConstructions) {
  EXPECT_EQ(parseRtdConstruction("wire"), RtdConstruction::wire);
  for (const auto each : {RtdConstruction::wire, RtdConstruction::film})
    EXPECT_EQ(parseRtdConstruction(text(each)), each);
  for (const char* bad : {"", "thick", "wirefilm"})
    EXPECT_FALSE(parseRtdConstruction(bad).has_value()) << bad;
}

}  // namespace
}  // namespace spanwright
