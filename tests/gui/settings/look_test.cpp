// SPDX-License-Identifier: GPL-3.0-or-later
//
// Colours by number. The limits are those of W3C, Web Content Accessibility Guidelines 2.2, 1.4.3 (text, 4.5
// : 1), 1.4.6 (enhanced, 7 : 1) and 1.4.11 (marks and edges, 3 : 1).
#include "gui/settings/look.h"

#include <gtest/gtest.h>

#include <QApplication>

#include "gui/charts/chart_look.h"
#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

// "contrast ratio" and "relative luminance" of the guidelines: black on white is 21 : 1 by definition; the
// greys are the pair the guidelines' own understanding documents are read with: #767676 is the lightest grey
// that passes on white, #777777 the first that does not.
TEST(Contrast, IsTheGuidelines) {
  EXPECT_NEAR(contrastRatio(Qt::black, Qt::white), 21.0, 1e-9);
  EXPECT_NEAR(contrastRatio(Qt::white, Qt::black), 21.0, 1e-9);
  EXPECT_NEAR(contrastRatio(Qt::white, Qt::white), 1.0, 1e-9);
  EXPECT_NEAR(contrastRatio(QColor("#767676"), Qt::white), 4.54, 0.005);
  EXPECT_GE(contrastRatio(QColor("#767676"), Qt::white), 4.5);
  EXPECT_LT(contrastRatio(QColor("#777777"), Qt::white), 4.5);
  // By the definition itself: pure red has the luminance 0.2126, so 1.05 / 0.2626 on white.
  EXPECT_NEAR(contrastRatio(QColor("#ff0000"), Qt::white), 1.05 / 0.2626, 1e-4);
}

class EveryLook : public ::testing::TestWithParam<Look> {
 protected:
  EveryLook() { applyLook(*qApp, GetParam()); }
  ~EveryLook() override { applyLook(*qApp, Look::light); }
  static double textNeeds() { return GetParam() == Look::contrast ? 7.0 : 4.5; }
};

TEST_P(EveryLook, TextCanBeReadOnItsGround) {
  const QPalette palette = QApplication::palette();
  const auto expectReadable = [&palette](QPalette::ColorRole text, QPalette::ColorRole ground) {
    EXPECT_GE(contrastRatio(palette.color(text), palette.color(ground)), textNeeds())
        << text << " on " << ground;
  };
  for (const auto ground : {QPalette::Window, QPalette::Base, QPalette::AlternateBase}) {
    for (const auto text :
         {QPalette::WindowText, QPalette::Text, QPalette::PlaceholderText, QPalette::Link}) {
      expectReadable(text, ground);
    }
    for (int tone = 0; tone <= static_cast<int>(Tone::plain); ++tone) {
      EXPECT_GE(contrastRatio(toneColour(static_cast<Tone>(tone)), palette.color(ground)), textNeeds())
          << tone;
    }
    EXPECT_GE(contrastRatio(palette.color(QPalette::Dark), palette.color(ground)), 3.0) << "edges";
    EXPECT_GE(contrastRatio(palette.color(QPalette::Highlight), palette.color(ground)), 3.0) << "focus frame";
  }
  expectReadable(QPalette::ButtonText, QPalette::Button);
  expectReadable(QPalette::HighlightedText, QPalette::Highlight);
  expectReadable(QPalette::ToolTipText, QPalette::ToolTipBase);
}

TEST_P(EveryLook, LinesOfChartsStandOut) {
  const ChartLook look = chartLook();
  for (const QColor& line : {look.found, look.left, look.limit, look.fit, look.pause, look.forecast}) {
    EXPECT_GE(contrastRatio(line, look.paper), 3.0) << line.name().toStdString();
  }
  EXPECT_GE(contrastRatio(look.ink, look.paper), textNeeds());
}

TEST_P(EveryLook, IsFoundByTheNameItIsKeptUnder) {
  EXPECT_EQ(lookOf(codeOf(GetParam())), GetParam());
  EXPECT_EQ(currentLook(), GetParam());
  EXPECT_EQ(lookOf(QStringLiteral("pink")), std::nullopt);
}

INSTANTIATE_TEST_SUITE_P(Looks, EveryLook, ::testing::ValuesIn(allLooks()),
                         [](const auto& each) { return codeOf(each.param).toStdString(); });

TEST(TextSize, IsOneOfThoseThereAre) {
  EXPECT_EQ(textSizeNear(100), 100);
  EXPECT_EQ(textSizeNear(160), 150);
  EXPECT_EQ(textSizeNear(9999), 200);
  EXPECT_EQ(textSizeNear(-5), 100);
}

TEST(TextSize, MakesTheTextAndWhatIsScaledWithItLarger) {
  const double usual = QApplication::font().pointSizeF();
  applyTextSize(*qApp, 200);
  EXPECT_DOUBLE_EQ(QApplication::font().pointSizeF(), 2.0 * usual);
  EXPECT_EQ(scaled(28), 56);
  applyTextSize(*qApp, 125);
  EXPECT_DOUBLE_EQ(QApplication::font().pointSizeF(), 1.25 * usual);
  applyTextSize(*qApp, 100);
  EXPECT_DOUBLE_EQ(QApplication::font().pointSizeF(), usual);
  EXPECT_EQ(scaled(28), 28);
}

}  // namespace
}  // namespace spanwright
