// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/arguments.h"

#include <QCommandLineParser>
#include <QRegularExpression>

#include "gui/settings/text_size.h"
#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

void describe(QCommandLineParser& parser) {
  parser.setApplicationDescription(tr("Calibration record and drift of a site's measuring channels."));
  parser.addPositionalArgument(QStringLiteral("RECORD"), tr("record file to open"),
                               QStringLiteral("[RECORD]"));
  parser.addOptions({
      {QStringLiteral("sample"), tr("start with the sample record (an invented site)")},
      {QStringLiteral("screen"), tr("screen to show first; \"list\" prints the names"),
       QStringLiteral("NAME")},
      {QStringLiteral("channel"), tr("channel the screen is about"), QStringLiteral("TAG")},
      {QStringLiteral("subject"), tr("channel, sensor or loop, for the entry sheet"),
       QStringLiteral("SUBJECT")},
      {QStringLiteral("size"), tr("size of the window, for instance 1280x720"), QStringLiteral("WxH")},
      {QStringLiteral("light"), tr("light colours")},
      {QStringLiteral("dark"), tr("dark colours")},
      {QStringLiteral("contrast"), tr("colours of high contrast")},
      {QStringLiteral("text-size"), tr("100, 125, 150, 175 or 200 percent of the machine's own text"),
       QStringLiteral("PERCENT")},
      {QStringLiteral("language"), tr("system, en or de; without it, what was chosen last"),
       QStringLiteral("CODE")},
      {QStringLiteral("on"), tr("take this day as today, for instance 2026-11-25"), QStringLiteral("DATE")},
      {QStringLiteral("picture"), tr("draw the screen into this PNG file without a display, and end"),
       QStringLiteral("OUT.png")},
      {{QStringLiteral("h"), QStringLiteral("help")}, tr("show this help")},
      {QStringLiteral("version"), tr("show the version")},
  });
}

QString readSize(const QString& text, Arguments& into) {
  static const QRegularExpression kForm(QStringLiteral("^(\\d{3,5})x(\\d{3,5})$"));
  const auto match = kForm.match(text);
  if (!match.hasMatch() || match.captured(1).toInt() < 640 || match.captured(2).toInt() < 480 ||
      match.captured(1).toInt() > 8192 || match.captured(2).toInt() > 8192) {
    return tr("The size \"%1\" is not understood; give width x height from 640x480 to 8192x8192, for "
              "instance 1280x720.")
        .arg(text);
  }
  into.size = {match.captured(1).toInt(), match.captured(2).toInt()};
  into.sizeGiven = true;
  return {};
}

QString readLook(const QCommandLineParser& parser, Arguments& into) {
  for (const Look look : allLooks()) {
    if (parser.isSet(codeOf(look))) {
      if (into.look) {
        return tr("Give one of --light, --dark and --contrast, not several.");
      }
      into.look = look;
    }
  }
  if (parser.isSet(QStringLiteral("text-size"))) {
    const QString given = parser.value(QStringLiteral("text-size"));
    const int percent = given.toInt();
    if (textSizeNear(percent) != percent) {
      return tr("The text size \"%1\" is not one there is; give 100, 125, 150, 175 or 200.").arg(given);
    }
    into.textSize = percent;
  }
  return {};
}

QString readScreen(const QString& name, Arguments& into) {
  if (name == QLatin1String("list")) {
    into.listScreens = true;
    return {};
  }
  if (!screenNames().contains(name)) {
    return tr("There is no screen \"%1\"; the screens are %2.")
        .arg(name, screenNames().join(QStringLiteral(", ")));
  }
  into.screen = name;
  return {};
}

}  // namespace

const QStringList& screenNames() {
  static const QStringList kNames{
      QStringLiteral("start"),   QStringLiteral("today"),     QStringLiteral("site"),
      QStringLiteral("channel"), QStringLiteral("visit"),     QStringLiteral("certificate"),
      QStringLiteral("due"),     QStringLiteral("review"),    QStringLiteral("drift"),
      QStringLiteral("plan"),    QStringLiteral("intervals"), QStringLiteral("standards"),
      QStringLiteral("rounds"),  QStringLiteral("journal"),   QStringLiteral("trace"),
      QStringLiteral("reach")};
  return kNames;
}

QString readArguments(const QStringList& given, Arguments& into) {
  QCommandLineParser parser;
  describe(parser);
  if (!parser.parse(given)) {
    return asSentence(parser.errorText());
  }
  into.help = parser.isSet(QStringLiteral("help"));
  into.version = parser.isSet(QStringLiteral("version"));
  into.sample = parser.isSet(QStringLiteral("sample"));
  into.channel = parser.value(QStringLiteral("channel"));
  into.subject = parser.value(QStringLiteral("subject"));
  into.picture = parser.value(QStringLiteral("picture"));
  const QStringList records = parser.positionalArguments();
  if (records.size() > 1) {
    return tr("Give one record, not %1.").arg(records.size());
  }
  into.record = records.value(0);
  if (!into.subject.isEmpty() && !parseSubject(toCore(into.subject))) {
    return tr("There is no subject \"%1\"; give channel, sensor or loop.").arg(into.subject);
  }
  if (parser.isSet(QStringLiteral("on"))) {
    into.on = parseDate(toCore(parser.value(QStringLiteral("on"))));
    if (!into.on) {
      return tr("The day \"%1\" is not understood; write it as 2026-11-25.")
          .arg(parser.value(QStringLiteral("on")));
    }
  }
  if (parser.isSet(QStringLiteral("language"))) {
    into.language = languageOf(parser.value(QStringLiteral("language")));
    if (!into.language) {
      return tr("There is no language \"%1\"; give system, en or de.")
          .arg(parser.value(QStringLiteral("language")));
    }
  }
  const QString wrongLook = readLook(parser, into);
  if (!wrongLook.isEmpty()) {
    return wrongLook;
  }
  if (parser.isSet(QStringLiteral("size"))) {
    QString wrong = readSize(parser.value(QStringLiteral("size")), into);
    if (!wrong.isEmpty()) {
      return wrong;
    }
  }
  return parser.isSet(QStringLiteral("screen")) ? readScreen(parser.value(QStringLiteral("screen")), into)
                                                : QString();
}

QString helpText() {
  QCommandLineParser parser;
  describe(parser);
  return parser.helpText();
}

}  // namespace spanwright
