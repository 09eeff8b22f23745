// SPDX-License-Identifier: GPL-3.0-or-later
//
// What must keep a certificate from being issued: every case takes one thing away from a certificate that may
// be.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <functional>
#include <limits>

#include "core/certificate/certificate.h"
#include "tests/core/certificate/example.h"

namespace spanwright {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(CertificateFaults, NoneForCompleteCalibrations) {
  for (const auto make :
       {example::fiveUpDown, example::threshold, example::longTexts, example::discreteOutput,
        example::alarmLevels, example::analogOutput, example::sensorAlone}) {
    example::Example made;
    make(made);
    EXPECT_THAT(certificateFaults(made.source()), IsEmpty());
  }
}

struct Case {
  const char* name;
  const char* clause;
  const char* says;
  std::function<void(example::Example&)> damage;
};

void PrintTo(const Case& damaged, std::ostream* out) {
  *out << damaged.name;
}

class CertificateFault : public testing::TestWithParam<Case> {};

TEST_P(CertificateFault, IsNamedWithItsClause) {
  example::Example made;
  example::fiveUpDown(made);
  GetParam().damage(made);
  EXPECT_THAT(certificateFaults(made.source()),
              ElementsAre(AllOf(HasSubstr(GetParam().says),
                                HasSubstr("(ISO/IEC 17025:2017 " + std::string(GetParam().clause) + ")"))));
}

using E = example::Example;
INSTANTIATE_TEST_SUITE_P(
    All, CertificateFault,
    testing::Values(
        Case{"IssuerName", "7.8.2.1 b", "issuer's name", [](E& e) { e.site.site.issuer.clear(); }},
        Case{"IssuerAddress", "7.8.2.1 b", "issuer's address",
             [](E& e) { e.site.site.issuerAddress = {""}; }},
        Case{"SiteAddress", "7.8.2.1 c", "address of the site", [](E& e) { e.site.site.address.clear(); }},
        Case{"Customer", "7.8.2.1 e", "customer's name", [](E& e) { e.site.site.customer.clear(); }},
        Case{"Contact", "7.8.2.1 e", "customer's contact", [](E& e) { e.site.site.customerContact.clear(); }},
        Case{"Procedure", "7.8.2.1 f", "names no procedure", [](E& e) { e.site.plans[0].procedure.clear(); }},
        Case{"PlanRevision", "7.8.2.1 f", "revision 2, the register has AI-5UD revision 3",
             [](E& e) { e.site.plans[0].revision = "3"; }},
        Case{"PlanGone", "7.8.2.1 f", "plan \"AI-5UD\" is not in the register",
             [](E& e) {
               e.site.plans.clear();
               e.site.index();
             }},
        Case{"ChannelGone", "7.8.2.1 g", "channel \"XX-1\"",
             [](E& e) {
               e.calibration.channel = "XX-1";
               e.calibration.subject = Subject::sensor;
               e.calibration.sensor = "TX-5510";
             }},
        Case{"SetupGone", "7.8.2.1 g", "version 2 of the setup",
             [](E& e) { e.calibration.setupVersion = 2; }},
        Case{"SensorGone", "7.8.2.1 g", "sensor \"none\"",
             [](E& e) {
               e.calibration.subject = Subject::loop;
               e.calibration.sensor = "none";
             }},
        Case{"NoDate", "7.8.2.1 i", "date of the work", [](E& e) { e.calibration.performed = Moment(); }},
        Case{"IssuedBeforeTheWork", "7.8.2.1 j", "2026-11-21 is before the work on 2026-11-22",
             [](E& e) { e.calibration.performed = *parseMoment("2026-11-22T08:00"); }},
        Case{"NoUnit", "7.8.2.1 m", "point 4 \"75 % up\": the reading has no unit",
             [](E& e) { e.calibration.asFound[3].point.readingUnit = Unit::none; }},
        Case{"NotANumber", "7.8.2.1 m", "not a number",
             [](E& e) { e.calibration.asLeft[0].indicated = std::numeric_limits<double>::quiet_NaN(); }},
        Case{"NoUncertainty", "7.8.4.1 a", "as left, point 2 \"25 % up\": there is no uncertainty",
             [](E& e) { e.calibration.asLeft[1].expandedUncertainty.reset(); }},
        Case{"ZeroUncertainty", "7.8.4.1 a", "not above zero",
             [](E& e) { e.calibration.asFound[1].expandedUncertainty = 0.0; }},
        Case{"ZeroFactor", "7.8.4.1 a", "not above zero",
             [](E& e) { e.calibration.asFound[1].coverageFactor = 0.0; }},
        Case{"NoStandard", "7.8.4.1 c", "no reference standard",
             [](E& e) { e.calibration.standards.clear(); }},
        Case{"UnknownStandardCertificate", "7.8.4.1 c", "certificate \"C-1\" of standard LC-2201",
             [](E& e) { e.calibration.standards[0].certificate = "C-1"; }},
        Case{"ExpiredTheDayBefore", "7.8.4.1 c", "to 2026-11-19, the work was on 2026-11-20",
             [](E& e) { e.site.standards[0].certificates[0].validUntil = *parseDate("2026-11-19"); }},
        Case{"NotYetValid", "7.8.4.1 c", "valid from 2026-11-21",
             [](E& e) { e.site.standards[0].certificates[0].validFrom = *parseDate("2026-11-21"); }},
        Case{"NoTraceability", "7.8.4.1 c", "traceable to",
             [](E& e) { e.site.standards[0].certificates[0].traceability.clear(); }},
        Case{"NoAsLeftAfterAdjusting", "7.8.4.1 d", "no as-left reading",
             [](E& e) { e.calibration.asLeft.clear(); }},
        Case{"NoVerdict", "7.8.4.1 e", "there is no verdict",
             [](E& e) { e.calibration.asLeft[2].verdict = Verdict::notJudged; }},
        Case{"NoDecisionRule", "7.8.6.1", "no decision rule",
             [](E& e) { e.site.plans[0].decisionRule = {.basis = GuardBasis::factor, .factor = -1.0}; }},
        Case{"VerdictByAnotherRule", "7.8.6.1",
             "as left, point 7 \"75 % down\": the verdict \"pass\" is not the one the plan's decision rule "
             "gives "
             "(guard band of 1 U)",
             [](E& e) {
               e.site.plans[0].decisionRule = {.basis = GuardBasis::factor, .factor = 1.0};
               e.calibration.asLeft[6].expandedUncertainty = 0.32;
             }},
        Case{"UnknownPerson", "7.5.1", "person \"nobody\"", [](E& e) { e.calibration.person = "nobody"; }}),
    [](const testing::TestParamInfo<Case>& damaged) { return std::string(damaged.param.name); });

TEST(CertificateFaults, LastDayOfValidityIsStillValid) {
  example::Example made;
  example::fiveUpDown(made);
  made.site.standards[0].certificates[0].validFrom = *parseDate("2026-11-20");
  made.site.standards[0].certificates[0].validUntil = *parseDate("2026-11-20");
  EXPECT_THAT(certificateFaults(made.source()), IsEmpty());
}

TEST(CertificateFaults, EverythingSkippedLeavesNothingToCertify) {
  example::Example made;
  example::threshold(made);
  for (Reading& reading : made.calibration.asFound) {
    reading.skipReason = "no access";
  }
  EXPECT_THAT(certificateFaults(made.source()), ElementsAre(HasSubstr("7.8.2.1 m")));
}

TEST(CertificateFaults, AllAreNamedAtOnce) {
  example::Example made;
  example::fiveUpDown(made);
  made.site.site.issuer.clear();
  made.calibration.standards.clear();
  made.calibration.asFound[0].expandedUncertainty.reset();
  EXPECT_THAT(certificateFaults(made.source()),
              ElementsAre(HasSubstr("7.8.2.1 b"), HasSubstr("7.8.4.1 a"), HasSubstr("7.8.4.1 c")));
}

}  // namespace
}  // namespace spanwright
