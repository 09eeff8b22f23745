// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "gui/certificate/sheet_layout.h"
#include "gui/certificate/type.h"

namespace spanwright {
namespace {

const QSizeF kA4(5953.0, 8419.0);
constexpr double kMillimetre = 720.0 / 25.4;

RoundSheetItem item(const std::string& tag, int points) {
  RoundSheetItem made;
  made.tag = tag;
  made.title = "Holding tube temperature";
  made.subject = "channel";
  made.facts = {
      {"Place", "Hall / Cabinet P1 / Station 1"}, {"Terminal", "4"}, {"Setup", "1: 4-20 mA to 0-150 degC"}};
  made.cautions = {"Put the loop in manual under the site's own rules before injecting."};
  made.readingUnit = "°C";
  made.previous = "as left on 2025-11-20, calibration 7";
  for (int i = 0; i < points; ++i) {
    made.points.push_back({std::to_string(i) + " % up", "12.5 mA (some long remark)", "37.5", "-37.125",
                           "37.875", "37.6 (+0.1)"});
  }
  return made;
}

RoundSheet sheet(std::vector<RoundSheetItem> items) {
  RoundSheet made;
  made.title = "Visits planned for 2026-12-02";
  made.site = "Invented site";
  made.day = "2026-12-02";
  made.technician = "Mara Tolland";
  made.take = {"LC-2201, loop calibrator"};
  made.items = std::move(items);
  made.programVersion = "Spanwright";
  return made;
}

const TextItem* find(const Page& page, const QString& text) {
  const auto at = std::find_if(page.texts.begin(), page.texts.end(),
                               [&](const TextItem& each) { return each.text == text; });
  return at == page.texts.end() ? nullptr : &*at;
}

/// Upright black lines: the sides of the columns to write in.
std::vector<QRectF> uprights(const Page& page) {
  std::vector<QRectF> found;
  for (const PathItem& each : page.paths) {
    const QRectF box = each.path.boundingRect();
    if (box.width() < 0.5 && box.height() > 100.0 && each.width > 5.0) {
      found.push_back(box);
    }
  }
  return found;
}

TEST(SheetLayout, EveryPageSaysWhereItBelongsAndThatItSaysNothingOfSafety) {
  const auto pages = layOutRoundSheets({sheet({item("TT-1", 11), item("TT-2", 11), item("TT-3", 60)})}, kA4);
  ASSERT_GE(pages.size(), 4U);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    EXPECT_NE(find(pages[i], QStringLiteral("This sheet does not say that work is safe.")), nullptr);
    EXPECT_NE(find(pages[i], QStringLiteral("page %1 of %2").arg(i + 1).arg(pages.size())), nullptr);
    EXPECT_EQ(find(pages[i], QStringLiteral("Visits planned for 2026-12-02; Invented site, 2026-12-02, Mara "
                                            "Tolland")) == nullptr,
              i == 0);
  }
  const auto two = layOutRoundSheets({sheet({item("TT-1", 5)}), sheet({item("TT-2", 5)})}, kA4);
  ASSERT_EQ(two.size(), 2U);
  EXPECT_NE(find(two[1], QStringLiteral("page 1 of 1")), nullptr) << "each sheet is counted for itself";
}

TEST(SheetLayout, CautionsStandBeforeWhatIsToBeDone) {
  const auto pages = layOutRoundSheets({sheet({item("TT-1", 5)})}, kA4);
  const Page& page = pages.front();
  const auto heightOf = [&](const char* text) {
    const TextItem* found = find(page, QString::fromLatin1(text));
    EXPECT_NE(found, nullptr) << text;
    return found == nullptr ? 0.0 : found->baseline.y();
  };
  EXPECT_LT(heightOf("Before anything else"), heightOf("Site"));
  EXPECT_LT(heightOf("TT-1"), heightOf("Cautions of the plan"));
  EXPECT_LT(heightOf("Cautions of the plan"), heightOf("Place"));
  EXPECT_LT(heightOf("Cautions of the plan"), heightOf("Standards used"));
}

// A number written by hand needs some 8 mm by 20 mm.
TEST(SheetLayout, BlanksAreBigEnoughToWriteIn) {
  const auto pages = layOutRoundSheets({sheet({item("TT-1", 5)})}, kA4);
  std::vector<QRectF> lines = uprights(pages.front());
  std::sort(lines.begin(), lines.end(), [](const QRectF& a, const QRectF& b) { return a.x() < b.x(); });
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_GE(lines[1].x() - lines[0].x(), 20.0 * kMillimetre);
  EXPECT_GE(lines[2].x() - lines[1].x(), 20.0 * kMillimetre);
  std::vector<double> rows;
  for (const TextItem& text : pages.front().texts) {
    if (text.text.endsWith(QStringLiteral(" % up"))) {
      rows.push_back(text.baseline.y());
    }
  }
  ASSERT_EQ(rows.size(), 5U);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    EXPECT_GE(rows[i] - rows[i - 1], 7.99 * kMillimetre);
  }
}

TEST(SheetLayout, NothingLeavesThePageOrStandsInTheBlanks) {
  RoundSheetItem wordy = item("TT-" + std::string(60, '9'), 40);
  wordy.title = std::string(200, 'W');
  wordy.facts.push_back({"Remark", std::string(400, 'x') + " and more words that go on and on and on"});
  wordy.cautions.assign(
      12, "A long caution that says the same again and again, so that its box has several lines.");
  RoundSheet made = sheet({wordy, item("TT-2", 3)});
  made.technician.clear();
  made.day.clear();
  for (const Page& page : layOutRoundSheets({made}, kA4)) {
    const std::vector<QRectF> lines = uprights(page);
    for (const TextItem& text : page.texts) {
      const double right = text.baseline.x() + textWidth(text.font, text.text);
      EXPECT_GE(text.baseline.x(), 470.0) << text.text.toStdString();
      EXPECT_LE(right, kA4.width() - 470.0) << text.text.toStdString();
      EXPECT_LE(text.baseline.y(), kA4.height() - 300.0) << text.text.toStdString();
      for (const QRectF& line : lines) {
        const bool beside = text.baseline.y() > line.top() + 260.0 && text.baseline.y() < line.bottom();
        EXPECT_FALSE(beside && right > line.x()) << text.text.toStdString() << " stands in a blank";
      }
    }
  }
}

TEST(SheetLayout, AChannelThatCannotBeVisitedSaysWhy) {
  RoundSheetItem gone = item("TT-1", 0);
  gone.problem = "No sensor is fitted.";
  const auto pages = layOutRoundSheets({sheet({gone})}, kA4);
  EXPECT_NE(find(pages.front(), QStringLiteral("There is nothing to fill in: No sensor is fitted.")),
            nullptr);
  EXPECT_TRUE(uprights(pages.front()).empty());
}

}  // namespace
}  // namespace spanwright
