// SPDX-License-Identifier: GPL-3.0-or-later
//
// The program itself: pictures without a display, and its exit statuses.
#include <QImage>
#include <QProcess>

#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

struct Outcome {
  int status = -1;
  QString out, err;
};

Outcome run(const QStringList& arguments) {
  QProcess process;
  process.start(QStringLiteral(SPANWRIGHT_BUILD_DIR "/spanwright-desktop"), arguments);
  if (!process.waitForFinished(120000)) {
    return {};
  }
  return {process.exitStatus() == QProcess::NormalExit ? process.exitCode() : -1,
          QString::fromUtf8(process.readAllStandardOutput()),
          QString::fromUtf8(process.readAllStandardError())};
}

class Program : public GuiTest {};

TEST_F(Program, DrawsEveryScreenWithoutADisplay) {
  makeRecord({visitTo("TT-1", "2024-11-20T09:00:00", 0.1), visitTo("TT-1", "2025-11-20T09:00:00", 0.15)});
  const QStringList screens = run({"--screen", "list"}).out.split('\n', Qt::SkipEmptyParts);
  EXPECT_EQ(
      screens.join(' ').toStdString(),
      "start today site channel visit certificate due review drift plan intervals standards rounds journal "
      "trace reach");
  QList<QImage> pictures;
  for (const QString& screen : screens) {
    const QString file = folder_.filePath(screen + ".png");
    const Outcome outcome = run({recordFile(), "--screen", screen, "--channel", "TT-1", "--size", "1280x720",
                                 "--on", "2026-11-25", "--picture", file});
    EXPECT_EQ(outcome.status, 0) << screen.toStdString() << ": " << outcome.err.toStdString();
    EXPECT_EQ(outcome.err.toStdString(), "");
    const QImage picture(file);
    EXPECT_EQ(picture.size(), QSize(1280, 720)) << screen.toStdString();
    for (const QImage& other : pictures) {
      EXPECT_NE(picture, other) << screen.toStdString() << " looks like another screen";
    }
    pictures << picture;
  }
}

TEST_F(Program, SpeaksTheLanguageOfTheMachineOrTheOneAskedFor) {
  const auto helpOf = [this](const char* machine, const QStringList& arguments) {
    QProcess process;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.remove("LC_ALL");
    environment.remove("LANGUAGE");
    environment.insert("LANG", machine);
    environment.insert("XDG_CONFIG_HOME", folder_.path());  // nobody's settings
    process.setProcessEnvironment(environment);
    process.start(QStringLiteral(SPANWRIGHT_BUILD_DIR "/spanwright-desktop"), arguments);
    process.waitForFinished(120000);
    return QString::fromUtf8(process.readAllStandardOutput());
  };
  const auto isGerman = [](const QString& help) {
    return help.contains("Kalibrierakte und Drift der Messkanäle eines Standorts.") &&
           !help.contains("Calibration record");
  };
  EXPECT_TRUE(isGerman(helpOf("de_DE.UTF-8", {"--help"})));
  EXPECT_FALSE(isGerman(helpOf("en_GB.UTF-8", {"--help"})));
  EXPECT_FALSE(isGerman(helpOf("fr_FR.UTF-8", {"--help"})));
  EXPECT_TRUE(isGerman(helpOf("en_GB.UTF-8", {"--help", "--language", "de"})));
  EXPECT_FALSE(isGerman(helpOf("de_DE.UTF-8", {"--help", "--language", "en"})));
  EXPECT_EQ(run({"--language", "xx", "--help"}).status, 2);
}

TEST_F(Program, SaysWhatIsWrongAndEndsWithTheRightStatus) {
  makeRecord();
  const QString picture = folder_.filePath("out.png");
  EXPECT_EQ(run({recordFile(), "--screen", "nowhere", "--picture", picture}).status, 2);
  EXPECT_EQ(run({"--screen", "site", "--picture", picture}).status, 2);
  EXPECT_EQ(run({recordFile(), "--screen", "channel", "--channel", "NO-SUCH", "--picture", picture}).status,
            3);
  EXPECT_EQ(run({recordFile(), "--picture", folder_.filePath("no/such/folder/out.png")}).status, 4);
  const Outcome missing =
      run({folder_.filePath("missing.spanwright"), "--screen", "site", "--picture", picture});
  EXPECT_EQ(missing.status, 4);
  EXPECT_EQ(missing.err.count('\n'), 1) << missing.err.toStdString();
  EXPECT_FALSE(QFile::exists(picture));
}

}  // namespace
}  // namespace spanwright
