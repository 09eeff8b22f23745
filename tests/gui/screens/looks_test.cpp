// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every page as people with other eyes or without a mouse meet it: the contrast of its texts measured from
// its picture, the frame around what has the keys, the way round it with Tab, and the names that are read
// out. The limits are those of W3C, Web Content Accessibility Guidelines 2.2, 1.4.3, 1.4.6 and 1.4.11;
// relative luminance as defined there.
#include <QAbstractButton>
#include <QAccessible>
#include <QApplication>
#include <QDateTimeEdit>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QPixmap>
#include <QTabBar>
#include <QTest>
#include <algorithm>
#include <cstdlib>
#include <set>

#include "gui/screens/desktop.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "tests/gui/fixture.h"
#include "tests/gui/screens/measured.h"

namespace spanwright {
namespace {

class Looks : public GuiTest {
 protected:
  ~Looks() override {
    desktop_.reset();
    session_.reset();
    applyLook(*qApp, Look::light);
    applyTextSize(*qApp, 100);
  }

  void start(Look look) {
    applyLook(*qApp, look);
    if (!QFile::exists(recordFile())) {
      makeRecord(
          {visitTo("TT-1", "2024-11-20T09:00:00", 0.1), visitTo("TT-1", "2025-11-20T09:00:00", 0.3, 0.0)});
    }
    desktop_.reset();
    session_ = std::make_unique<Session>(clock_);
    desktop_ = std::make_unique<Desktop>(*session_);
    window().resize(1280, 720);
    window().show();
    ASSERT_TRUE(makeActive(&window()));
  }
  void open() {
    ASSERT_EQ(session_->openNow(recordFile()).toStdString(), "");
    session_->worker().waitUntilIdle();
  }
  MainWindow& window() { return desktop_->window(); }

  /// Each page once, the start before the record is open.
  template <typename Visit>
  void onEveryPage(Look look, Visit visit, const QStringList& pages = screenNames()) {
    start(look);
    for (const QString& screen : pages) {
      if (screen != QLatin1String("start")) {
        if (!session_->isOpen()) {
          open();
        }
        ASSERT_TRUE(window().showScreen(screen, QStringLiteral("TT-1"))) << screen.toStdString();
        session_->worker().waitUntilIdle();
      }
      for (int i = 0; i < 4; ++i) {  // layouts and charts settle over several turns of the event loop
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents();
      }
      SCOPED_TRACE((codeOf(look) + u' ' + screen).toStdString());
      visit(screen);
    }
  }

  /// What Tab comes past from where the page begins, until it comes round.
  std::vector<QWidget*> tabRound() {
    constexpr int kMost = 150;
    std::vector<QWidget*> stops;
    QTest::keyClick(&window(), Qt::Key_Tab);
    for (int i = 0; i < kMost && QApplication::focusWidget() != nullptr; ++i) {
      QWidget* at = QApplication::focusWidget();
      const bool parts = qobject_cast<const QDateTimeEdit*>(at) != nullptr;
      if (!stops.empty() && at == stops.front() && !(parts && stops.size() == 1)) {
        return stops;
      }
      const bool within = !stops.empty() && at == stops.back();  // the parts of a day are stops of their own
      if (!within && std::find(stops.begin(), stops.end(), at) != stops.end()) {
        break;
      }
      if (!within) {
        stops.push_back(at);
      }
      QTest::keyClick(at, Qt::Key_Tab);
    }
    ADD_FAILURE() << "Tab does not come round; the last stop is "
                  << (stops.empty() ? "none" : told(stops.back()));
    return stops;
  }

  static std::string told(QWidget* widget) {
    const QAccessibleInterface* read = QAccessible::queryAccessibleInterface(widget);
    return widget->metaObject()->className() + std::string(" \"") +
           read->text(QAccessible::Name).toStdString() + '"';
  }

  /// What of the page shown takes the keys by Tab.
  std::vector<QWidget*> focusable() {
    std::vector<QWidget*> all;
    for (QWidget* each : window().findChildren<QWidget*>()) {
      if (each->isVisible() && each->isEnabled() && (each->focusPolicy() & Qt::TabFocus) != 0 &&
          each->focusProxy() == nullptr) {
        all.push_back(each);
      }
    }
    return all;
  }

