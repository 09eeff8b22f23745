// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/standard_certificate.h"

#include <gmock/gmock.h>

#include "tests/core/tasks/record_fixture.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TypedCertificate good() {
  TypedCertificate typed;
  typed.number = " C-77 ";
  typed.issuer = "Invented laboratory";
  typed.issued = typed.validFrom = day(2026, 5, 1);
  typed.validUntil = day(2027, 4, 30);
  typed.coverageFactor = "2";
  typed.points = {{"mA", "0.001", "20", "0,0005", "0.0016"}, {"", "", "4", "0.0002", "0.0008"}};
  return typed;
}

std::vector<std::string> wrongs(const TypedCertificate& typed) {
  const auto read = readCertificate(typed);
  std::vector<std::string> all;
  if (const auto* problems = std::get_if<std::vector<Problem>>(&read)) {
    for (const Problem& each : *problems) {
      all.push_back(std::to_string(each.where.line) + ": " + each.what);
    }
  }
  return all;
}

TEST(TypedCertificate, PointsOfOneUnitMakeARangeInRisingOrder) {
  const auto read = readCertificate(good());
  const auto* made = std::get_if<StandardCertificate>(&read);
  ASSERT_NE(made, nullptr);
  EXPECT_EQ(made->number, "C-77");
  EXPECT_EQ(made->coverageFactor, 2.0);
  ASSERT_EQ(made->ranges.size(), 1U);
  EXPECT_EQ(made->ranges[0].unit, Unit::milliampere);
  EXPECT_EQ(made->ranges[0].resolution, 0.001);
  ASSERT_EQ(made->ranges[0].points.size(), 2U);
  EXPECT_EQ(made->ranges[0].points[0].nominal, 4.0);
  EXPECT_EQ(made->ranges[0].points[1].error, 0.0005) << "typed with a comma";
}

TEST(TypedCertificate, AnotherUnitOrResolutionBeginsAnotherRange) {
  TypedCertificate typed = good();
  typed.points.push_back({});
  typed.points.push_back({"V", "", "10", "0.001", "0.004"});
  typed.points.push_back({"", "0.01", "30", "0.001", "0.004"});
  const auto read = readCertificate(typed);
  const auto* made = std::get_if<StandardCertificate>(&read);
  ASSERT_NE(made, nullptr);
  ASSERT_EQ(made->ranges.size(), 3U);
  EXPECT_EQ(made->ranges[1].unit, Unit::volt);
  EXPECT_EQ(made->ranges[1].resolution, 0.001) << "as above";
  EXPECT_EQ(made->ranges[2].resolution, 0.01);
}

TEST(TypedCertificate, EverythingWrongIsTold) {
  EXPECT_THAT(wrongs(good()), IsEmpty());
  TypedCertificate typed = good();
  typed.number.clear();
  typed.issuer = " ";
  typed.coverageFactor = "two";
  typed.points = {{"", "", "4", "0", "0.1"}, {"furlong", "", "4", "", "0.1"}, {"mA", "-1", "x", "0", "0"}};
  EXPECT_THAT(wrongs(typed),
              ElementsAre("0: the certificate has no number", "0: the certificate has no issuer",
                          "0: the coverage factor k \"two\" is not a number", "1: the unit is missing",
                          "2: the unit \"furlong\" is not known", "2: the error is missing",
                          "3: the resolution is below zero", "3: the nominal value \"x\" is not a number",
                          "3: the uncertainty 0 is not above zero"));
  typed = good();
  typed.points.clear();
  EXPECT_THAT(wrongs(typed), ElementsAre("0: the certificate has no points"));
  typed = good();
  typed.points[1].nominal = "20";
  EXPECT_THAT(wrongs(typed), ElementsAre("0: the point 20 mA stands in the table twice"));
  typed = good();
  typed.validUntil = day(2026, 4, 30);
  typed.coverageFactor = "0.5";
  EXPECT_THAT(wrongs(typed), ElementsAre("0: valid until before it is valid from",
                                         "0: the coverage factor must be at least 1"));
}

TEST(PastedPoints, AreReadFromSpreadsheetsAndTexts) {
  const auto whole = pastedPoints(
      "Unit\tRes.\tNominal\tError\tU\nmA\t0.001\t4\t0.0002\t0.0008\r\n\n\t\t20\t0.0005\t0.0016\n");
  ASSERT_EQ(whole.size(), 2U);
  EXPECT_EQ(whole[0].unit, "mA");
  EXPECT_EQ(whole[1].unit, "");
  EXPECT_EQ(whole[1].nominal, "20");
  EXPECT_EQ(whole[1].uncertainty, "0.0016");
  const auto four = pastedPoints("V; 10; 0,001; 0,004");
  ASSERT_EQ(four.size(), 1U);
  EXPECT_EQ(four[0].unit, "V");
  EXPECT_EQ(four[0].resolution, "");
  EXPECT_EQ(four[0].error, "0,001");
  const auto three = pastedPoints("4\t0.1\t0.2");
  ASSERT_EQ(three.size(), 1U);
  EXPECT_EQ(three[0].nominal, "4");
  EXPECT_THAT(pastedPoints("\n \n"), IsEmpty());
}

class AddingACertificate : public RecordTest {};

TEST_F(AddingACertificate, IsJournalledWithThePersonAndNeverReplaced) {
  addCertificate(store(), "LC-2201", good(), "pplan");
  EXPECT_EQ(store().site().standard("LC-2201")->certificates.size(), 3U);
  JournalEntry last;
  store().forEachEntry(store().journalHead().entry, [&](const JournalEntry& entry) {
    last = entry;
    return true;
  });
  EXPECT_EQ(last.unit, "standard certificate");
  EXPECT_EQ(last.person, "pplan");
  EXPECT_THROW(addCertificate(store(), "LC-2201", good(), ""), InputError);
  EXPECT_THROW(addCertificate(store(), "no such", good(), ""), InputError);
  TypedCertificate bad = good();
  bad.number = "C-78";
  bad.points[0].uncertainty = "0";
  EXPECT_THROW(addCertificate(store(), "LC-2201", bad, ""), InputError);
  EXPECT_EQ(store().site().standard("LC-2201")->certificates.size(), 3U);
}

}  // namespace
}  // namespace spanwright::test
