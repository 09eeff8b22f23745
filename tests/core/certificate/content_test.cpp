// SPDX-License-Identifier: GPL-3.0-or-later
//
// What ISO/IEC 17025:2017 asks of a certificate (7.8.2, 7.8.4, 7.8.6), one test for each clause.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/certificate/certificate.h"
#include "tests/core/certificate/example.h"

namespace spanwright {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::Field;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

auto labelled(const char* label, const testing::Matcher<std::string>& value) {
  return AllOf(Field(&LabelledText::label, label), Field(&LabelledText::value, value));
}

class CertificateContent : public testing::Test {
 protected:
  void SetUp() override { example::fiveUpDown(made_); }
  Certificate described() { return describeCertificate(made_.source()); }
  example::Example made_;
};

TEST_F(CertificateContent, Clause7821a_Title) {
  EXPECT_EQ(described().title, "Calibration certificate");
}

TEST_F(CertificateContent, Clause7821b_NameAndAddressOfTheIssuer) {
  EXPECT_THAT(described().issuer, ElementsAre("Larkmead instrument workshop", "Workshop Yard 1", "Larkmead"));
}

TEST_F(CertificateContent, Clause7821c_PlaceOfTheWork) {
  EXPECT_EQ(described().placeOfWork,
            "Larkmead Creamery, Dairy Lane 4, Larkmead; Pasteuriser hall / Cabinet P1 / Station 1");
}

TEST_F(CertificateContent, Clause7821d_UniqueNumber) {
  EXPECT_EQ(described().number, "LARK-2026-0014");
}

TEST_F(CertificateContent, Clause7821e_CustomerAndContact) {
  EXPECT_THAT(described().customer, ElementsAre("Larkmead production", "production office"));
}

TEST_F(CertificateContent, Clause7821f_MethodWithItsRevision) {
  const Certificate certificate = described();
  EXPECT_THAT(certificate.method, Contains(labelled("Procedure", "WI-012 rev 2")));
  EXPECT_THAT(certificate.method,
              Contains(labelled("Plan", "AI-5UD revision 2: Analog input, five points up and down")));
  EXPECT_THAT(certificate.method, Contains(labelled("Points", "0, 25, 50, 75, 100 % of span, up-down")));
}

TEST_F(CertificateContent, Clause7821g_ItemUnambiguously) {
  const Certificate certificate = described();
  EXPECT_THAT(certificate.item, Contains(labelled("Tag", "TT-101")));
  EXPECT_THAT(certificate.item, Contains(labelled("Title", "Holding tube temperature")));
  EXPECT_THAT(certificate.item, Contains(labelled("Place", "Pasteuriser hall / Cabinet P1 / Station 1")));
  EXPECT_THAT(certificate.item, Contains(labelled("Terminal", "1")));
  EXPECT_THAT(certificate.item, Contains(labelled("Kind", "analog input")));
  EXPECT_THAT(certificate.item, Contains(labelled("Calibrated", HasSubstr("the channel alone"))));
  EXPECT_THAT(certificate.setup, Contains(labelled("Version", "3")));
  EXPECT_THAT(certificate.setup, Contains(labelled("In force since", "2024-03-01 08:00")));
  EXPECT_THAT(
      certificate.setup,
      Contains(labelled("Setup", AllOf(HasSubstr("4-20 mA"), HasSubstr("°C"), Not(HasSubstr("degC"))))));
}

TEST(CertificateItem, Clause7821g_SensorByMakerModelAndSerialNumber) {
  example::Example made;
  example::sensorAlone(made);
  const Certificate certificate = describeCertificate(made.source());
  EXPECT_THAT(certificate.item, Contains(labelled("Serial number", "TX-5510")));
  EXPECT_THAT(certificate.item, Contains(labelled("Sensor",
                                                  "Invented Instruments, head transmitter, "
                                                  "temperature transmitter")));
  EXPECT_THAT(certificate.item, Contains(labelled("Calibrated", "the sensor alone")));
  EXPECT_THAT(certificate.setup, IsEmpty());
}

TEST_F(CertificateContent, Clause7821ij_DatesOfWorkAndIssue) {
  const Certificate certificate = described();
  EXPECT_THAT(certificate.work, Contains(labelled("Performed", "2026-11-20 09:30 (site time)")));
  EXPECT_THAT(certificate.work, Contains(labelled("Issued", "2026-11-21 (UTC)")));
  EXPECT_EQ(certificate.issueDate, "2026-11-21");
}

TEST_F(CertificateContent, Clause7821k_SamplingDoesNotApply) {
  EXPECT_THAT(described().statements, Contains(HasSubstr("No sampling was involved")));
}

TEST_F(CertificateContent, Clause7821l_ResultsRelateOnlyToTheItem) {
  EXPECT_THAT(described().statements,
              Contains(AllOf(HasSubstr("relate only to the item"), HasSubstr("version 3 of its setup"))));
}

TEST_F(CertificateContent, Clause7821m_ResultsWithUnitsInEveryHeading) {
  const Certificate certificate = described();
  ASSERT_THAT(certificate.tables, SizeIs(2));
  for (const CertificateTable& table : certificate.tables) {
    EXPECT_EQ(table.appliedUnit, "mA");
    EXPECT_EQ(table.readingUnit, "°C");
    for (const CertificateColumn& column : certificateColumns(table)) {
      EXPECT_EQ(column.unit.empty(), !column.number) << column.heading;
    }
  }
}

TEST_F(CertificateContent, Clause7821m_NumbersOfARow) {
  const CertificateRow row = described().tables[0].rows[3];  // 75 % up
  EXPECT_EQ(row.point, "75 % up");
  EXPECT_EQ(row.applied, "16.000");
  EXPECT_EQ(row.expected, "112.500");
  EXPECT_EQ(row.reading, "112.93");
  EXPECT_EQ(row.error, "+0.430");
  EXPECT_EQ(row.limits, "±0.375");         // 0.25 % of 150 degC
  EXPECT_EQ(row.percentOfSpan, "+0.287");  // 0.43 of 150
  EXPECT_EQ(row.fraction, "1.15");         // 0.43 of 0.375
  EXPECT_EQ(row.uncertainty, "0.012");
  EXPECT_EQ(row.coverage, "2.00");
  EXPECT_EQ(row.verdict, "fail");
}

TEST(CertificateDeviations, Clause7821n_SkippedPointsWithReasonsAndRemarks) {
  example::Example made;
  example::discreteOutput(made);
  made.calibration.remarks = "load replaced by a resistor";
  const Certificate certificate = describeCertificate(made.source());
  EXPECT_THAT(certificate.deviations, Contains("Skipped as found, off, run 2: load could not be isolated"));
  EXPECT_THAT(certificate.deviations, Contains("Remarks: load replaced by a resistor"));
}

TEST_F(CertificateContent, Clause7821n_NothingSaidWhenNothingDeviates) {
  EXPECT_THAT(described().deviations, IsEmpty());
}

TEST_F(CertificateContent, Clause7821o_MarkedUnsignedWithLinesToSign) {
  const Certificate certificate = described();
  EXPECT_EQ(certificate.mark, "Unsigned");
  EXPECT_THAT(certificate.people, Contains(labelled("Performed by", "Mara Tolland")));
  EXPECT_THAT(certificate.signatures, Contains(HasSubstr("Authorised by")));
}

TEST_F(CertificateContent, Clause7821p_ImportedReadingsSaySo) {
  made_.calibration.source = "history-2019.csv";
  EXPECT_THAT(described().deviations, Contains(HasSubstr("imported from \"history-2019.csv\"")));
}

TEST_F(CertificateContent, Clause7822_CustomersInformationIsMarked) {
  EXPECT_THAT(described().statements, Contains(HasSubstr("as the customer's register describes them")));
}

TEST_F(CertificateContent, Clause7821Note_ReproducedOnlyInFull) {
  EXPECT_THAT(described().statements, Contains(HasSubstr("not be reproduced except in full")));
}

TEST_F(CertificateContent, Clause7811_PreviewIsMarkedAndHasNoNumberOrDate) {
  CertificateSource source = made_.source();
  source.number.clear();
  source.issued = Date();
  const Certificate certificate = describeCertificate(source);
  EXPECT_EQ(certificate.mark, "Preview, not issued");
  EXPECT_EQ(certificate.number, "");
  EXPECT_EQ(certificate.issueDate, "");
  EXPECT_THAT(certificate.work, Contains(labelled("Issued", "not issued")));
}

TEST_F(CertificateContent, Clause7841a_UncertaintyWithFactorAndProbability) {
  const Certificate certificate = described();
  for (const CertificateTable& table : certificate.tables) {
    for (const CertificateRow& row : table.rows) {
      EXPECT_EQ(row.uncertainty, "0.012");
      EXPECT_EQ(row.coverage, "2.00");
    }
  }
  EXPECT_THAT(certificate.statements, Contains(AllOf(HasSubstr("coverage factor k"), HasSubstr("95.45 %"))));
}

TEST_F(CertificateContent, Clause7841b_Conditions) {
  EXPECT_THAT(described().conditions, Contains(labelled("Temperature", "21.5 °C")));
  EXPECT_THAT(described().conditions, Contains(labelled("Humidity", "45 % relative")));
  made_.calibration.conditions = {};
  EXPECT_THAT(described().conditions, Contains(labelled("Temperature", "not recorded")));
  EXPECT_THAT(described().deviations, Contains("The ambient conditions were not recorded."));
}

TEST_F(CertificateContent, Clause7841b_ReferenceJunctionWhereMillivoltsOfACoupleWereTold) {
  const auto junction = [&] {
    for (const LabelledText& each : described().conditions) {
      if (each.label == "Reference junction") {
        return each.value;
      }
    }
    return std::string("nothing");
  };
  made_.calibration.asFound.front().appliedText = "1.1 mV";
  EXPECT_EQ(junction(), "nothing");  // an mA input
  ThermocoupleSetup couple;
  couple.range = {0, 150, Unit::celsius};
  made_.site.channels.front().setups.front().setup.kind = couple;
  EXPECT_EQ(junction(), "emf referred to 0 °C");
  made_.calibration.conditions.referenceJunction = 23.4;
  EXPECT_EQ(junction(), "23.4 °C");
  made_.calibration.conditions.referenceJunction = std::nullopt;
  made_.calibration.asFound.front().appliedText = "27.2 degC";
  EXPECT_EQ(junction(), "nothing");
  made_.calibration.asFound.front().appliedText = "1.1 mV";
  made_.calibration.asFound.front().skipReason = "stuck";
  EXPECT_EQ(junction(), "nothing");
}

TEST_F(CertificateContent, Clause7841c_Traceability) {
  const Certificate certificate = described();
  ASSERT_THAT(certificate.standards, SizeIs(1));
  const CertificateStandard& standard = certificate.standards.front();
  EXPECT_EQ(standard.serial, "LC-2201");
  EXPECT_EQ(standard.certificate, "C-11873");
  EXPECT_EQ(standard.issuer, "Harrow Vale calibration laboratory (invented)");
  EXPECT_EQ(standard.validFrom, "2026-02-12");
  EXPECT_EQ(standard.validUntil, "2027-02-28");
  EXPECT_EQ(standard.traceability, "to the SI through an accredited laboratory (invented)");
}

TEST_F(CertificateContent, Clause7841d_AsFoundAdjustmentAsLeft) {
  const Certificate certificate = described();
  EXPECT_EQ(certificate.tables[0].title, "As found");
  EXPECT_EQ(certificate.tables[1].title, "As left");
  EXPECT_EQ(certificate.adjustment,
            "Adjusted after the as-found readings: span trimmed by -0.3 %, zero left alone.");
  EXPECT_EQ(certificate.foundConclusion, "As found: fail; 6 of 10 points are inside their limits");
  EXPECT_EQ(certificate.leftConclusion, "As left: pass; 10 of 10 points are inside their limits");
}

TEST(CertificateAsLeft, Clause7841d_AsFoundStandsWhenNothingWasAdjusted) {
  example::Example made;
  example::threshold(made);
  const Certificate certificate = describeCertificate(made.source());
  ASSERT_THAT(certificate.tables, SizeIs(1));
  EXPECT_EQ(certificate.adjustment, "Nothing was adjusted or repaired; as found stands as left.");
  EXPECT_THAT(certificate.leftConclusion, HasSubstr("(as found stands as left)"));
}

TEST_F(CertificateContent, Clause7841e_786_StatementOfConformity) {
  const Certificate certificate = described();
  EXPECT_THAT(
      certificate.decision,
      Contains(labelled("Rule", AllOf(HasSubstr("simple acceptance"), HasSubstr("ILAC-G8:09/2019")))));
  EXPECT_THAT(certificate.decision, Contains(labelled("Level of risk", HasSubstr("up to 50 %"))));
  EXPECT_THAT(certificate.decision,
              Contains(labelled("Specification",
                                AllOf(HasSubstr("plan AI-5UD revision 2"), HasSubstr("0.25 % of span")))));
  EXPECT_THAT(certificate.decision, Contains(labelled("Covers", HasSubstr("as-found and as-left"))));
  EXPECT_THAT(certificate.decision, Contains(labelled("As found", "fail")));
  EXPECT_THAT(certificate.decision, Contains(labelled("As left", "pass")));
}

TEST_F(CertificateContent, Clause7843_NoDueDateUnlessAgreed) {
  CertificateSource source = made_.source();
  source.dueOn = parseDate("2027-11-19");
  const auto says = [](const Certificate& certificate) {
    std::string all;
    for (const auto* texts : {&certificate.item, &certificate.setup, &certificate.method, &certificate.work,
                              &certificate.conditions, &certificate.decision, &certificate.people}) {
      for (const LabelledText& text : *texts) {
        all += text.label + " " + text.value + "\n";
      }
    }
    for (const auto* texts : {&certificate.deviations, &certificate.statements}) {
      for (const std::string& text : *texts) {
        all += text + "\n";
      }
    }
    return all;
  };
  EXPECT_THAT(says(describeCertificate(source)), Not(HasSubstr("2027-11-19")));
  made_.site.site.dueDateAgreed = true;
  EXPECT_THAT(says(describeCertificate(source)), HasSubstr("2027-11-19"));
}

TEST_F(CertificateContent, SaysWhatItIsNot) {
  const auto statements = described().statements;
  EXPECT_THAT(statements, Contains("This is not a proof test of a safety function."));
  EXPECT_THAT(statements, Contains("This is not an accredited certificate."));
  EXPECT_THAT(statements, Contains("Invented site for trying the program."));
  EXPECT_THAT(statements, Contains(HasSubstr("Put the loop in manual under the site's own rules")));
  EXPECT_THAT(statements, Contains(HasSubstr("confirmed by the person who did the work")));
  made_.calibration.cautionsConfirmed = false;
  EXPECT_THAT(described().statements, Contains(HasSubstr("no confirmation is recorded")));
}

TEST(CertificateTables, PointsThatShareNoUnitOrMeaningStandApart) {
  example::Example made;
  example::analogOutput(made);
  const Certificate certificate = describeCertificate(made.source());
  ASSERT_THAT(certificate.tables, SizeIs(2));
  EXPECT_EQ(certificate.tables[0].title, "As found, values");
  EXPECT_EQ(certificate.tables[0].appliedUnit, "%");
  EXPECT_EQ(certificate.tables[0].readingUnit, "mA");
  EXPECT_EQ(certificate.tables[1].title, "As found, loss of communication");
  EXPECT_EQ(certificate.tables[1].appliedUnit, "");
  EXPECT_THAT(certificate.tables[1].rows[0].applied, HasSubstr("communication interrupted at 50"));
}

TEST(CertificateTables, StatesHaveNoPercentOfSpan) {
  example::Example made;
  example::discreteOutput(made);
  const Certificate certificate = describeCertificate(made.source());
  ASSERT_THAT(certificate.tables, SizeIs(1));
  EXPECT_THAT(certificateColumns(certificate.tables[0]),
              Not(Contains(Field(&CertificateColumn::heading, "Error of span"))));
  EXPECT_EQ(certificate.tables[0].rows[0].applied, "commanded on");
  EXPECT_THAT(certificate.charts, IsEmpty());
}

TEST(CertificateTables, EveryReadingIsInExactlyOneRow) {
  for (const auto make :
       {example::fiveUpDown, example::threshold, example::longTexts, example::discreteOutput,
        example::alarmLevels, example::analogOutput, example::sensorAlone}) {
    example::Example made;
    make(made);
    const Certificate certificate = describeCertificate(made.source());
    std::size_t rows = 0;
    for (const CertificateTable& table : certificate.tables) {
      rows += table.rows.size();
    }
    EXPECT_EQ(rows, made.calibration.asFound.size() + made.calibration.asLeft.size());
  }
}

TEST_F(CertificateContent, ChartHoldsWhatTheTableHolds) {
  const Certificate certificate = described();
  ASSERT_THAT(certificate.charts, SizeIs(1));
  const CertificateChart& chart = certificate.charts.front();
  EXPECT_EQ(chart.unit, "°C");
  EXPECT_THAT(chart.categories, IsEmpty());
  ASSERT_THAT(chart.marks, SizeIs(20));
  const ChartMark& mark = chart.marks[3];
  EXPECT_DOUBLE_EQ(mark.percent, 75.0);
  EXPECT_NEAR(mark.error, 0.43, 1e-9);
  EXPECT_DOUBLE_EQ(mark.high, 0.375);
  EXPECT_FALSE(mark.asLeft);
  EXPECT_EQ(mark.direction, Direction::up);
  EXPECT_TRUE(chart.marks[15].asLeft);
  EXPECT_EQ(chart.marks[15].direction, Direction::down);
}

TEST(CertificateChartPlaces, SwitchingLevelsStandByName) {
  example::Example made;
  example::threshold(made);
  const Certificate certificate = describeCertificate(made.source());
  ASSERT_THAT(certificate.charts, SizeIs(1));
  EXPECT_THAT(certificate.charts[0].categories, ElementsAre("on", "off"));
  EXPECT_EQ(certificate.charts[0].marks.back().percent, 1.0);
}

TEST_F(CertificateContent, MissingPiecesAreLeftOutWithoutHarm) {
  CertificateSource source = made_.source();
  source.setup = nullptr;
  source.plan = nullptr;
  const Certificate certificate = describeCertificate(source);
  EXPECT_THAT(certificate.setup, IsEmpty());
  EXPECT_THAT(certificate.decision, IsEmpty());
  EXPECT_THAT(certificate.tables, SizeIs(2));
}

}  // namespace
}  // namespace spanwright
