// SPDX-License-Identifier: GPL-3.0-or-later
//
// mV of a couple fed or measured through copper leads: the visit's reference junction, from what is typed to
// what is stored, traced and recomputed.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>

#include "core/record/reference_junction.h"
#include "core/signal/thermocouple.h"
#include "core/tasks/advice.h"
#include "core/tasks/certificate_value.h"
#include "core/tasks/point_uncertainty.h"
#include "core/tasks/reach.h"
#include "core/tasks/trace.h"
#include "tests/core/tasks/record_fixture.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

using test::day;
using test::moment;
using test::visitTo;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

class Junction : public test::RecordTest {
 protected:
  Plan& plan(std::string_view code) {
    return *std::find_if(site_.plans.begin(), site_.plans.end(),
                         [&](const Plan& each) { return each.code == code; });
  }
  /// TE-501, TC-3: a type K input of 0 to 400 degC, +/- 2 degC, points 0, 200 and 400 degC.
  ThermocoupleSetup& input() {
    return std::get<ThermocoupleSetup>(site_.channels.back().setups.front().setup.kind);
  }
  /// A visit to TE-501, each reading with what was fed.
  static ProposedVisit fed(const std::vector<std::pair<std::string, std::string>>& mVAndReadings,
                           std::optional<double> junction) {
    ProposedVisit visit = visitTo("TE-501", "2026-02-20T09:30", {}, {}, {"VM-7"});
    for (const auto& [mV, reading] : mVAndReadings) {
      visit.asFound.push_back(test::typed(reading.c_str(), mV.c_str()));
    }
    visit.conditions.referenceJunction = junction;
    return visit;
  }
  /// Makes the sensor of TT-101 a bare type K couple of 0 to 200 degC, with a bath and a voltmeter.
  ProposedVisit onTheBench(const std::vector<const char*>& readings, std::optional<double> junction) {
    SensorRange& range = site_.sensors.front().range;
    range.process = {0, 200, Unit::celsius};
    range.output.reset();
    range.thermocouple = ThermocoupleType::K;
    // No loop or channel of it: the input of TT-101 takes a current.
    ProposedVisit visit = visitTo("TT-101", "2026-02-20T09:30", readings, {}, {"TB-3", "VM-7"});
    visit.subject = Subject::sensor;
    visit.conditions.referenceJunction = junction;
    return visit;
  }
  std::vector<std::string> problems(const ProposedVisit& visit) {
    site_.index();
    return test::sentences(checkVisit(site_, visit, test::kNow, false));
  }
  Calibration checked(const ProposedVisit& visit) {
    site_.index();
    const CheckedVisit result = checkVisit(site_, visit, test::kNow, false);
    for (const Problem& each : result.problems) {
      ADD_FAILURE() << sentence(each);
    }
    return result.calibration.value_or(Calibration{});
  }
};

double numberOf(const test::CsvRow& row, const char* key) {
  return parseNumber(row.at(key)).value().value;
}

// tests/reference/signals/thermocouple_cold_junction_examples.csv: every row as a visit to an input whose one
// point is the temperature expected there.
TEST_F(Junction, TheExamplesGoThroughAWholeVisit) {
  plan("TC-3").scheme.percents = {50};
  int rows = 0;
  for (const auto& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/signals/thermocouple_cold_junction_examples.csv")) {
    const double hot = numberOf(row, "t_hot_expected_degC");
    const double reference = numberOf(row, "t_reference_degC");
    const auto type = parseThermocoupleType(row.at("type"));
    ASSERT_TRUE(type.has_value());
    input().type = *type;
    input().range = {hot - 60.0, hot + 60.0, Unit::celsius};
    const std::string mV = row.at("emf_measured_mV") + " mV";
    const Calibration made = checked(fed({{mV, row.at("t_hot_expected_degC")}}, reference));
    ASSERT_EQ(made.asFound.size(), 1U) << mV;
    const Reading& reading = made.asFound.front();
    // Emf to 1e-6 mV, or a temperature to 1e-4 degC: at the flattest function (B at 1600, 11.7 uV/K) the
    // first is 4e-5 degC.
    EXPECT_NEAR(reading.applied, hot, 1e-4) << mV;
    EXPECT_NEAR(reading.error(), 0.0, 1e-4) << mV;
    EXPECT_EQ(reading.verdict, Verdict::pass) << mV;
    EXPECT_EQ(reading.appliedText, mV);
    EXPECT_EQ(made.conditions.referenceJunction, reference);
    if (reference >= 20.0 && *type != ThermocoupleType::B) {
      // Taken as emf referred to 0 degC it is another temperature by far.
      EXPECT_THAT(problems(fed({{mV, row.at("t_hot_expected_degC")}}, std::nullopt)),
                  Contains(HasSubstr("no point of plan TC-3 is applied at")))
          << mV;
    }
    ++rows;
  }
  EXPECT_EQ(rows, 14);
}

