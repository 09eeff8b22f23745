// SPDX-License-Identifier: GPL-3.0-or-later
//
// Labels read back as a phone would: the page drawn by poppler, the codes read by zbar.
#include "gui/certificate/label_layout.h"

#include <gmock/gmock.h>

#include <QFontMetricsF>
#include <QProcess>
#include <QTemporaryDir>

#include "core/record/problem.h"
#include "gui/certificate/draw.h"
#include "gui/certificate/qr_code.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

constexpr double kMillimetre = kUnitsPerInch / 25.4;
const QSizeF kA4(5953.0, 8419.0);

ChannelLabel label(const std::string& tag) {
  return {tag, "", "2026-02-20", "2027-02-19", "LARK-2026-0014"};
}

QString output(const QString& program, const QStringList& arguments) {
  QProcess process;
  process.start(program, arguments);
  EXPECT_TRUE(process.waitForFinished(30000)) << program.toStdString();
  EXPECT_EQ(process.exitCode(), 0) << program.toStdString() << ": "
                                   << process.readAllStandardError().toStdString();
  return QString::fromUtf8(process.readAllStandardOutput());
}

/// Where a label's tag stands on a page, in millimetres; nothing when it does not.
std::optional<QPointF> placeOf(const Page& page, const QString& tag) {
  for (const TextItem& item : page.texts) {
    if (item.text == tag) {
      return item.baseline / kMillimetre;
    }
  }
  return std::nullopt;
}

TEST(Labels, AreReadBackFromTheDrawnSheet) {
  const QTemporaryDir folder;
  const QString file = folder.filePath("labels.pdf");
  ChannelLabel sensor = label("TT-101 Kühlwasser");
  sensor.subject = "sensor";
  ChannelLabel bare = label("PT-2");
  bare.due.clear();
  bare.certificate.clear();
  EXPECT_EQ(writeLabelsPdf({label("TE-106"), sensor, bare}, {.firstFree = 2}, file), 1);
  const QString picture = folder.filePath("page");
  output("pdftoppm", {"-r", "200", "-gray", "-singlefile", file, picture});
  const QString read = output("zbarimg", {"-q", "--raw", "-Sdisable", "-Sqrcode.enable", picture + ".pgm"});
  for (const ChannelLabel& each : {label("TE-106"), sensor, bare}) {
    EXPECT_THAT(read.toStdString(), HasSubstr(labelText(each) + "\n"));
  }
  EXPECT_EQ(read.count("calibrated 2026-02-20"), 3);
  const QString words = output("pdftotext", {"-layout", file, "-"});
  for (const char* word : {"TE-106", "Kühlwasser", "due 2027-02-19", "LARK-2026-0014", "sensor"}) {
    EXPECT_TRUE(words.contains(QString::fromUtf8(word))) << word << "\n" << words.toStdString();
  }
  EXPECT_EQ(words.count("due "), 2) << "one has no due date, and says none";
}

TEST(Labels, BeginAtTheFirstFreePlaceAndGoOnOnTheNextSheet) {
  const LabelSheet sheet{.firstFree = 26};  // 3 x 9 of 70 x 30 mm on A4
  EXPECT_EQ(labelsOnSheet(sheet, kA4), 27);
  const auto pages = layOutLabels({label("A"), label("B"), label("C"), label("D")}, sheet, kA4);
  ASSERT_EQ(pages.size(), 2U);
  const auto b = placeOf(pages[0], "B");
  ASSERT_TRUE(placeOf(pages[0], "A") && b);
  EXPECT_GT(b->x(), 140.0) << "the last column";
  EXPECT_GT(b->y(), 13.5 + 8 * 30.0) << "the last row";
  const auto c = placeOf(pages[1], "C");
  ASSERT_TRUE(c && placeOf(pages[1], "D"));
  EXPECT_LT(c->x(), 70.0) << "the next sheet is whole";
  EXPECT_LT(c->y(), 13.5 + 30.0);
}

TEST(Labels, StayWithinTheirPlaces) {
  const LabelSheet sheet{.width = 62, .height = 24, .left = 8, .top = 10, .gapAcross = 2, .gapDown = 1};
  ChannelLabel longest = label("A-VERY-LONG-TAG-OF-A-CHANNEL-1234567890");
  longest.subject = "loop";
  const auto pages = layOutLabels({longest}, sheet, kA4);
  const QRectF box(8 * kMillimetre, 10 * kMillimetre, 62 * kMillimetre, 24 * kMillimetre);
  for (const PathItem& item : pages.at(0).paths) {
    EXPECT_TRUE(box.contains(item.path.boundingRect()));
  }
  for (const TextItem& item : pages.at(0).texts) {
    const QFontMetricsF metrics(item.font);
    EXPECT_TRUE(box.contains(metrics.tightBoundingRect(item.text).translated(item.baseline)))
        << item.text.toStdString();
  }
}

TEST(Labels, ASheetThatCannotBeReadIsRefusedWithWhatWouldDo) {
  const auto fault = [](const LabelSheet& sheet) {
    return labelSheetFault({label("TE-106")}, sheet, kA4).value_or("none");
  };
  EXPECT_EQ(fault({}), "none");
  EXPECT_EQ(fault({.width = 300}), "not even one label of this size stands on the paper");
  EXPECT_EQ(fault({.firstFree = 28}), "the first free label must be between 1 and 27");
  EXPECT_EQ(fault({.firstFree = 0}), "the first free label must be between 1 and 27");
  EXPECT_THAT(fault({.height = 12}), HasSubstr("mm high for the code of TE-106 to be read"));
  EXPECT_THAT(fault({.width = 40}), HasSubstr("mm wide to hold code and text"));
  const QTemporaryDir folder;
  const QString file = folder.filePath("labels.pdf");
  EXPECT_THROW(writeLabelsPdf({label("A")}, {.width = 300}, file), InputError);
  EXPECT_THROW(writeLabelsPdf({}, {}, file), InputError);
  EXPECT_FALSE(QFile::exists(file));
}

TEST(Codes, HaveABlankMarginInsideTheirBox) {
  const QrCode code = qrCode("TE-106\ncalibrated 2026-02-20");
  const double module = 100.0 / (code.modules + 2 * kQuietModules);
  const QRectF drawn = qrPath(code, {0, 0, 100, 100}).boundingRect();
  EXPECT_NEAR(drawn.left(), kQuietModules * module, 1e-9);
  EXPECT_NEAR(drawn.bottom(), 100.0 - kQuietModules * module, 1e-9);
}

}  // namespace
}  // namespace spanwright
