// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/settings/language.h"

#include <QCoreApplication>
#include <QLocale>
#include <QTranslator>
#include <memory>

#include "gui/words/tr.h"

namespace spanwright {
namespace {

/// What is in force. The translators belong to the application; none of them: English.
struct InForce {
  Language language = Language::system;
  QTranslator* ours = nullptr;
  QTranslator* qts = nullptr;  // "Cancel" and the like
};
InForce& inForce() {
  static InForce now;
  return now;
}

/// As a person of the machine's country writes, when that is a country of this language.
QLocale localeOf(QLocale::Language language, QLocale::Country country) {
  const QLocale machine = QLocale::system();
  return machine.language() == language ? machine : QLocale(language, country);
}

QTranslator* install(const QString& file) {
  auto translator = std::make_unique<QTranslator>(qApp);
  if (!translator->load(file)) {
    return nullptr;
  }
  QCoreApplication::installTranslator(translator.get());
  return translator.release();
}

}  // namespace

const std::vector<Language>& allLanguages() {
  static const std::vector<Language> kAll{Language::system, Language::english, Language::german};
  return kAll;
}

QString codeOf(Language language) {
  switch (language) {
    case Language::system:
      return QStringLiteral("system");
    case Language::english:
      return QStringLiteral("en");
    case Language::german:
      return QStringLiteral("de");
  }
  return {};
}

std::optional<Language> languageOf(const QString& code) {
  for (const Language each : allLanguages()) {
    if (codeOf(each) == code) {
      return each;
    }
  }
  return std::nullopt;
}

QString nameOf(Language language) {
  switch (language) {
    case Language::system:
      return tr("&System");
    case Language::english:
      return QStringLiteral("&English");
    case Language::german:
      return QStringLiteral("&Deutsch");
  }
  return {};
}

void applyLanguage(Language language) {
  InForce& now = inForce();
  delete now.ours;  // the application lets go of it
  delete now.qts;
  now = {language, nullptr, nullptr};
  switch (language) {
    case Language::system:
      QLocale::setDefault(QLocale::system());
      break;
    case Language::english:
      QLocale::setDefault(localeOf(QLocale::English, QLocale::UnitedKingdom));
      break;
    case Language::german:
      QLocale::setDefault(localeOf(QLocale::German, QLocale::Germany));
      break;
  }
  if (QLocale().language() == QLocale::German) {
    now.qts = install(QStringLiteral(":/translations/qtbase_de.qm"));
    now.ours = install(QStringLiteral(":/translations/spanwright_de.qm"));
  }
}

Language currentLanguage() {
  return inForce().language;
}

}  // namespace spanwright
