// SPDX-License-Identifier: GPL-3.0-or-later
//
// The language of the window, changed while people work in it.
#include "gui/screens/desktop.h"
#include "gui/actions/commands.h"

#include <QAbstractButton>
#include <QApplication>
#include <QHeaderView>
#include <QLabel>
#include <QLocale>
#include <QMenu>
#include <QMenuBar>
#include <QScrollBar>
#include <QTabBar>
#include <QTableView>
#include <QTest>

#include "gui/models/sheet_model.h"
#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/page_area.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

QString plain(QString text) {
  return text.remove(u'&');
}

class DesktopTest : public GuiTest {
 protected:
  ~DesktopTest() override {
    desktop_.reset();
    session_.reset();
    applyLanguage(Language::english);
    applyTextSize(*qApp, 100);
    QLocale::setDefault(QLocale(QLocale::English, QLocale::UnitedKingdom));
  }

  void start(const std::vector<ProposedVisit>& visits) {
    applyLanguage(Language::english);
    makeRecord(visits);
    session_ = std::make_unique<Session>(clock_);
    desktop_ = std::make_unique<Desktop>(*session_);
    window().resize(1280, 720);
    window().show();
    ASSERT_EQ(session_->openNow(recordFile()).toStdString(), "");
    session_->worker().waitUntilIdle();
  }
  MainWindow& window() { return desktop_->window(); }

  /// By the menu, as a person does.
  void choose(const QString& language) {
    const MainWindow* before = &window();
    QAction* wanted = nullptr;
    for (QAction* each : window().findChildren<QAction*>()) {
      wanted = plain(each->text()) == language ? each : wanted;
    }
    ASSERT_NE(wanted, nullptr) << language.toStdString();
    wanted->trigger();
    ASSERT_TRUE(QTest::qWaitFor([&] { return &window() != before; }));
    session_->worker().waitUntilIdle();
  }

  QStringList menus() {
    QStringList all;
    for (const QAction* each : window().menuBar()->actions()) {
      all << plain(each->text());
    }
    return all;
  }
  /// The texts of a column of the table with this name.
  QStringList column(const QString& table, const QString& heading) {
    QStringList all;
    for (const auto* view : window().findChildren<QTableView*>()) {
      for (int c = 0; view->accessibleName() == table && c < view->model()->columnCount(); ++c) {
        if (view->model()->headerData(c, Qt::Horizontal).toString() == heading) {
          for (int r = 0; r < view->model()->rowCount(); ++r) {
            all << view->model()->index(r, c).data().toString();
          }
        }
      }
    }
    return all;
  }

  std::unique_ptr<Desktop> desktop_;
};

TEST_F(DesktopTest, AnotherLanguageChangesWordsDatesAndNumbersAtOnceAndIsKept) {
  start({visitTo("TT-1", "2025-11-20T09:00:00", 0.1)});
  window().showChannel(QStringLiteral("TT-1"));
  session_->worker().waitUntilIdle();
  EXPECT_EQ(menus().join(' ').toStdString(), "Record Manage Go Work View Help");
  EXPECT_EQ(column("Calibrations", "Performed").join(' ').toStdString(), "20 Nov 2025 09:00");
  EXPECT_EQ(shownError(0.1, 0.01).toStdString(), "+0.100");

  choose(QStringLiteral("Deutsch"));
  EXPECT_EQ(menus().join(' ').toStdString(), "Akte Bearbeiten Gehe zu Arbeit Ansicht Hilfe");
  EXPECT_EQ(window().currentScreen(), window().channelScreen());
  EXPECT_EQ(window().channelScreen()->channel().toStdString(), "TT-1");
  EXPECT_EQ(column("Kalibrierungen", "Durchgeführt").join(' ').toStdString(), "20.11.2025 09:00");
  EXPECT_EQ(column("Kalibrierungen", "Vorgefunden").join(' ').toStdString(),
            word(Verdict::pass).toStdString());
  EXPECT_EQ(word(Verdict::pass).toStdString(), "bestanden");
  EXPECT_EQ(shownError(0.1, 0.01).toStdString(), "+0,100");
  EXPECT_EQ(QCoreApplication::translate("QPlatformTheme", "Cancel").toStdString(), "Abbrechen");
  EXPECT_EQ(kLanguage.get().toStdString(), "de");
  EXPECT_TRUE(window().isVisible());
  EXPECT_EQ(window().size(), QSize(1280, 720));

  choose(QStringLiteral("English"));
  EXPECT_EQ(menus().join(' ').toStdString(), "Record Manage Go Work View Help");
  EXPECT_EQ(column("Calibrations", "Performed").join(' ').toStdString(), "20 Nov 2025 09:00");
  EXPECT_EQ(kLanguage.get().toStdString(), "en");
}

