// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the GUM says of limits, steps and hysteresis (gum_rectangular_facts.csv), from files and from the
// functions.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "core/metrology/formula.h"
#include "core/metrology/uncertainty.h"
#include "importers/budget_file.h"
#include "tests/importers/files.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

/// What a budget file makes of limits a half-width apart from the middle.
double fromHalfWidth(const std::string& halfWidth, const std::string& distribution) {
  const test::TempFile file("[result]\nname = \"y\"\n[[input]]\nname = \"x\"\nvalue = 0\nhalf_width = " +
                            halfWidth + "\ndistribution = \"" + distribution + "\"\n");
  return readBudgetFile(file.path()).model.inputs.front().standardUncertainty;
}

double formulaAt(const std::string& formula, const std::string& name, double value) {
  const auto parsed = Formula::parse(formula, {name});
  return std::get<Formula>(parsed)(std::vector<double>{value});
}

TEST(PublishedFacts, LimitsBecomeStandardUncertainties) {
  std::map<std::string, test::CsvRow> facts;
  for (const test::CsvRow& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/signals/gum_rectangular_facts.csv")) {
    facts[row.at("id")] = row;
  }
  ASSERT_EQ(facts.size(), 7U);
  const auto result = [&](const char* id) { return facts.at(id).at("result"); };
  const auto relative = [](double value) { return 1e-12 * value; };
  for (const char* half : {"0.4", "7"}) {
    const double a = parseNumber(half).value().value;
    const double flat = formulaAt(result("rectangular_half_width"), "a", a);
    EXPECT_NEAR(rectangular(a), flat, relative(flat));
    EXPECT_NEAR(fromHalfWidth(half, "rectangular"), flat, relative(flat));
    const double peaked = formulaAt(result("triangular_half_width"), "a", a);
    EXPECT_NEAR(fromHalfWidth(half, "triangular"), peaked, relative(peaked));
    const double step = formulaAt(result("rectangular_full_width"), "w", a);
    EXPECT_NEAR(resolutionUncertainty(a), step, relative(step));
    // Printed as 0.29: half of its last digit.
    EXPECT_NEAR(resolutionUncertainty(a), formulaAt(result("hysteresis_band_delta"), "dx", a), 0.005 * a);
  }
  const auto expectTenDigits = [&](double value, const char* id) {
    const double printed = test::numberIn(facts.at(id), "result");
    EXPECT_NEAR(value, printed, 0.51e-9 * std::pow(10.0, std::ceil(std::log10(printed)))) << id;
  };
  expectTenDigits(resolutionUncertainty(test::numberIn(facts.at("resolution_delta_1"), "input")),
                  "resolution_delta_1");
  const std::string copper = facts.at("copper_expansion_half_width").at("input");
  expectTenDigits(fromHalfWidth(copper, "rectangular"), "copper_expansion_half_width");
  const std::string between = facts.at("copper_expansion_unsymmetric").at("input");
  const std::size_t to = between.find(" to ");
  const double low = parseNumber(between.substr(0, to)).value().value;
  const double high = parseNumber(between.substr(to + 4)).value().value;
  expectTenDigits(rectangular((high - low) / 2.0), "copper_expansion_unsymmetric");
}

}  // namespace
}  // namespace spanwright