// 1.1 mV at a reference junction of 23 degC are 49.9079 degC ("compensate" of the examples); 2.023 mV are 50
// degC referred to 0 degC (thermocouple_emf_table.csv), but not there.
TEST_F(Junction, RefusesAValueOfAnotherPointAndSaysWhatItsOwnIs) {
  input().range = {0, 99.8158, Unit::celsius};
  EXPECT_THAT(problems(fed({{"-0.919 mV", "0"}, {"2.023 mV", "49.9"}, {"3.174 mV", "99.8"}}, 23.0)),
              ElementsAre(HasSubstr("no point of plan TC-3 is applied at \"2.023 mV\"")));
  auto visit = fed({{"-0.919 mV", "0"}, {"2.023 mV", "49.9"}, {"3.174 mV", "99.8"}}, 23.0);
  for (int i = 0; i < 3; ++i) {
    visit.asFound[static_cast<std::size_t>(i)].sequence = i + 1;
  }
  EXPECT_THAT(
      problems(visit),
      ElementsAre(AllOf(HasSubstr("is too far from the 49.9079 degC of this point"),
                        HasSubstr("with the reference junction at 23 degC the point is at 1.100 mV"))));
}

// 8.138 mV for 200 degC (thermocouple_emf_table.csv), less 0.919 mV for 23 degC (printed NIST ITS-90 table,
// from memory).
TEST_F(Junction, MillivoltsOfACertificateAreTakenThroughTheFunctionThere) {
  site_.index();
  auto sheet = std::get<VisitSheet>(openSheet(site_, "TE-501", Subject::channel, moment("2026-02-20T09:30")));
  EXPECT_NEAR(fromRange(sheet, 8.138, Unit::millivolt, Unit::celsius).value(), 200.0, 0.02);
  sheet.referenceJunction = 23.0;
  EXPECT_NEAR(fromRange(sheet, 7.219, Unit::millivolt, Unit::celsius).value(), 200.0, 0.02);
}

TEST_F(Junction, IsStoredTracedAndRecomputed) {
  // 8.138 and 16.397 mV for 200 and 400 degC (thermocouple_emf_table.csv), less 0.919 for 23 degC (printed
  // NIST ITS-90 table, from memory; 1.1 mV at 23 degC being 49.9079 degC bears it out).
  const CalibrationId id =
      add(fed({{"-0.919 mV", "0.1"}, {"7.219 mV", "200.2"}, {"15.478 mV", "400.1"}}, 23.0));
  const Calibration stored = store().calibration(id).value();
  EXPECT_EQ(stored.conditions.referenceJunction, 23.0);
  ASSERT_EQ(stored.asFound.size(), 3U);
  EXPECT_NEAR(stored.asFound[1].applied, 200.0, 0.02);
  EXPECT_NEAR(stored.asFound[2].applied, 400.0, 0.02);
  const CalibrationTrace trace = traceCalibration(store(), id);
  EXPECT_TRUE(trace.agrees());
  // The standard fed what was typed.
  EXPECT_NEAR(trace.readings.at(1).values.at(0).at, 7.219, 1e-9);
  EXPECT_EQ(trace.readings.at(1).values.at(0).certificateUnit, Unit::millivolt);
  EXPECT_TRUE(std::holds_alternative<VisitAdvice>(adviseCalibration(store().site(), stored, Phase::asFound)));

  FoundErrors found;
  found.foundOn = day(2026, 2, 25);
  found.certificate = "C-8";
  found.ranges = {{Unit::millivolt, 0.0, {{-10, 0.1, 0}, {60, 0.1, 0}}}};
  const auto points = reachOfStandard(store(), "VM-7", found).calibrations.at(0).points;
  EXPECT_NEAR(points[1].standardValue.value(), 7.219, 1e-9);
  EXPECT_NEAR(points[1].newError.value() - points[1].oldError, 0.1 / 0.0399,
              0.02);  // 39.965 uV/K at 200 degC

  Calibration other = stored;
  other.conditions.referenceJunction = std::nullopt;
  other.performed += boost::posix_time::minutes(1);
  EXPECT_FALSE(traceCalibration(store(), store().add(other)).agrees());
}

