// SPDX-License-Identifier: GPL-3.0-or-later
//
// The site files are read without a problem and hold what they are there to show.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "core/tasks/visit.h"
#include "importers/visit_file.h"
#include "tests/sample_sites/sample.h"

namespace spanwright::test {
namespace {

Register siteOf(const std::string& name) {
  return readSiteFile(sampleFolder(name) / (name + ".toml"));
}

TEST(SiteFiles, AreReadAndHaveNoFaults) {
  for (const std::string name : {"larkmead", "tiny"}) {
    const Register site = siteOf(name);
    EXPECT_TRUE(registerFaults(site).empty()) << name << ": " << registerFaults(site).front();
    EXPECT_NE(site.site.note.find("Invented"), std::string::npos) << name;
  }
}

TEST(SiteFiles, LarkmeadCoversEveryKindOfPoint) {
  const Register site = siteOf("larkmead");
  EXPECT_GE(site.channels.size(), 48U);
  EXPECT_GE(site.sensors.size(), 20U);
  EXPECT_GE(site.standards.size(), 5U);
  std::set<std::string_view> kinds, cabinets, withAlarms;
  std::set<ThermocoupleType> couples;
  std::set<RtdElement> elements;
  std::set<int> inputTypes;
  std::set<Subject> subjects;
  for (const Channel& channel : site.channels) {
    cabinets.insert(std::string_view(channel.place).substr(0, channel.place.rfind(" / ")));
    for (const Routine& routine : channel.routines) {
      subjects.insert(routine.subject);
    }
    for (const SetupVersion& version : channel.setups) {
      kinds.insert(kindName(version.setup));
      if (alarmLevels(version.setup) != nullptr && alarmLevels(version.setup)->high) {
        withAlarms.insert(channel.tag);
      }
      if (const auto* couple = std::get_if<ThermocoupleSetup>(&version.setup.kind)) {
        couples.insert(couple->type);
      }
      if (const auto* rtd = std::get_if<RtdSetup>(&version.setup.kind)) {
        elements.insert(rtd->element);
      }
      if (const auto* threshold = std::get_if<ThresholdSetup>(&version.setup.kind)) {
        inputTypes.insert(threshold->inputType);
      }
    }
  }
  EXPECT_EQ(kinds.size(), 6U);
  EXPECT_GE(cabinets.size(), 3U);
  EXPECT_GE(withAlarms.size(), 3U);
  EXPECT_EQ(couples, (std::set{ThermocoupleType::J, ThermocoupleType::K, ThermocoupleType::T}));
  EXPECT_EQ(elements.size(), 2U);
  EXPECT_EQ(inputTypes, (std::set{0, 1, 2, 3}));
  EXPECT_EQ(subjects.size(), 3U);
}

TEST(SiteFiles, LarkmeadHasAGuardedRuleAndStatesJunctionAndLeads) {
  const Register site = siteOf("larkmead");
  EXPECT_EQ(site.plan("RTD-5")->decisionRule.basis, GuardBasis::factor);
  EXPECT_EQ(site.plan("RTD-5")->decisionRule.factor, 1.0);
  EXPECT_EQ(site.plan("RTD-5")->leadHalfWidth, 0.02);
  EXPECT_EQ(site.plan("TC-5")->junctionUncertainty, 0.4);
  EXPECT_EQ(site.plan("AI-5UD")->decisionRule.basis, GuardBasis::none);
}

TEST(SiteFiles, StandardsHaveYearlyCertificatesWithoutGaps) {
  const Register site = siteOf("larkmead");
  int overEightYears = 0;
  for (const Standard& standard : site.standards) {
    for (std::size_t i = 1; i < standard.certificates.size(); ++i) {
      // The one certificate of the faulty source that only says how it was found is followed two days later.
      const auto gap = standard.certificates[i].validFrom - standard.certificates[i - 1].validUntil;
      EXPECT_LE(gap.days(), 5) << standard.serial << " before " << standard.certificates[i].number;
    }
    const auto covered = standard.certificates.back().validUntil - standard.certificates.front().validFrom;
    overEightYears += covered.days() > 2922 ? 1 : 0;
  }
  EXPECT_GE(overEightYears, 5);
}

TEST(VisitFiles, MayBeEnteredToday) {
  for (const std::string name : {"larkmead", "tiny"}) {
    const Register site = siteOf(name);
    const ProposedVisit visit = readVisitFile(sampleFolder(name) / "visit.toml");
    const CheckedVisit checked = checkVisit(site, visit, sampleNow(), false);
    ASSERT_TRUE(checked.problems.empty()) << sentence(checked.problems.front());
    EXPECT_EQ(checked.calibration->leftVerdict, Verdict::pass) << name;
    EXPECT_EQ(formatDate(visit.performed.date()), "2026-11-20");
  }
}

}  // namespace
}  // namespace spanwright::test
