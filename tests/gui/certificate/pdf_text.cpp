// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/gui/certificate/pdf_text.h"

#include <gtest/gtest.h>

#include <QGuiApplication>
#include <QProcess>
#include <QRegularExpression>
#include <memory>

namespace spanwright::pdf {
namespace {

/// Fonts need an application; there is no display here.
class Application : public testing::Environment {
 public:
  void SetUp() override {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    application_ = std::make_unique<QGuiApplication>(count_, arguments_);
  }
  void TearDown() override { application_.reset(); }

 private:
  int count_ = 1;
  char name_[6] = "tests";
  char* arguments_[2] = {name_, nullptr};
  std::unique_ptr<QGuiApplication> application_;
};

const testing::Environment* const kApplication = testing::AddGlobalTestEnvironment(new Application);

}  // namespace

Written::Written(const Certificate& certificate, Paper paper) {
  EXPECT_TRUE(folder_.isValid());
  pages_ = writeCertificatePdf(certificate, file(), paper);
}

QString Written::tool(const QString& name, const QStringList& arguments) const {
  QProcess process;
  process.start(name, arguments);
  if (!process.waitForFinished(60000) || process.exitCode() != 0) {
    ADD_FAILURE() << name.toStdString()
                  << " (poppler-utils) did not run: " << process.errorString().toStdString()
                  << process.readAllStandardError().toStdString();
  }
  return QString::fromUtf8(process.readAllStandardOutput());
}

QStringList Written::pages(const QStringList& options) const {
  QString all = tool(QStringLiteral("pdftotext"), options + QStringList{file(), QStringLiteral("-")});
  EXPECT_TRUE(all.endsWith(QLatin1Char('\f')));
  all.chop(1);
  return all.split(QLatin1Char('\f'));
}

std::vector<PageWords> Written::words() const {
  const QString all =
      tool(QStringLiteral("pdftotext"), {QStringLiteral("-bbox"), file(), QStringLiteral("-")});
  static const QRegularExpression page(QStringLiteral("<page width=\"([\\d.]+)\" height=\"([\\d.]+)\">"));
  static const QRegularExpression word(QStringLiteral(
      "<word xMin=\"([-\\d.]+)\" yMin=\"([-\\d.]+)\" xMax=\"([-\\d.]+)\" yMax=\"([-\\d.]+)\">(.*)</word>"));
  std::vector<PageWords> pages;
  for (const QString& line : all.split(QLatin1Char('\n'))) {
    if (const auto found = page.match(line); found.hasMatch()) {
      pages.push_back({{found.captured(1).toDouble(), found.captured(2).toDouble()}, {}});
    } else if (const auto at = word.match(line); at.hasMatch() && !pages.empty()) {
      pages.back().words.push_back(
          {at.captured(5), QRectF(QPointF(at.captured(1).toDouble(), at.captured(2).toDouble()),
                                  QPointF(at.captured(3).toDouble(), at.captured(4).toDouble()))});
    }
  }
  return pages;
}

QString collapsed(QString text) {
  static const QRegularExpression blanks(QStringLiteral("[\\s\\x{00a0}]+"));
  return text.replace(blanks, QStringLiteral(" ")).trimmed();
}

}  // namespace spanwright::pdf