// 100 degC and 25 degC of the examples: the meter shows 3.095988 mV, the couple gives 4.096230 mV.
TEST_F(Junction, OfABareCoupleIsAddedToWhatTheMeterShows) {
  plan("TX-3").tolerance = test::plusMinus({.absolute = 0.05});
  const ProposedVisit visit = onTheBench({"-1.000242", "3.095988 mV", "7.138231 mV"}, 25.0);
  const CalibrationId id = add(visit);
  const Calibration stored = store().calibration(id).value();
  const double emf[] = {0.0, 4.096230, 8.138473};  // thermocouple_emf_table.csv
  const double metered[] = {-1.000242, 3.095988, 7.138231};
  const CalibrationTrace trace = traceCalibration(store(), id);
  EXPECT_TRUE(trace.agrees());
  for (const std::size_t i : {0U, 1U, 2U}) {
    EXPECT_NEAR(stored.asFound[i].indicated, emf[i], 2e-6);
    EXPECT_NEAR(stored.asFound[i].error(), 0.0, 2e-6);
    ASSERT_EQ(trace.readings.at(i).values.size(), 2U);
    EXPECT_NEAR(trace.readings[i].values[1].value, metered[i], 1e-9);
  }
  FoundErrors found;
  found.foundOn = day(2026, 2, 25);
  found.certificate = "C-8";
  found.ranges = {{Unit::millivolt, 0.0, {{-10, 0.02, 0}, {60, 0.02, 0}}}};
  const Reach reach = reachOfStandard(store(), "VM-7", found);
  for (const ReachedPoint& point : reach.calibrations.at(0).points) {
    EXPECT_NEAR(point.newError.value(), -0.02, 3e-6) << point.label;
  }
}

TEST_F(Junction, ATemperatureSomebodyElseMadeOfTheMillivoltsStandsForItself) {
  const ProposedVisit visit = onTheBench({"-1.000242 mV", "100.0 degC", "7.138231 mV"}, 25.0);
  const Calibration made = checked(visit);
  ASSERT_EQ(made.asFound.size(), 3U);
  EXPECT_NEAR(made.asFound[1].indicated, 4.096230, 1e-6);
  const Calibration fedAsDegrees = checked(fed({{"0", "0.1"}, {"200", "200.1"}, {"400", "400.1"}}, 23.0));
  ASSERT_EQ(fedAsDegrees.asFound.size(), 3U);
  EXPECT_EQ(fedAsDegrees.asFound[1].applied, 200.0);
}

// Type K (thermocouple_emf_table.csv): 40.518 uV/K at 25 degC, 39.965 at 200.
TEST_F(Junction, ItsUncertaintyCountsByTheSlopeThere) {
  plan("TC-3").junctionUncertainty = 0.4;
  site_.index();
  auto sheet = std::get<VisitSheet>(openSheet(site_, "TE-501", Subject::channel, moment("2026-02-20T09:30")));
  sheet.referenceJunction = 25.0;
  const auto judged = judge(sheet, sheet.points.at(1), {"7.138 mV", "200.4", ""}, {});
  const auto budget = pointBudget(sheet, std::get<Reading>(judged), {site_.standard("VM-7")});
  ASSERT_TRUE(budget.has_value());
  const auto line = std::find_if(budget->lines.begin(), budget->lines.end(),
                                 [](const BudgetLine& each) { return each.name == "reference junction"; });
  ASSERT_NE(line, budget->lines.end());
  EXPECT_NEAR(line->sensitivity, 40.518 / 39.965, 5e-4);
}

TEST_F(Junction, OneThatCannotBeIsRefusedInOneSentence) {
  const std::vector<std::pair<std::string, std::string>> readings{
      {"0", "0"}, {"8 mV", "197"}, {"400", "400"}};
  for (const double wrong : {-40.1, 85.1, 234.0, std::nan("")}) {
    EXPECT_THAT(
        problems(fed(readings, wrong)),
        ElementsAre("the reference junction is not between -40 and 85 degC; correct it, or leave it out "
                    "when the mV are emf referred to 0 degC."))
        << wrong;
  }
  for (const double extreme : {-40.0, 85.0}) {
    EXPECT_THAT(problems(fed({{"0", "0"}, {"200", "200"}, {"400", "400"}}, extreme)), IsEmpty());
  }
  ProposedVisit current = test::goodVisit();
  current.conditions.referenceJunction = 23.0;
  EXPECT_THAT(problems(current),
              ElementsAre("a reference junction is given, but no mV of a couple are fed or measured at this "
                          "visit; leave it out."));
  input().type = ThermocoupleType::B;
  input().range = {800, 1600, Unit::celsius};
  EXPECT_THAT(problems(fed({{"800", "800"}, {"1200", "1200"}, {"1600", "1600"}}, -5.0)),
              ElementsAre("the reference junction is at -5 degC, where a type B couple has no emf function; "
                          "correct it; the function begins at 0 degC."));
}

