// SPDX-License-Identifier: GPL-3.0-or-later
//
// The desktop program. Exit status: 0 done, 2 called wrongly, 3 input refused, 4 the record could not be read
// or the picture not written.
#include <QApplication>
#include <QPixmap>
#include <QTemporaryDir>
#include <cstdio>
#include <memory>

#include "gui/screens/desktop.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/session/arguments.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace {

using namespace spanwright;  // NOLINT(google-build-using-namespace)

constexpr int kCalledWrongly = 2;
constexpr int kRefused = 3;
constexpr int kUnreadable = 4;

int complain(const QString& sentence, int status) {
  std::fprintf(stderr, "%s\n", qUtf8Printable(sentence));
  return status;
}

/// Draws one screen into a file and answers the exit status.
int draw(Session& session, MainWindow& window, const Arguments& arguments, const QString& record) {
  window.resize(arguments.size);
  const QString screen = arguments.screen.isEmpty() ? QStringLiteral("today") : arguments.screen;
  if (record.isEmpty() && screen != QLatin1String("start")) {
    return complain(
        QCoreApplication::translate("Main", "The screen \"%1\" needs a record; name one, or give --sample.")
            .arg(screen),
        kCalledWrongly);
  }
  if (!record.isEmpty()) {
    const QString trouble = session.openNow(record);
    if (!trouble.isEmpty()) {
      return complain(trouble, kUnreadable);
    }
  }
  window.show();
  session.worker().waitUntilIdle();
  const auto subject = parseSubject(toCore(arguments.subject));
  if (!window.showScreen(screen, arguments.channel, subject)) {
    return complain(QCoreApplication::translate("Main", "There is no channel \"%1\" in this record.")
                        .arg(arguments.channel),
                    kRefused);
  }
  session.worker().waitUntilIdle();
  for (int i = 0; i < 5; ++i) {  // layouts and charts settle over several turns of the event loop
    QCoreApplication::processEvents();
    QCoreApplication::sendPostedEvents();
  }
  if (!window.grab().save(arguments.picture, "PNG")) {
    return complain(
        QCoreApplication::translate("Main", "The picture %1 could not be written; check the folder.")
            .arg(arguments.picture),
        kUnreadable);
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  QStringList given;
  for (int i = 0; i < argc; ++i) {
    given << QString::fromLocal8Bit(argv[i]);
  }
  Arguments arguments;
  const QString wrong = readArguments(given, arguments);
  if (!wrong.isEmpty()) {
    return complain(wrong, kCalledWrongly);
  }
  if (arguments.version) {
    std::printf("spanwright-desktop %s\n", SPANWRIGHT_VERSION);
    return 0;
  }
  if (arguments.listScreens) {
    std::printf("%s\n", qUtf8Printable(screenNames().join(u'\n')));
    return 0;
  }
  const bool picture = !arguments.picture.isEmpty();
  if (picture || arguments.help) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
  }
  QTemporaryDir ownSettings;
  if (picture) {
    // A picture neither depends on a person's settings nor changes them, and the offscreen platform's own
    // remarks are not for people.
    QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, ownSettings.path());
    QSettings::setDefaultFormat(QSettings::IniFormat);
    qInstallMessageHandler([](QtMsgType type, const QMessageLogContext&, const QString& text) {
      if (type == QtCriticalMsg || type == QtFatalMsg) {
        std::fprintf(stderr, "%s\n", qUtf8Printable(text));
      }
    });
  }
  QApplication application(argc, argv);
  QCoreApplication::setOrganizationName(QStringLiteral("spanwright"));
  QCoreApplication::setApplicationName(QStringLiteral("spanwright-desktop"));
  applyLanguage(arguments.language.value_or(languageOf(kLanguage.get()).value_or(Language::system)));
  if (arguments.help) {
    std::printf("%s", qUtf8Printable(helpText()));
    return 0;
  }
  const QString record = arguments.sample && arguments.record.isEmpty() ? sampleRecord() : arguments.record;
  if (arguments.sample && record.isEmpty()) {
    return complain(
        QCoreApplication::translate(
            "Main", "The sample record is not beside the program; make it with sample_sites/run."),
        kUnreadable);
  }
  applyTextSize(application, textSizeNear(arguments.textSize.value_or(kTextSize.get())));
  applyLook(application, arguments.look.value_or(lookOf(kLook.get()).value_or(Look::light)));
  std::unique_ptr<FixedClock> fixed = arguments.on ? std::make_unique<FixedClock>(*arguments.on) : nullptr;
  Session session(fixed ? static_cast<const Clock&>(*fixed) : systemClock());
  Desktop desktop(session);
  MainWindow& window = desktop.window();
  if (picture) {
    return draw(session, window, arguments, record);
  }
  if (arguments.sizeGiven) {
    window.resize(arguments.size);
  }
  window.show();
  if (arguments.sample && arguments.record.isEmpty()) {
    window.openSample();
  } else if (!record.isEmpty()) {
    session.open(record);
  }
  if (!arguments.screen.isEmpty()) {
    QObject::connect(&session, &Session::opened, &window, [&window, &arguments] {
      if (!window.showScreen(arguments.screen, arguments.channel, parseSubject(toCore(arguments.subject)))) {
        window.bar()->showTrouble(
            QCoreApplication::translate("Main", "There is no channel \"%1\" in this record.")
                .arg(arguments.channel));
      }
    });
  }
  return QApplication::exec();
}
