// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/arguments.h"

#include <gtest/gtest.h>

namespace spanwright {
namespace {

TEST(Arguments, UnderstandAPictureOfAScreen) {
  Arguments read;
  EXPECT_EQ(readArguments(
                {"program", "larkmead.spanwright", "--screen", "channel", "--channel", "TT-101", "--size",
                 "1920x1080", "--dark", "--text-size", "150", "--on", "2026-11-25", "--picture", "out.png"},
                read)
                .toStdString(),
            "");
  EXPECT_EQ(read.record, "larkmead.spanwright");
  EXPECT_EQ(read.screen, "channel");
  EXPECT_EQ(read.channel, "TT-101");
  EXPECT_EQ(read.size, QSize(1920, 1080));
  EXPECT_EQ(read.look, Look::dark);
  EXPECT_EQ(read.textSize, 150);
  EXPECT_EQ(read.on, parseDate("2026-11-25"));
  EXPECT_EQ(read.picture, "out.png");
}

TEST(Arguments, RefuseWhatIsWrongInOneSentence) {
  const std::vector<QStringList> wrong{
      {"--screen", "nowhere"},   {"--size", "12"},         {"--size", "1x1"},
      {"--size", "99999x99999"}, {"--on", "tomorrow"},     {"a", "b"},
      {"--subject", "moon"},     {"--unheard-of"},         {"--text-size", "110"},
      {"--text-size", "huge"},   {"--dark", "--contrast"}, {"--screen"}};
  for (const QStringList& each : wrong) {
    Arguments read;
    const QString sentence = readArguments(QStringList{"program"} + each, read);
    EXPECT_TRUE(sentence.endsWith('.')) << each.join(' ').toStdString() << ": " << sentence.toStdString();
  }
}

}  // namespace
}  // namespace spanwright
