// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/words.h"

#include <gtest/gtest.h>

#include <QLocale>
#include <limits>

#include "core/units/quantity.h"

namespace spanwright {
namespace {

TEST(Words, ShowValuesWithTheDigitsOfTheirStep) {
  EXPECT_EQ(shownValue(37.5, 0.1).toStdString(), "37.5");
  EXPECT_EQ(shownValue(37.5, 0.1, 1).toStdString(), "37.50");
  EXPECT_EQ(shownValue(-0.0001, 0.01).toStdString(), "0.00");
  EXPECT_EQ(shownValue(16000.0, 1.0).toStdString(), "16000");
  EXPECT_EQ(shownValue(std::numeric_limits<double>::infinity(), 0.1).toStdString(), "∞");
  EXPECT_EQ(shownValue(std::numeric_limits<double>::quiet_NaN(), 0.1).toStdString(), "not known");
  EXPECT_EQ(shownError(0.31, 0.01).toStdString(), "+0.310");
  EXPECT_EQ(shownError(0.0, 0.01).toStdString(), "0.000");
  EXPECT_EQ(shownRate(0.000209294).toStdString(), "+0.000209");
  EXPECT_EQ(shownRate(-12.345).toStdString(), "-12.3");
}

TEST(Words, PrefilledValuesAreFineEnoughToBeAppliedAsTheyStand) {
  EXPECT_DOUBLE_EQ(nominalStep(16.0), 0.001);   // mA
  EXPECT_DOUBLE_EQ(nominalStep(150.0), 0.01);   // degC
  EXPECT_DOUBLE_EQ(nominalStep(32000.0), 1.0);  // counts
  EXPECT_DOUBLE_EQ(nominalStep(-16.0), 0.001);
  EXPECT_DOUBLE_EQ(nominalStep(0.0), 0.0);
}

// A value shown in one locale and typed back as it stands must mean the same number to core.
TEST(Words, WhatIsShownInAnyLocaleIsReadBackAsTheSameNumber) {
  const QLocale before;
  for (const QLocale& locale :
       {QLocale(QLocale::English), QLocale(QLocale::German), QLocale(QLocale::French)}) {
    QLocale::setDefault(locale);
    for (const double value : {0.0, 4.02, -12.5, 1234.25, 32000.0}) {
      const auto typed = parseQuantity(toCore(shownValue(value, 0.01)));
      ASSERT_TRUE(typed) << locale.name().toStdString() << ' ' << shownValue(value, 0.01).toStdString();
      EXPECT_DOUBLE_EQ(typed->value, value) << locale.name().toStdString();
    }
  }
  QLocale::setDefault(before);
}

TEST(Words, SentencesBeginWithACapitalAndEndWithAStop) {
  Problem missing;
  missing.what = "the point is missing";
  missing.todo = "type it";
  EXPECT_EQ(problemSentence(missing).toStdString(), "The point is missing; type it.");
  EXPECT_EQ(asSentence("is it?").toStdString(), "Is it?");
  EXPECT_EQ(asSentence("").toStdString(), "");
}

TEST(Words, DescriptionsCarryTheSignsPeopleRead) {
  EXPECT_EQ(shownDescription("4-20 mA to 0-150 degC, 16 bit").toStdString(), "4-20 mA to 0-150 °C, 16 bit");
  EXPECT_EQ(shownDescription("100 ohm").toStdString(), "100 Ω");
}

TEST(Words, CountsAgreeWithTheirNouns) {
  EXPECT_EQ(shownDays(1).toStdString(), "1 day");
  EXPECT_EQ(shownDays(365).toStdString(), "365 days");
}

TEST(Words, EveryCodeHasAWord) {
  for (const DueState state :
       {DueState::unproven, DueState::overdue, DueState::inGrace, DueState::dueSoon, DueState::ok}) {
    EXPECT_FALSE(word(state).isEmpty());
  }
  for (const BreakCause cause : {BreakCause::start, BreakCause::adjustment, BreakCause::repair,
                                 BreakCause::newSetup, BreakCause::otherSensor}) {
    EXPECT_FALSE(word(cause).isEmpty());
  }
  TestPoint point;
  for (const PointRole role :
       {PointRole::value, PointRole::switchOn, PointRole::switchOff, PointRole::alarmTrip,
        PointRole::alarmReset, PointRole::stateOn, PointRole::stateOff, PointRole::lossOfSignal}) {
    point.role = role;
    EXPECT_FALSE(pointWord(point).isEmpty());
    // In English a point followed over the years reads as core names it.
    const bool value = role == PointRole::value;
    point.percent = value ? 12.5 : 0.0;
    point.alarm = AlarmLevel::lowLow;
    EXPECT_EQ(followedPointWord(pointKey(point), value ? std::optional(12.5) : std::nullopt).toStdString(),
              pointKey(point) + (value ? " %" : ""));
  }
}

}  // namespace
}  // namespace spanwright