TEST_F(DesktopTest, ASheetInMidVisitGoesAlongWithEverythingTyped) {
  start({});
  window().showVisit(QStringLiteral("TT-1"), Subject::channel);
  VisitEntry& before = window().visitScreen()->entry();
  before.setConditions({21.5, std::nullopt, "draughty", std::nullopt});
  before.setCautionsConfirmed(true);

  choose(QStringLiteral("Deutsch"));  // nothing typed yet: there is no draft on disk
  ASSERT_EQ(window().currentScreen(), window().visitScreen());
  VisitEntry& german = window().visitScreen()->entry();
  ASSERT_TRUE(german.isOpen());
  EXPECT_TRUE(german.draft().cautionsConfirmed);
  EXPECT_EQ(german.draft().conditions.note, "draughty");
  EXPECT_EQ(german.draft().conditions.temperature, 21.5);
  EXPECT_EQ(session_->store().drafts().size(), 0U);
  german.setTyped(Phase::asFound, 0, QStringLiteral("0,05"));
  german.setTyped(Phase::asFound, 1, QStringLiteral("auslassen: Schalter klemmt"));

  choose(QStringLiteral("English"));
  ASSERT_EQ(window().currentScreen(), window().visitScreen());
  const VisitEntry& again = window().visitScreen()->entry();
  EXPECT_EQ(again.typed(Phase::asFound, 0).toStdString(), "0,05");
  EXPECT_EQ(again.typed(Phase::asFound, 1).toStdString(), "skip: Schalter klemmt");
  EXPECT_EQ(session_->store().drafts().size(), 1U);
}

TEST_F(DesktopTest, EveryPlaceIsGoneBackTo) {
  start({visitTo("TT-1", "2025-11-20T09:00:00", 0.1)});
  window().showDue();
  choose(QStringLiteral("Deutsch"));
  EXPECT_EQ(window().currentScreen(), window().dueScreen());
  window().showCertificate(1);
  choose(QStringLiteral("English"));
  EXPECT_EQ(window().currentScreen(), window().certificateScreen());
  EXPECT_EQ(window().certificateScreen()->calibration(), std::optional<CalibrationId>(1));
}

/// What answers to Alt and a letter on the page shown: menus, labels with a box, buttons, tabs.
QStringList altLetters(MainWindow& window) {
  QStringList letters;
  const auto take = [&letters](const QString& text) {
    const QString key = QKeySequence::mnemonic(text).toString();
    if (!key.isEmpty()) {
      letters << key;
    }
  };
  for (const QAction* each : window.menuBar()->actions()) {
    take(each->text());
  }
  for (const auto* each : window.findChildren<QLabel*>()) {
    if (each->isVisible() && each->buddy() != nullptr) {
      take(each->text());
    }
  }
  for (const auto* each : window.findChildren<QAbstractButton*>()) {
    // A tool button of the bar has its action's text, which is heard only in its menu.
    if (each->isVisible() && each->inherits("QToolButton") == false) {
      take(each->text());
    }
  }
  for (const auto* bar : window.findChildren<QTabBar*>()) {
    for (int i = 0; bar->isVisible() && i < bar->count(); ++i) {
      take(bar->tabText(i));
    }
  }
  return letters;
}

QString oftenIn(QStringList letters) {
  letters.sort();
  QStringList often;
  for (int i = 1; i < letters.size(); ++i) {
    if (letters[i] == letters[i - 1]) {
      often << letters[i];
    }
  }
  return often.join(u' ');
}

