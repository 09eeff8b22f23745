// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/text.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace spanwright {
namespace {

TEST(SmallLetters, OfEveryAlphabetPeopleWriteTagsIn) {
  const struct {
    const char* large;
    const char* small;
  } cases[] = {{"TT-101", "tt-101"},
               {"ÄÖÜ ẞ", "äöü ẞ"},
               {"ÀÉÎÕØÞ", "àéîõøþ"},
               {"ŁŹŻĆŞĞ", "łźżćşğ"},
               {"ΔΩ", "δω"},
               {"ЁЖЩ", "ёжщ"},
               {"×÷ß", "×÷ß"},
               {"5 µm °C Ⅳ 漢", "5 µm °c Ⅳ 漢"},
               {"already small", "already small"},
               {"", ""}};
  for (const auto& each : cases) {
    EXPECT_EQ(smallLetters(each.large), each.small);
    EXPECT_EQ(smallLetters(each.small), each.small) << "twice is once";
  }
}

TEST(SmallLetters, LeaveWhatIsNoText) {
  const std::string torn = "A\xC3";  // a letter cut in two
  EXPECT_EQ(smallLetters(torn), "a\xC3");
  EXPECT_EQ(smallLetters("\xFF\xC3(B"), "\xFF\xC3(b");
}

TEST(Words, StandBetweenBlanksAndControlCharacters) {
  EXPECT_THAT(wordsOf("  one\ttwo\nthree "), testing::ElementsAre("one", "two", "three"));
  EXPECT_THAT(wordsOf(" \t "), testing::IsEmpty());
  EXPECT_THAT(wordsOf("ä\x01ö"), testing::ElementsAre("ä", "ö"));
}

}  // namespace
}  // namespace spanwright
