// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/found_file.h"

#include <gmock/gmock.h>

#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::StartsWith;

constexpr std::string_view kFound = R"(found_on = 2024-02-06
certificate = "C-9"
last_good_certificate = "C-7"
remark = "knocked"
k = 2.1
[[range]]
unit = "mA"
resolution = 0.001
points = [ { nominal = 4, error = 0.0048, uncertainty = 0.0009 }, { nominal = 20, error = 0.024 } ]
[[range]]
unit = "V"
points = [ { nominal = 10, error = -0.001 } ]
)";

FoundErrors read(std::string_view text) {
  const TempFile file(text, "found.toml");
  return readFoundFile(file.path());
}
std::vector<std::string> mistakes(std::string text, std::string_view good = {}, std::string_view bad = {}) {
  if (!good.empty()) {
    const auto at = text.find(good);
    EXPECT_NE(at, std::string::npos) << good;
    text.replace(at, good.size(), bad);
  }
  return problemsOf([&] { read(text); });
}

TEST(FoundFile, SaysWhatWasFound) {
  const FoundErrors found = read(kFound);
  EXPECT_EQ(formatDate(found.foundOn), "2024-02-06");
  EXPECT_EQ(found.certificate, "C-9");
  EXPECT_EQ(found.lastGood, "C-7");
  EXPECT_EQ(found.remark, "knocked");
  EXPECT_DOUBLE_EQ(found.coverageFactor, 2.1);
  ASSERT_EQ(found.ranges.size(), 2U);
  EXPECT_EQ(found.ranges[0].unit, Unit::milliampere);
  EXPECT_DOUBLE_EQ(found.ranges[0].resolution, 0.001);
  ASSERT_EQ(found.ranges[0].points.size(), 2U);
  EXPECT_DOUBLE_EQ(found.ranges[0].points[0].error, 0.0048);
  EXPECT_DOUBLE_EQ(found.ranges[0].points[0].uncertainty, 0.0009);
  EXPECT_DOUBLE_EQ(found.ranges[0].points[1].nominal, 20);
  EXPECT_DOUBLE_EQ(found.ranges[0].points[1].uncertainty, 0);
  EXPECT_EQ(found.ranges[1].unit, Unit::volt);
}

TEST(FoundFile, NeedsLittle) {
  const FoundErrors found =
      read("found_on = 2024-02-06\n[[range]]\nunit = \"mA\"\npoints = [ { nominal = 4, error = 0.1 } ]\n");
  EXPECT_TRUE(found.certificate.empty());
  EXPECT_DOUBLE_EQ(found.coverageFactor, 2.0);
}

TEST(FoundFile, EveryMistakeIsNamedWithItsLine) {
  const std::string good(kFound);
  EXPECT_THAT(mistakes(good), ElementsAre());
  const struct {
    const char *from, *to, *line, *says;
  } cases[] = {
      {"found_on = 2024-02-06", "", "1:", "found_on"},
      {"2024-02-06", "\"last spring\"", "1:", "found_on"},
      {"certificate = \"C-9\"", "certificate = 9", "2:", "certificate"},
      {"remark", "remarks", "4:", "remarks"},
      {"k = 2.1", "k = 0.5", "5:", "k of"},
      {"unit = \"mA\"", "unit = \"mAh\"", "7:", "mAh"},
      {"nominal = 4, ", "", "9:", "nominal"},
      {"error = 0.024", "eror = 0.024", "9:", "eror"},
      {"error = 0.024", "error = \"high\"", "9:", "error"},
      {"uncertainty = 0.0009", "uncertainty = 0", "9:", "uncertainty"},
      {"nominal = 20", "nominal = 4", "9:", "ascending"},
      {"[ { nominal = 10, error = -0.001 } ]", "[]", "12:", "is empty"},
      {"points = [ { nominal = 10, error = -0.001 } ]", "", "10:", "points"},
  };
  for (const auto& each : cases) {
    const auto said = mistakes(good, each.from, each.to);
    EXPECT_THAT(said, testing::Contains(testing::AllOf(StartsWith(each.line), HasSubstr(each.says))))
        << each.to << "\n"
        << joined(said);
  }
  EXPECT_THAT(mistakes("found_on = 2024-02-06\n"), ElementsAre(HasSubstr("[[range]]")));
  EXPECT_EQ(mistakes("found_on = \"x\"\nk = 0\n[[range]]\nunit = \"furlong\"\npoints = [ { nominal = 1 } ]\n")
                .size(),
            4U);
}

TEST(FoundFile, WhatIsNotTomlOrNotThereIsRefused) {
  EXPECT_THAT(mistakes("found_on = = 2"), ElementsAre(StartsWith("1:")));
  EXPECT_THROW(readFoundFile("/nowhere/found.toml"), StorageError);
}

}  // namespace
}  // namespace spanwright::test
