// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/output_states.h"

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

const DiscreteState& rowOf(const std::vector<DiscreteState>& rows, bool commandedOn, Link link) {
  for (const DiscreteState& row : rows)
    if (row.commandedOn == commandedOn && row.link == link)
      return row;
  throw std::runtime_error("no such row");
}

TEST(OutputStates, FollowTheCommandWhileTheLinkIsThere) {
  for (const LossBehaviour onLoss : {LossBehaviour::off, LossBehaviour::hold}) {
    const auto rows = stateTable({24.0, 2.0, 1.0, onLoss});
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_FALSE(rowOf(rows, false, Link::present).on);
    EXPECT_TRUE(rowOf(rows, true, Link::present).on);
  }
}

TEST(OutputStates, HoldOrGoOffWhenItIsLost) {
  EXPECT_TRUE(rowOf(stateTable({24.0, 2.0, 1.0, LossBehaviour::hold}), true, Link::lost).on);
  EXPECT_FALSE(rowOf(stateTable({24.0, 2.0, 1.0, LossBehaviour::hold}), false, Link::lost).on);
  EXPECT_FALSE(rowOf(stateTable({24.0, 2.0, 1.0, LossBehaviour::off}), true, Link::lost).on);
  EXPECT_FALSE(rowOf(stateTable({24.0, 2.0, 1.0, LossBehaviour::off}), false, Link::lost).on);
}

TEST(OutputStates, GiveTheVoltsOfEachState) {
  const auto rows = stateTable({24.0, 3.0, 0.5, LossBehaviour::hold});
  for (const DiscreteState& row : rows) {
    EXPECT_NEAR(row.low, row.on ? 21.0 : -0.5, 1e-12);
    EXPECT_NEAR(row.high, row.on ? 26.4 : 0.5, 1e-12);
  }
}

TEST(OutputStates, AnalogSignalOnLoss) {
  AnalogOutputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.units = Span{0.0, 100.0, Unit::percent};
  setup.onLoss = LossBehaviour::hold;
  EXPECT_EQ(signalOnLoss(setup, 0.5), 12.0);
  setup.onLoss = LossBehaviour::minimum;
  EXPECT_EQ(signalOnLoss(setup, 0.5), 4.0);
  setup.signal = {20.0, 4.0, Unit::milliampere};
  EXPECT_EQ(signalOnLoss(setup, 0.5), 4.0);
  setup.onLoss = LossBehaviour::off;
  EXPECT_EQ(signalOnLoss(setup, 0.5), 0.0);
}

}  // namespace
}  // namespace spanwright
