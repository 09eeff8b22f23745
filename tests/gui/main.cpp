// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window's tests need an application, no display, and settings of their own.
#include <gtest/gtest.h>

#include <QApplication>
#include <QLocale>
#include <QSettings>
#include <QTemporaryDir>

#include "gui/settings/look.h"

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QTemporaryDir settings;
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, settings.path());
  QSettings::setDefaultFormat(QSettings::IniFormat);
  QLocale::setDefault(QLocale(QLocale::English, QLocale::UnitedKingdom));
  QApplication application(argc, argv);
  QCoreApplication::setOrganizationName(QStringLiteral("spanwright-tests"));
  QCoreApplication::setApplicationName(QStringLiteral("tests_gui"));
  spanwright::applyLook(application, spanwright::Look::light);
  ::testing::InitGoogleTest(&argc, argv);
  return RUN_ALL_TESTS();
}
