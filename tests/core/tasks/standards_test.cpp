// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/standards.h"

#include <gmock/gmock.h>

#include "tests/core/tasks/visit_site.h"

namespace spanwright {
namespace {

using test::certificate;
using test::day;
using testing::ElementsAre;

CertificateRange current(double error) {
  return {Unit::milliampere, 0.001, {{4, 0.0, 0.001}, {20, error, 0.001}}};
}

StandardStatus statusOn(Date on, std::vector<StandardCertificate> certificates) {
  static Register site;
  site = Register();
  Standard standard;
  standard.serial = "LC-1";
  standard.certificates = std::move(certificates);
  site.standards = {standard};
  return standardsOn(site, on).at(0);
}

TEST(Standards, CountDownToTheLastDay) {
  const std::vector<StandardCertificate> one{certificate("A", day(2025, 1, 1), day(2025, 12, 31), {})};
  EXPECT_EQ(statusOn(day(2024, 12, 31), one).state, StandardState::noCertificate);
  EXPECT_EQ(statusOn(day(2024, 12, 31), one).certificate, nullptr);
  EXPECT_EQ(statusOn(day(2025, 1, 1), one).state, StandardState::valid);
  EXPECT_EQ(statusOn(day(2025, 1, 1), one).daysLeft, 364);
  EXPECT_EQ(statusOn(day(2025, 11, 30), one).state, StandardState::valid);  // 31 days, soon is 30
  EXPECT_EQ(statusOn(day(2025, 12, 1), one).state, StandardState::expiresSoon);
  EXPECT_EQ(statusOn(day(2025, 12, 31), one).state, StandardState::expiresSoon);
  EXPECT_EQ(statusOn(day(2025, 12, 31), one).daysLeft, 0);
  const StandardStatus after = statusOn(day(2026, 1, 2), one);
  EXPECT_EQ(after.state, StandardState::expired);
  EXPECT_EQ(after.daysLeft, -2);
  EXPECT_EQ(after.certificate->number, "A");
  EXPECT_EQ(statusOn(day(2026, 1, 2), {}).state, StandardState::noCertificate);
  EXPECT_EQ(statusOn(day(2026, 1, 2), {certificate("Z", day(2025, 1, 1), day(9999, 12, 31), {})}).lastDay,
            day(9999, 12, 31));
}

TEST(Standards, AFollowingCertificateProlongsTheLastDayAndAGapDoesNot) {
  const auto first = certificate("A", day(2025, 1, 1), day(2025, 12, 31), {});
  const auto next = certificate("B", day(2026, 1, 1), day(2026, 6, 30), {});
  const auto late = certificate("C", day(2026, 1, 2), day(2026, 6, 30), {});
  EXPECT_EQ(statusOn(day(2025, 12, 20), {first, next}).lastDay, day(2026, 6, 30));
  EXPECT_EQ(statusOn(day(2025, 12, 20), {first, next}).certificate->number, "A");
  EXPECT_EQ(statusOn(day(2025, 12, 20), {first, late}).lastDay, day(2025, 12, 31));
  EXPECT_EQ(statusOn(day(2026, 1, 1), {first, late}).state, StandardState::expired);
}

TEST(Standards, StandBySerial) {
  const Register site = test::visitSite();
  std::vector<std::string> serials;
  for (const StandardStatus& each : standardsOn(site, day(2026, 3, 1))) {
    serials.push_back(each.standard->serial);
  }
  EXPECT_THAT(serials, ElementsAre("LC-0900", "LC-1100", "LC-2201", "NEW-1", "TB-3", "VM-7"));
  EXPECT_EQ(text(StandardState::noCertificate), "no certificate yet");
}

TEST(CertificateCharts, FollowEveryValueOverTheYears) {
  Standard standard;
  const double errors[] = {0.001, 0.002, 0.001, 0.002, 0.001, 0.02};
  for (int i = 0; i < 6; ++i) {
    standard.certificates.push_back(certificate("C" + std::to_string(i), day(2020 + i, 1, 1),
                                                day(2020 + i, 12, 31), {current(errors[i])}));
  }
  standard.certificates[5].ranges.push_back({Unit::volt, 0.0, {{10, 0.001, 0.001}}});
  const auto charts = certificateCharts(standard, day(2026, 1, 1));
  ASSERT_EQ(charts.size(), 3U);
  EXPECT_EQ(charts[0].nominal, 4);
  EXPECT_EQ(std::get<ChartGap>(charts[0].chart), ChartGap::noSpread);
  EXPECT_EQ(charts[1].nominal, 20);
  ASSERT_EQ(charts[1].errors.size(), 6U);
  EXPECT_EQ(charts[1].certificates[5]->number, "C5");
  const auto& chart = std::get<ControlChart>(charts[1].chart);
  EXPECT_TRUE(chart.points[5].beyond());
  EXPECT_FALSE(chart.points[4].beyond());
  EXPECT_EQ(charts[2].unit, Unit::volt);
  EXPECT_EQ(std::get<ChartGap>(charts[2].chart), ChartGap::tooFew);
  // As the day was: later certificates are not there yet.
  EXPECT_EQ(std::get<ChartGap>(certificateCharts(standard, day(2023, 6, 1))[1].chart), ChartGap::tooFew);
  EXPECT_TRUE(certificateCharts(Standard{}, day(2026, 1, 1)).empty());
}

}  // namespace
}  // namespace spanwright
