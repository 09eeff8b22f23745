// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QPageSize>
#include <cmath>
#include <numeric>
#include <random>

#include "gui/certificate/certificate_layout.h"
#include "gui/certificate/chart_layout.h"
#include "gui/certificate/table_layout.h"
#include "gui/certificate/type.h"
#include "tests/core/certificate/example.h"

namespace spanwright {
namespace {

const QSizeF kA4(5953.0, 8419.0);

TEST(RoundAxis, CoversItsRangeInRoundSteps) {
  const unsigned seed = 4711;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> exponent(-6.0, 6.0);
  std::uniform_real_distribution<double> shift(-1.0, 1.0);
  for (int i = 0; i < 1000; ++i) {
    const double width = std::pow(10.0, exponent(random));
    const double low = width * shift(random);
    const Axis axis = roundAxis(low, low + width, 6);
    ASSERT_GE(axis.ticks.size(), 2U);
    EXPECT_LE(axis.ticks.size(), 9U);
    EXPECT_LE(axis.ticks.front(), low + 1e-8 * width);
    EXPECT_GE(axis.ticks.back(), low + width - 1e-8 * width);
    const double step = axis.ticks[1] - axis.ticks[0];
    const double lead = step / std::pow(10.0, std::floor(std::log10(step * (1.0 + 1e-9))));
    EXPECT_TRUE(std::abs(lead - 1.0) < 1e-6 || std::abs(lead - 2.0) < 1e-6 || std::abs(lead - 5.0) < 1e-6)
        << step;
    // The decimals tell neighbouring ticks apart.
    EXPECT_LE(std::pow(10.0, -axis.decimals), step * (1.0 + 1e-9));
  }
}

CertificateChart chartOf(std::vector<ChartMark> marks) {
  return {"Errors", "mA", {}, std::move(marks)};
}

std::vector<PathItem> drawn(const CertificateChart& chart) {
  PageFlow flow(QRectF(480.0, 450.0, 5000.0, 7300.0), 680.0);
  placeChart(flow, chart);
  return flow.pages().front().paths;
}

/// Triangles have three corners and the closing one.
bool triangle(const PathItem& item) {
  return item.path.elementCount() == 4 && !item.dashed;
}
bool pointsUp(const PathItem& item) {
  return item.path.elementAt(0).y < item.path.elementAt(1).y;  // y grows downwards
}

TEST(ErrorChart, ShapesTellPhaseAndDirectionApart) {
  const auto items = drawn(chartOf({{0.0, 0.1, -1.0, 1.0, false, Direction::up},
                                    {50.0, 0.2, -1.0, 1.0, false, Direction::down},
                                    {50.0, 0.3, -1.0, 1.0, true, Direction::down},
                                    {100.0, 0.4, -1.0, 1.0, true, Direction::up}}));
  int shapes[2][2] = {{0, 0}, {0, 0}};
  for (const PathItem& item : items) {
    if (triangle(item)) {
      ++shapes[item.filled ? 1 : 0][pointsUp(item) ? 1 : 0];
    }
  }
  // One in the plot and one in the legend.
  for (const auto& phase : shapes) {
    EXPECT_THAT(phase, testing::ElementsAre(2, 2));
  }
}

TEST(ErrorChart, MarksStandAtTheirErrorBetweenTheLimitLines) {
  const auto items = drawn(chartOf(
      {{0.0, 0.5, -1.0, 1.0, false, Direction::none}, {100.0, -0.5, -1.0, 1.0, false, Direction::none}}));
  std::vector<QRectF> limits;
  std::vector<QPointF> circles;
  for (const PathItem& item : items) {
    const QRectF box = item.path.boundingRect();
    if (item.dashed && box.width() > 1000.0) {
      limits.push_back(box);
    } else if (item.path.elementCount() == 13) {
      circles.push_back(box.center());
    }
  }
  ASSERT_EQ(limits.size(), 2U);   // low, high
  ASSERT_EQ(circles.size(), 3U);  // the legend's, then the two marks
  const double low = limits[0].top();
  const double high = limits[1].top();
  EXPECT_GT(low, high);
  const auto heightOf = [&](double error) { return low + (error + 1.0) / 2.0 * (high - low); };
  EXPECT_NEAR(circles[1].y(), heightOf(0.5), 0.01);
  EXPECT_NEAR(circles[2].y(), heightOf(-0.5), 0.01);
  EXPECT_NEAR(circles[1].x(), limits[0].left(), 0.01);
  EXPECT_NEAR(circles[2].x(), limits[0].right(), 0.01);
}

TEST(ErrorChart, OpenLimitDrawsNoLine) {
  const double open = std::numeric_limits<double>::infinity();
  int lines = 0;
  for (const PathItem& item : drawn(chartOf({{0.0, 0.5, -1.0, open, false, Direction::none},
                                             {100.0, 0.5, -1.0, open, false, Direction::none}}))) {
    const QRectF box = item.path.boundingRect();
    lines += item.dashed && box.width() > 1000.0 ? 1 : 0;
    EXPECT_TRUE(std::isfinite(box.height()));
  }
  EXPECT_EQ(lines, 1);
}

TEST(ErrorChart, NothingIsDrawnWithoutMarks) {
  EXPECT_TRUE(drawn(chartOf({})).empty());
}

Grid gridWith(const QString& word) {
  Grid grid;
  grid.columns = {{QStringLiteral("Point"), {}, false},
                  {QStringLiteral("Reading"), QStringLiteral("mA"), true},
                  {QStringLiteral("Remark"), {}, false}};
  grid.rows = {{{QStringLiteral("25 % up"), QStringLiteral("123456.789"), word}, false}};
  return grid;
}

TEST(ColumnWidths, FillTheWidthAndHoldTheirNumbers) {
  for (const QString& word : {QStringLiteral("fine"), QStringLiteral("several words ").repeated(60),
                              QString(400, QLatin1Char('W'))}) {
    const Grid grid = gridWith(word);
    const ColumnFit fit = fitColumns(grid, 5000.0);
    EXPECT_NEAR(std::accumulate(fit.widths.begin(), fit.widths.end(), 0.0), 5000.0, 1e-6);
    EXPECT_GT(fit.widths[1], textWidth(typeface(fit.size), QStringLiteral("123456.789")));
    EXPECT_GT(fit.widths[0], textWidth(typeface(fit.size), QStringLiteral("Point")));
  }
}

TEST(Wrapped, KeepsEveryWordWithinTheWidth) {
  const QFont font = typeface(82);
  const QString text =
      QStringLiteral("some words and one that is wider than the line: ") + QString(80, QLatin1Char('m'));
  const QStringList lines = wrapped(font, text, 1500.0);
  for (const QString& line : lines) {
    EXPECT_LE(textWidth(font, line), 1500.0 + 1.0);
  }
  EXPECT_EQ(lines.join(QString()).remove(QLatin1Char(' ')), QString(text).remove(QLatin1Char(' ')));
}

TEST(Printed, ControlCharactersBecomeBlanksAndNumbersGetAMinus) {
  EXPECT_EQ(printed("two\nlines\tand  blanks "), QStringLiteral("two lines and blanks"));
  EXPECT_EQ(printed("50\u00a0%"), QString(QStringLiteral("50") + QChar(QChar::Nbsp) + QStringLiteral("%")));
  EXPECT_EQ(printedNumber("-0.1 to +0.2"), QString(QChar(0x2212)) + QStringLiteral("0.1 to +0.2"));
  EXPECT_EQ(printedNumber("2026-11-20"), QStringLiteral("2026-11-20"));
}

TEST(CertificateLayout, EveryTextIsDarkOnWhite) {
  // WCAG 2.1, 1.4.6: 7:1; on white that is a relative luminance of at most 0.1.
  example::Example made;
  example::longTexts(made);
  for (const Page& page : layOutCertificate(describeCertificate(made.source()), kA4)) {
    for (const TextItem& item : page.texts) {
      EXPECT_LE(std::pow(item.color.lightnessF(), 2.2), 0.1) << item.text.toStdString();
    }
  }
}

TEST(CertificateLayout, EmptyCertificateIsOnePage) {
  EXPECT_EQ(layOutCertificate(Certificate(), kA4).size(), 1U);
}

TEST(CertificateLayout, OddTextsStayInsideThePage) {
  example::Example made;
  example::fiveUpDown(made);
  Certificate certificate = describeCertificate(made.source());
  const std::vector<std::string> odd{std::string(3000, 'M'), "\xff\xfe broken bytes",
                                     "line\nline\r\n\tline", "\u0645\u0639\u0627\u064a\u0631\u0629",
                                     "\U0001F600",           ""};
  for (const std::string& text : odd) {
    certificate.statements.push_back(text);
    certificate.item.push_back({text.substr(0, 500), text});
    certificate.issuer.push_back(text);
    certificate.standards.push_back({text, text, text, text, text, text, text});
    certificate.tables.front().rows.front().reading = text;
  }
  certificate.number = std::string(30, 'N');
  certificate.title = std::string(40, 'T');
  for (const Page& page : layOutCertificate(certificate, kA4)) {
    for (const TextItem& item : page.texts) {
      EXPECT_GE(item.baseline.x(), 0.0);
      EXPECT_LE(item.baseline.x() + textWidth(item.font, item.text), kA4.width()) << item.text.toStdString();
      EXPECT_GT(item.baseline.y(), 0.0);
      EXPECT_LT(item.baseline.y(), kA4.height());
    }
  }
}

}  // namespace
}  // namespace spanwright