/// Texts that do not fit where they stand.
QStringList cutOff(MainWindow& window) {
  QStringList cut;
  for (const auto* each : window.findChildren<QLabel*>()) {
    const bool text = each->isVisible() && !each->text().isEmpty();
    const int needed = each->wordWrap() ? each->minimumSizeHint().width() : each->sizeHint().width();
    if (text && (each->width() < needed ||
                 (each->wordWrap() && each->height() < each->heightForWidth(each->width())))) {
      cut << each->text();
    }
  }
  for (const auto* each : window.findChildren<QAbstractButton*>()) {
    if (each->isVisible() && !each->text().isEmpty() &&
        each->fontMetrics().horizontalAdvance(plain(each->text())) + 8 > each->width()) {
      cut << each->text();
    }
  }
  for (const auto* header : window.findChildren<QHeaderView*>()) {
    for (int i = 0; header->isVisible() && header->orientation() == Qt::Horizontal && i < header->count();
         ++i) {
      const QString text = header->model()->headerData(i, Qt::Horizontal).toString();
      for (const QString& line : text.split(u'\n')) {
        if (!header->isSectionHidden(i) &&
            header->fontMetrics().horizontalAdvance(line) + 4 > header->sectionSize(i)) {
          cut << line;
        }
      }
    }
  }
  return cut;
}

TEST_F(DesktopTest, LettersAreUniqueAndNothingIsCutOffOnAnyPageInEitherLanguage) {
  start({visitTo("TT-1", "2024-11-20T09:00:00", 0.1), visitTo("TT-1", "2025-11-20T09:00:00", 0.3, 0.0)});
  for (const auto& language : {QStringLiteral("Deutsch"), QStringLiteral("English")}) {
    choose(language);
    for (const QMenu* menu : window().menuBar()->findChildren<QMenu*>()) {
      QStringList letters;
      for (const QAction* each : menu->actions()) {
        letters << QKeySequence::mnemonic(each->text()).toString();
      }
      letters.removeAll(QString());
      EXPECT_EQ(oftenIn(letters).toStdString(), "") << menu->title().toStdString();
    }
    for (const QString& screen : screenNames()) {
      if (screen == QLatin1String("start")) {
        continue;  // not while a record is open
      }
      ASSERT_TRUE(window().showScreen(screen, QStringLiteral("TT-1"))) << screen.toStdString();
      session_->worker().waitUntilIdle();
      (void)QTest::qWaitFor([this] { return cutOff(window()).isEmpty(); });  // layouts settle in turns
      EXPECT_EQ(oftenIn(altLetters(window())).toStdString(), "")
          << language.toStdString() << ", " << screen.toStdString();
      EXPECT_EQ(cutOff(window()).join(QStringLiteral(" | ")).toStdString(), "")
          << language.toStdString() << ", " << screen.toStdString();
    }
  }
}

// Where a page needs more room than the window has, it scrolls; down, never across.
TEST_F(DesktopTest, NothingIsCutOffWithTheLargestText) {
  start({visitTo("TT-1", "2024-11-20T09:00:00", 0.1), visitTo("TT-1", "2025-11-20T09:00:00", 0.3, 0.0)});
  choose(QStringLiteral("200 %"));
  for (const auto& language : {QStringLiteral("English"), QStringLiteral("Deutsch")}) {
    choose(language);
    ASSERT_EQ(window().size(), QSize(1280, 720));
    for (const QString& screen : screenNames()) {
      if (screen == QLatin1String("start")) {
        continue;  // not while a record is open
      }
      ASSERT_TRUE(window().showScreen(screen, QStringLiteral("TT-1"))) << screen.toStdString();
      session_->worker().waitUntilIdle();
      (void)QTest::qWaitFor([this] { return cutOff(window()).isEmpty(); });  // layouts settle in turns
      EXPECT_EQ(cutOff(window()).join(QStringLiteral(" | ")).toStdString(), "")
          << language.toStdString() << ", " << screen.toStdString();
      EXPECT_EQ(window().findChild<PageArea*>()->horizontalScrollBar()->maximum(), 0)
          << language.toStdString() << ", " << screen.toStdString() << " is too wide";
    }
  }
}

TEST(Commands, NoKeyIsGivenTwice) {
  QStringList keys;
  for (const Command& each : commands()) {
    for (const QKeySequence& key : commandKeys(each.id)) {
      keys << key.toString(QKeySequence::PortableText);
    }
  }
  EXPECT_GT(keys.size(), 30);
  EXPECT_EQ(oftenIn(keys).toStdString(), "");
}

}  // namespace
}  // namespace spanwright