  std::unique_ptr<Desktop> desktop_;
};

TEST_F(Looks, EveryTextOfEveryPageStandsOutInItsPicture) {
  for (const Look look : allLooks()) {
    std::size_t measured = 0;
    onEveryPage(look, [&](const QString&) {
      if (QWidget* focus = QApplication::focusWidget()) {
        focus->clearFocus();
      }
      for (const MeasuredText& each : measureTexts(window())) {
        const double needed = look == Look::contrast ? 7.0 : each.large ? 3.0 : 4.5;
        EXPECT_GE(each.ratio, needed) << each.text.toStdString();
        ++measured;
      }
    });
    EXPECT_GT(measured, 500U);
  }
}

/// Pixels of the two pictures that differ by 3 : 1 and more.
int changed(const QImage& one, const QImage& other) {
  int count = 0;
  for (int y = 0; y < one.height(); ++y) {
    for (int x = 0; x < one.width(); ++x) {
      const QRgb before = one.pixel(x, y);
      const QRgb after = other.pixel(x, y);
      count += before != after && contrastRatio(QColor(before), QColor(after)) >= 3.0 ? 1 : 0;
    }
  }
  return count;
}

TEST_F(Looks, WhatHasTheKeysIsSeenInEveryLook) {
  for (const Look look : allLooks()) {
    std::set<std::string> kinds;
    const auto frameIsSeen = [&](const QString&) {
      for (QWidget* each : focusable()) {
        if (!kinds.insert(each->metaObject()->className()).second) {
          continue;  // one of each kind
        }
        window().setFocus();
        QCoreApplication::processEvents();
        const QImage without = each->grab().toImage();
        each->setFocus(Qt::TabFocusReason);
        ASSERT_TRUE(each->hasFocus()) << told(each);
        QCoreApplication::processEvents();
        const QImage with = each->grab().toImage();
        // A frame round the widget, its text or the tab chosen. It may lie on an edge that stood out already,
        // so half a ring of pixels must be new.
        const auto* tabs = qobject_cast<const QTabBar*>(each);
        const QSize framed = tabs != nullptr ? tabs->tabRect(tabs->currentIndex()).size() : each->size();
        EXPECT_GE(changed(without, with), framed.width() + framed.height()) << told(each);
      }
    };
    // Pages that have every kind of widget between them.
    onEveryPage(look, frameIsSeen, {"start", "channel", "visit", "plan", "trace"});
    EXPECT_GE(kinds.size(), 13U);
  }
}

/// A name of its own, its words, or the label beside it. A box read out by what is in it has none.
bool isNamed(const QWidget& widget) {
  if (!widget.accessibleName().isEmpty() || widget.inherits("QTabBar")) {
    return true;
  }
  if (const auto* button = qobject_cast<const QAbstractButton*>(&widget)) {
    return !button->text().isEmpty();
  }
  const auto labels = widget.window()->findChildren<QLabel*>();
  return std::any_of(labels.begin(), labels.end(), [&widget](const QLabel* each) {
    return each->buddy() == &widget && !each->text().isEmpty();
  });
}

TEST_F(Looks, TabGoesRoundEveryPageLeavesNothingOutAndMeetsOnlyWhatHasAName) {
  onEveryPage(Look::light, [&](const QString&) {
    const std::vector<QWidget*> stops = tabRound();
    for (QWidget* each : focusable()) {
      EXPECT_TRUE(std::find(stops.begin(), stops.end(), each) != stops.end())
          << told(each) << " is not reached";
      EXPECT_TRUE(isNamed(*each)) << told(each) << " in " << each->parentWidget()->metaObject()->className();
    }
  });
}

TEST(WrapRow, GoesOnInAnotherLineAndKeepsANameBesideItsBox) {
  QWidget page;
  auto* row = new WrapRow(&page);
  auto* first = new QLineEdit(&page);
  auto* name = new QLabel(QStringLiteral("Name"), &page);
  auto* second = new QLineEdit(&page);
  name->setBuddy(second);
  row->addWidget(first);
  row->addWidget(name);
  row->addWidget(second, 1);
  const int oneLine = row->heightForWidth(2000);
  row->setGeometry({0, 0, 2000, 200});
  EXPECT_EQ(first->y(), second->y());
  EXPECT_GT(second->width(), first->width());  // what is spare goes where there is stretch

  const int narrow = first->sizeHint().width() + name->sizeHint().width() + 20;  // the name alone would fit
  EXPECT_GT(row->heightForWidth(narrow), oneLine);
  row->setGeometry({0, 0, narrow, 200});
  EXPECT_GT(name->y(), first->geometry().bottom());
  EXPECT_LT(std::abs(name->geometry().center().y() - second->geometry().center().y()), 3);
  EXPECT_GE(second->x(), name->geometry().right());
  EXPECT_LE(second->geometry().right(), narrow);
}

TEST_F(Looks, ChoosingOneUnderViewDressesTheWindowAnewAndIsKept) {
  start(Look::light);
  open();
  window().showDue();
  const auto press = [this](Qt::Key key, Qt::KeyboardModifiers modifiers) {
    const MainWindow* before = &window();
    QTest::keyClick(&window(), key, modifiers);
    ASSERT_TRUE(QTest::qWaitFor([&] { return &window() != before; }));
    ASSERT_TRUE(makeActive(&window()));
  };
  press(Qt::Key_H, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(currentLook(), Look::contrast);
  EXPECT_EQ(kLook.get().toStdString(), "contrast");
  EXPECT_EQ(window().palette().color(QPalette::Window), QColor(Qt::black));
  const double usual = window().font().pointSizeF();
  press(Qt::Key_Plus, Qt::ControlModifier);
  press(Qt::Key_Plus, Qt::ControlModifier);
  EXPECT_EQ(kTextSize.get(), 150);
  EXPECT_DOUBLE_EQ(window().font().pointSizeF(), 1.5 * usual);
  press(Qt::Key_Minus, Qt::ControlModifier);
  EXPECT_EQ(kTextSize.get(), 125);
  EXPECT_TRUE(window().dueScreen()->isVisible());
  EXPECT_EQ(window().size(), QSize(1280, 720));
}

}  // namespace
}  // namespace spanwright
