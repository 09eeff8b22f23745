// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/input_types.h"

#include <gtest/gtest.h>

#include <string>

#include "tests/support/csv.h"

namespace spanwright {
namespace {

TEST(InputTypes, ShowThePublishedStates) {
  int checked = 0;
  for (const auto& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/signals/discrete_input_examples.csv")) {
    ASSERT_EQ(row.at("rated_supply"), "24 V DC");
    const auto limits = inputTypeLimits(std::stoi(row.at("input_type")));
    ASSERT_TRUE(limits.has_value());
    EXPECT_EQ(text(inputState(*limits, std::stod(row.at("input_V")))), row.at("state"))
        << "type " << row.at("input_type") << " at " << row.at("input_V") << " V";
    ++checked;
  }
  EXPECT_EQ(checked, 18);
}

TEST(InputTypes, HaveThePublishedLimits) {
  int checked = 0;
  for (const auto& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/signals/discrete_input_limits.csv")) {
    const std::string type = row.at("input_type");
    if (row.at("rated_supply") != "24 V DC" || type.size() != 1) {
      continue;
    }
    const auto limits = inputTypeLimits(std::stoi(type));
    ASSERT_TRUE(limits.has_value()) << type;
    if (row.at("parameter") == "off_state_voltage") {
      EXPECT_EQ(limits->offLow, std::stod(row.at("min")));
      EXPECT_EQ(limits->offHigh, std::stod(row.at("max")));
      ++checked;
    } else if (row.at("parameter") == "on_state_voltage") {
      EXPECT_EQ(limits->onLow, std::stod(row.at("min")));
      EXPECT_EQ(limits->onHigh, std::stod(row.at("max")));
      ++checked;
    }
  }
  EXPECT_EQ(checked, 6);
  for (const int unknown : {-1, 0, 4, 24}) {
    EXPECT_FALSE(inputTypeLimits(unknown).has_value()) << unknown;
  }
}

// Custom levels on at 14 V, off at 6 V: common practice, no source.
TEST(InputState, KeepsItsStateBetweenOwnLevels) {
  struct Case {
    double volts;
    std::optional<bool> was;
    InputState state;
  };
  for (const Case& at : {Case{24, false, InputState::on}, Case{14, false, InputState::on},
                         Case{13.99, false, InputState::off}, Case{13.99, true, InputState::on},
                         Case{10, std::nullopt, InputState::indeterminate}, Case{6.01, true, InputState::on},
                         Case{6, true, InputState::off}, Case{0, std::nullopt, InputState::off}}) {
    EXPECT_EQ(inputState(14, 6, at.volts, at.was), at.state) << at.volts << " V";
  }
}

}  // namespace
}  // namespace spanwright
