// SPDX-License-Identifier: GPL-3.0-or-later
//
// The language of the window, which also writes its dates and numbers. Files, data and the record know none.
#pragma once

#include <QString>
#include <optional>
#include <vector>

namespace spanwright {

enum class Language { system, english, german };

/// In the order of the menu.
const std::vector<Language>& allLanguages();
/// As it is kept and given on the command line: "system", "en", "de".
QString codeOf(Language language);
std::optional<Language> languageOf(const QString& code);
/// Languages by their own names, so that a person finds theirs.
QString nameOf(Language language);

/// Texts in this language and dates and numbers as they are written with it, for every window made from now
/// on. The machine's own language is German or English here, whatever else it is; its dates and numbers are
/// its own.
void applyLanguage(Language language);
/// What was applied last.
Language currentLanguage();

}  // namespace spanwright
