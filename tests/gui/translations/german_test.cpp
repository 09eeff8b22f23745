// SPDX-License-Identifier: GPL-3.0-or-later
//
// The German translation is whole: the sources' texts are collected again and compared with what is
// translated.
#include <gtest/gtest.h>

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QProcess>
#include <QRegularExpression>
#include <QSet>
#include <QTemporaryDir>
#include <QXmlStreamReader>
#include <vector>

namespace spanwright {
namespace {

const QString kSources = QStringLiteral(SPANWRIGHT_SOURCE_DIR "/gui");
const QString kGerman = kSources + QStringLiteral("/translations/spanwright_de.ts");
const auto kCure =
    "; run the target update_translations, then translate what is unfinished in "
    "gui/translations/spanwright_de.ts";

struct Message {
  QString context, source, comment, translation;
  bool finished = true;
  std::string told() const { return (context + QStringLiteral(": ") + source).toStdString(); }
};

std::vector<Message> messagesOf(const QString& file) {
  QFile in(file);
  EXPECT_TRUE(in.open(QIODevice::ReadOnly)) << file.toStdString();
  QXmlStreamReader xml(&in);
  std::vector<Message> all;
  QString context;
  while (!xml.atEnd()) {
    if (xml.readNext() != QXmlStreamReader::StartElement) {
      continue;
    }
    if (xml.name() == QLatin1String("name")) {
      context = xml.readElementText();
    } else if (xml.name() == QLatin1String("message")) {
      all.push_back({context, {}, {}, {}, true});
    } else if (xml.name() == QLatin1String("source")) {
      all.back().source = xml.readElementText();
    } else if (xml.name() == QLatin1String("comment")) {
      all.back().comment = xml.readElementText();
    } else if (xml.name() == QLatin1String("translation")) {
      all.back().finished = !xml.attributes().hasAttribute(QLatin1String("type"));
      all.back().translation = xml.readElementText();
    }
  }
  EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString();
  return all;
}

/// The texts of the sources, with the translations there are; what the collecting tool remarks goes into
/// `remarks`.
std::vector<Message> collected(QString& remarks) {
  const QTemporaryDir folder;
  const QString file = folder.filePath(QStringLiteral("spanwright_de.ts"));
  EXPECT_TRUE(QFile::copy(kGerman, file));
  QProcess tool;
  tool.setProcessChannelMode(QProcess::MergedChannels);
  tool.start(QStringLiteral(SPANWRIGHT_LUPDATE),
             {QStringLiteral("-silent"), QStringLiteral("-no-obsolete"), QStringLiteral("-locations"),
              QStringLiteral("none"), QStringLiteral("-I"), QStringLiteral(SPANWRIGHT_SOURCE_DIR), kSources,
              QStringLiteral("-ts"), file});
  EXPECT_TRUE(tool.waitForFinished(120000));
  EXPECT_EQ(tool.exitCode(), 0);
  remarks = QString::fromUtf8(tool.readAll());
  return messagesOf(file);
}

QString keyOf(const Message& message) {
  return message.context + u'\n' + message.source + u'\n' + message.comment;
}

QStringList found(const QString& text, const QRegularExpression& what) {
  QStringList all;
  for (auto match = what.globalMatch(text); match.hasNext();) {
    all << match.next().captured();
  }
  all.sort();
  return all;
}

TEST(German, EveryTextOfTheSourcesIsTranslated) {
  QString remarks;
  const auto now = collected(remarks);
  EXPECT_GT(now.size(), 500U);
  QSet<QString> wanted;
  for (const Message& each : now) {
    wanted << keyOf(each);
    EXPECT_TRUE(each.finished && !each.translation.isEmpty()) << each.told() << " is not translated" << kCure;
  }
  for (const Message& each : messagesOf(kGerman)) {
    EXPECT_TRUE(wanted.contains(keyOf(each))) << each.told() << " is in no source any more" << kCure;
  }
}

// A text filed under a name that the program does not look under is never shown in German.
TEST(German, TextsAreFiledWhereTheProgramLooks) {
  QString remarks;
  collected(remarks);
  static const QRegularExpression kLacks(QStringLiteral("Class '([^']+)' lacks Q_OBJECT"));
  for (auto match = kLacks.globalMatch(remarks); match.hasNext();) {
    const QString name = match.next().captured(1);
    // Free functions: gui/words/tr.h looks under the namespace.
    EXPECT_EQ(name.toStdString(), "spanwright")
        << "calls tr() without Q_OBJECT or Q_DECLARE_TR_FUNCTIONS(spanwright::...)";
  }
  static const QRegularExpression kUnder(QStringLiteral("translate\\(\\s*\"(\\w+)\",\\s*[^\"\\s]"));
  int looked = 0;
  for (QDirIterator at(kSources, {QStringLiteral("*.cpp"), QStringLiteral("*.h")}, QDir::Files,
                       QDirIterator::Subdirectories);
       at.hasNext();) {
    QFile file(at.next());
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const QString text = QString::fromUtf8(file.readAll());
    for (auto match = kUnder.globalMatch(text); match.hasNext();) {
      const QString name = match.next().captured(1);
      ++looked;
      EXPECT_TRUE(name == QLatin1String("spanwright") ||
                  text.contains(QStringLiteral("QT_TRANSLATE_NOOP(\"%1\"").arg(name)))
          << at.fileName().toStdString() << " looks under \"" << name.toStdString()
          << "\", where nothing is filed; use tr() of gui/words/tr.h";
    }
  }
  EXPECT_GE(looked, 2);
}

TEST(German, NoPlaceForAValueIsLostOrMadeUp) {
  static const QRegularExpression kPlace(QStringLiteral("%[1-9n]"));
  int looked = 0;
  for (const Message& each : messagesOf(kGerman)) {
    const QStringList wanted = found(each.source, kPlace);
    looked += wanted.isEmpty() ? 0 : 1;
    EXPECT_EQ(found(each.translation, kPlace).join(' ').toStdString(), wanted.join(' ').toStdString())
        << each.told();
  }
  EXPECT_GT(looked, 50);
}

TEST(German, KeysTagsAndLinesAreKept) {
  static const QRegularExpression kKey(QStringLiteral("&\\w"),
                                       QRegularExpression::UseUnicodePropertiesOption);
  static const QRegularExpression kTag(QStringLiteral("</?\\w+>|;;|\\*\\.?\\w*"));
  int keys = 0;
  for (const Message& each : messagesOf(kGerman)) {
    const auto wanted = found(each.source, kKey).size();
    keys += wanted > 0 ? 1 : 0;
    EXPECT_EQ(found(each.translation, kKey).size(), wanted) << each.told() << ": the letter behind &";
    EXPECT_EQ(found(each.translation, kTag).join(' ').toStdString(),
              found(each.source, kTag).join(' ').toStdString())
        << each.told();
    EXPECT_EQ(each.translation.count(u'\n'), each.source.count(u'\n')) << each.told() << ": lines";
    if (each.source.count(u' ') >= 3) {  // fewer words may be abbreviated
      EXPECT_EQ(each.translation.endsWith(u'.'), each.source.endsWith(u'.')) << each.told() << ": full stop";
    }
    EXPECT_EQ(each.translation.startsWith(u' '), each.source.startsWith(u' ')) << each.told() << ": space";
  }
  EXPECT_GT(keys, 20);
}

TEST(German, NoSentenceIsLeftInEnglish) {
  for (const Message& each : messagesOf(kGerman)) {
    if (each.source.count(u' ') >= 2 &&
        each.source.contains(QRegularExpression(QStringLiteral("[a-z]{3}")))) {
      EXPECT_NE(each.translation.toStdString(), each.source.toStdString()) << each.told();
    }
  }
}

}  // namespace
}  // namespace spanwright
