// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a reader finds in the PDF: everything, once, inside the page, nothing on top of anything else.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QFile>
#include <QImage>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QThread>
#include <map>
#include <string>

#include "gui/certificate/type.h"
#include "tests/core/certificate/example.h"
#include "tests/gui/certificate/pdf_text.h"

namespace spanwright {
namespace {

using pdf::collapsed;
using pdf::Written;

struct Sample {
  const char* name;
  void (*make)(example::Example&);
  Paper paper;
};
void PrintTo(const Sample& sample, std::ostream* out) {
  *out << sample.name;
}

class CertificatePdf : public testing::TestWithParam<Sample> {
 protected:
  void SetUp() override {
    GetParam().make(made_);
    certificate_ = describeCertificate(made_.source());
  }
  example::Example made_;
  Certificate certificate_;
};

TEST_P(CertificatePdf, EveryPageCarriesTheNumberAndItsPlace) {
  const Written written(certificate_, GetParam().paper);
  const QStringList pages = written.pages({QStringLiteral("-layout")});
  ASSERT_EQ(pages.size(), written.pageCount());
  EXPECT_EQ(certificatePageCount(certificate_, GetParam().paper), written.pageCount());
  for (qsizetype i = 0; i < pages.size(); ++i) {
    EXPECT_EQ(pages[i].count(QStringLiteral("page %1 of %2").arg(i + 1).arg(pages.size())), 1) << i;
    EXPECT_EQ(pages[i].count(QRegularExpression(QStringLiteral("page \\d+ of \\d+"))), 1) << i;
    EXPECT_TRUE(pages[i].contains(QStringLiteral("LARK-2026-0014"))) << i;
    EXPECT_TRUE(pages[i].contains(QStringLiteral("Unsigned"))) << i;
  }
}

TEST_P(CertificatePdf, EndMarkStandsOnceOnTheLastPage) {
  const Written written(certificate_, GetParam().paper);
  const QStringList pages = written.pages({});
  for (qsizetype i = 0; i < pages.size(); ++i) {
    EXPECT_EQ(pages[i].count(QStringLiteral("End of certificate LARK-2026-0014")),
              i + 1 == pages.size() ? 1 : 0);
  }
}

/// The cells of a row, in order, with any blanks between their words, and perhaps a note's mark after the
/// point.
QString rowPattern(const CertificateTable& table, const CertificateRow& row) {
  QStringList cells;
  for (const CertificateColumn& column : certificateColumns(table)) {
    const QString text = column.number ? printedNumber(row.*column.cell) : printed(row.*column.cell);
    QStringList words;
    for (const QString& word : collapsed(text).split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
      words << QRegularExpression::escape(word);
    }
    if (column.cell == &CertificateRow::point && !row.note.empty()) {
      words << QStringLiteral("\\[\\d+\\]");
    }
    if (!words.isEmpty()) {
      cells << words.join(QStringLiteral("[\\s\\x{00a0}]+"));
    }
  }
  return QStringLiteral("(?m)^\\s*") + cells.join(QStringLiteral("\\s+")) + QStringLiteral("\\s*$");
}

TEST_P(CertificatePdf, EveryRowStandsExactlyOnce) {
  const Written written(certificate_, GetParam().paper);
  const QString all = written.pages({QStringLiteral("-layout")}).join(QLatin1Char('\n'));
  std::map<QString, qsizetype> wanted;  // as found and as left may agree to the last digit
  for (const CertificateTable& table : certificate_.tables) {
    if (table.appliedUnit.empty()) {
      continue;  // words that may break over lines: see the next test
    }
    for (const CertificateRow& row : table.rows) {
      ++wanted[rowPattern(table, row)];
    }
  }
  for (const auto& [pattern, count] : wanted) {
    EXPECT_EQ(all.count(QRegularExpression(pattern)), count) << pattern.toStdString();
  }
}

/// Everything the certificate says outside its tables of numbers.
std::vector<std::string> allTexts(const Certificate& certificate) {
  std::vector<std::string> all{certificate.title,         certificate.number,     certificate.mark,
                               certificate.placeOfWork,   certificate.adjustment, certificate.foundConclusion,
                               certificate.leftConclusion};
  for (const auto* list : {&certificate.issuer, &certificate.customer, &certificate.signatures,
                           &certificate.deviations, &certificate.statements}) {
    all.insert(all.end(), list->begin(), list->end());
  }
  for (const auto* list : {&certificate.item, &certificate.setup, &certificate.method, &certificate.work,
                           &certificate.conditions, &certificate.decision, &certificate.people}) {
    for (const LabelledText& text : *list) {
      all.push_back(text.label);
      all.push_back(text.value);
    }
  }
  for (const CertificateTable& table : certificate.tables) {
    all.push_back(table.title);
    all.push_back(table.conclusion);
    for (const CertificateRow& row : table.rows) {
      all.push_back(row.note);
    }
  }
  for (const CertificateChart& chart : certificate.charts) {
    all.push_back(chart.title);
    all.insert(all.end(), chart.categories.begin(), chart.categories.end());
  }
  return all;
}

TEST_P(CertificatePdf, EveryTextIsThere) {
  const Written written(certificate_, GetParam().paper);
  QString flowing;
  for (const QString& page : written.pages({QStringLiteral("-raw")})) {
    // Header and footer are drawn after a page's text: cut, so that text that goes on over the page joins up.
    QString body = collapsed(page);
    const auto head = body.lastIndexOf(QStringLiteral("Calibration certificate, number"));
    const auto foot = body.lastIndexOf(QStringLiteral("Number LARK"));
    flowing += body.left(head > 0 ? head : foot) + QLatin1Char(' ');
  }
  flowing = collapsed(flowing + QStringLiteral(" Number LARK-2026-0014"));
  // A mark of a note stands between the point and the rest; blanks do not matter where lines were broken.
  const QString dense = QString(flowing).remove(QLatin1Char(' '));
  for (const std::string& text : allTexts(certificate_)) {
    const QString wanted = collapsed(printed(text)).remove(QLatin1Char(' '));
    EXPECT_TRUE(dense.contains(wanted)) << text;
  }
}

TEST_P(CertificatePdf, NothingLeavesThePageOrCoversSomethingElse) {
  const Written written(certificate_, GetParam().paper);
  const auto pages = written.words();
  ASSERT_EQ(pages.size(), static_cast<std::size_t>(written.pageCount()));
  constexpr double kMargin = 30.0;  // points; printers leave some 18 blank
  constexpr double kTouch = 0.3;    // points; font boxes round
  for (const pdf::PageWords& page : pages) {
    ASSERT_FALSE(page.words.empty());
    const QRectF inside = QRectF(QPointF(0.0, 0.0), page.size).adjusted(kMargin, kMargin, -kMargin, -kMargin);
    for (std::size_t i = 0; i < page.words.size(); ++i) {
      const pdf::Word& word = page.words[i];
      EXPECT_TRUE(inside.contains(word.box)) << word.text.toStdString();
      for (std::size_t j = i + 1; j < page.words.size(); ++j) {
        const QRectF shared = word.box & page.words[j].box;
        EXPECT_FALSE(shared.width() > kTouch && shared.height() > kTouch)
            << word.text.toStdString() << " and " << page.words[j].text.toStdString();
      }
    }
  }
}

TEST_P(CertificatePdf, TitleCreatorPaperAndFonts) {
  const Written written(certificate_, GetParam().paper);
  const QString info = written.tool(QStringLiteral("pdfinfo"), {written.file()});
  EXPECT_TRUE(info.contains(
      QRegularExpression(QStringLiteral("Title:\\s+Calibration certificate LARK-2026-0014\\n"))));
  EXPECT_TRUE(info.contains(QRegularExpression(QStringLiteral("Creator:\\s+Spanwright \\d"))));
  EXPECT_TRUE(
      info.contains(GetParam().paper == Paper::letter ? QStringLiteral("(letter)") : QStringLiteral("(A4)")))
      << info.toStdString();
  const QStringList fonts =
      written.tool(QStringLiteral("pdffonts"), {written.file()}).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
  ASSERT_GT(fonts.size(), 2);
  for (qsizetype i = 2; i < fonts.size(); ++i) {
    EXPECT_TRUE(fonts[i].contains(QStringLiteral("DejaVu"))) << fonts[i].toStdString();
    // Columns emb, (sub), uni: the font travels with the file and its text can be searched.
    EXPECT_TRUE(fonts[i].contains(QRegularExpression(QStringLiteral("yes\\s+(yes|no)\\s+yes"))))
        << fonts[i].toStdString();
  }
}

INSTANTIATE_TEST_SUITE_P(Samples, CertificatePdf,
                         testing::Values(Sample{"FiveUpDown", example::fiveUpDown, Paper::a4},
                                         Sample{"FiveUpDownLetter", example::fiveUpDown, Paper::letter},
                                         Sample{"Threshold", example::threshold, Paper::a4},
                                         Sample{"LongTexts", example::longTexts, Paper::a4},
                                         Sample{"LongTextsLetter", example::longTexts, Paper::letter},
                                         Sample{"DiscreteOutput", example::discreteOutput, Paper::a4},
                                         Sample{"AlarmLevels", example::alarmLevels, Paper::a4},
                                         Sample{"AnalogOutput", example::analogOutput, Paper::a4},
                                         Sample{"SensorAlone", example::sensorAlone, Paper::letter}),
                         [](const testing::TestParamInfo<Sample>& sample) {
                           return std::string(sample.param.name);
                         });

TEST(CertificatePdfTables, HeadingsAreRepeatedWithUnitsOnEveryPageOfATable) {
  example::Example made;
  example::longTexts(made);
  const Written written(describeCertificate(made.source()));
  int continued = 0;
  for (const QString& page : written.pages({QStringLiteral("-layout")})) {
    if (page.contains(QRegularExpression(QStringLiteral("As (found|left) \\(continued\\)")))) {
      ++continued;
      EXPECT_TRUE(page.contains(QRegularExpression(QStringLiteral("Point\\s+°C\\s+°C\\s+°C\\s+°C"))) ||
                  page.contains(QRegularExpression(QStringLiteral("Applied\\s+Expected\\s+Reading"))));
    }
  }
  EXPECT_GE(continued, 2);
}

TEST(CertificatePdfTables, ThousandsOfRowsAreAllThere) {
  example::Example made;
  example::fiveUpDown(made);
  const std::vector<Reading> ten = made.calibration.asFound;
  for (int i = 1; i < 200; ++i) {
    for (Reading reading : ten) {
      reading.point.label = "point " + std::to_string(i) + "/" + std::to_string(reading.point.sequence);
      made.calibration.asFound.push_back(reading);
    }
  }
  const Written written(describeCertificate(made.source()));
  const QString all = written.pages({QStringLiteral("-layout")}).join(QLatin1Char('\n'));
  for (int i = 1; i < 200; ++i) {
    for (const Reading& reading : ten) {
      const QString label = QStringLiteral("point %1/%2 ").arg(i).arg(reading.point.sequence);
      EXPECT_EQ(all.count(label), 1) << label.toStdString();
    }
  }
}

// More than a second apart: what is issued again is the same file, and tells the day of issue.
TEST(CertificateFile, IsTheSameToTheByteWheneverItIsWritten) {
  example::Example made;
  example::fiveUpDown(made);
  const Certificate certificate = describeCertificate(made.source());
  ASSERT_EQ(certificate.issueDate.size(), 10U);
  QTemporaryDir folder;
  const auto written = [&](const QString& name) {
    const QString file = folder.filePath(name);
    writeCertificatePdf(certificate, file);
    QFile in(file);
    return in.open(QIODevice::ReadOnly) ? in.readAll() : QByteArray();
  };
  const QByteArray first = written("first.pdf");
  QThread::msleep(1100);
  const QByteArray second = written("second.pdf");
  EXPECT_GT(first.size(), 1000);
  EXPECT_TRUE(first == second);
  const QByteArray day =
      "/CreationDate (D:" + QByteArray::fromStdString(certificate.issueDate).replace("-", "") + "000000";
  EXPECT_EQ(first.count(day), 1);
}

TEST(CertificatePicture, ShowsTheSamePagesOnWhite) {
  example::Example made;
  example::fiveUpDown(made);
  const Certificate certificate = describeCertificate(made.source());
  for (int page = 0; page < certificatePageCount(certificate); ++page) {
    const QImage image = drawCertificatePage(certificate, page, 72.0);
    EXPECT_EQ(image.size(), QSize(595, 842));  // ISO 216 A4 at 72 dots per inch
    EXPECT_EQ(image.pixelColor(2, 2), QColor(Qt::white));
    qint64 dark = 0;
    for (int y = 0; y < image.height(); ++y) {
      for (int x = 0; x < image.width(); ++x) {
        dark += image.pixelColor(x, y).lightness() < 100 ? 1 : 0;
      }
    }
    EXPECT_GT(dark, 500) << page;
  }
  EXPECT_EQ(drawCertificatePage(certificate, 0, 72.0, Paper::letter).size(), QSize(612, 792));
}

}  // namespace
}  // namespace spanwright