// A loop is applied to as a temperature, a transmitter gives no mV, an RTD has no junction.
TEST(CoupleInMillivolts, IsAnInputOrABareCoupleOnly) {
  const ChannelSetup couple{ThermocoupleSetup{}, 0.0};
  const ChannelSetup rtd{RtdSetup{}, 0.0};
  SensorRange bare;
  bare.thermocouple = ThermocoupleType::N;
  SensorRange transmitter = bare;
  transmitter.output = Span{4, 20, Unit::milliampere};
  EXPECT_EQ(coupleInMillivolts(Subject::channel, &couple, nullptr), ThermocoupleType::K);
  EXPECT_EQ(coupleInMillivolts(Subject::channel, &rtd, &bare), std::nullopt);
  EXPECT_EQ(coupleInMillivolts(Subject::sensor, &rtd, &bare), ThermocoupleType::N);
  EXPECT_EQ(coupleInMillivolts(Subject::sensor, &couple, &transmitter), std::nullopt);
  EXPECT_EQ(coupleInMillivolts(Subject::loop, &couple, &bare), std::nullopt);
  EXPECT_EQ(coupleInMillivolts(Subject::channel, nullptr, nullptr), std::nullopt);
}

// A type K input of 0 to 400 degC at 23 degC, fed through copper with 0, 8.138 and 16.397 mV (the mV of 0,
// 200 and 400 degC): it shows the temperatures of 0.919 mV more. Over this range that looks like a zero
// error, and still the question how the mV were fed comes first.
TEST_F(Junction, MillivoltsThroughCopperWithoutOneAreAskedAbout) {
  input().range = {0, 450, Unit::celsius};
  plan("TC-3").scheme.percents = {0, 100.0 * 200 / 450, 100.0 * 400 / 450};
  const auto shown = [&](double mV) {
    return formatFixed(
        std::get<double>(thermocoupleCelsius(ThermocoupleType::K, Millivolts{mV}, Celsius{23.0})), 1);
  };
  const auto adviceFor = [&](const ProposedVisit& visit) {
    return std::get<VisitAdvice>(adviseCalibration(site_, checked(visit), Phase::asFound));
  };
  const std::vector<std::pair<std::string, std::string>> readings{
      {"0 mV", shown(0)}, {"8.138 mV", shown(8.138)}, {"16.397 mV", shown(16.397)}};
  const VisitAdvice advice = adviceFor(fed(readings, std::nullopt));
  ASSERT_FALSE(advice.diagnoses.empty()) << adviceText(advice);
  const auto& fault = std::get<CoupleFault>(advice.diagnoses.front().fault);
  EXPECT_EQ(fault.kind, CoupleFaultKind::copperLeads);
  EXPECT_NEAR(fault.place.value, 23.0, 0.2);
  EXPECT_THAT(adviceText(advice),
              HasSubstr("It looks as if the mV were fed through copper leads to terminals at "));
  EXPECT_THAT(adviceText(advice), HasSubstr(", and the reference junction is not given"));

  // Not where the room was known to be far from that, where degrees were typed, or where it is given.
  ProposedVisit cold = fed(readings, std::nullopt);
  cold.conditions.temperature = 2.0;
  EXPECT_THAT(adviceFor(cold).diagnoses, IsEmpty());
  cold.conditions.temperature = 15.0;
  EXPECT_FALSE(adviceFor(cold).diagnoses.empty());
  auto degrees = readings;
  degrees[1].first = "200";
  EXPECT_THAT(adviceFor(fed(degrees, std::nullopt)).diagnoses, IsEmpty());
  const std::vector<std::pair<std::string, std::string>> sameErrors{
      {"-0.919 mV", shown(0)}, {"7.219 mV", shown(8.138)}, {"15.478 mV", shown(16.397)}};
  EXPECT_THAT(adviceFor(fed(sameErrors, 23.0)).diagnoses,
              testing::Not(Contains(testing::Truly([](const SensorDiagnosis& each) {
                return std::get<CoupleFault>(each.fault).kind == CoupleFaultKind::copperLeads;
              }))));
  // With it the same visit has no error.
  const Calibration right =
      checked(fed({{"-0.919 mV", "0.0"}, {"7.219 mV", "200.0"}, {"15.478 mV", "400.0"}}, 23.0));
  EXPECT_EQ(right.foundVerdict, Verdict::pass);
}

}  // namespace
}  // namespace spanwright
