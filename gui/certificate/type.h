// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fonts of a certificate, and text broken into lines. Lengths in tenths of a point.
#pragma once

#include <QFont>
#include <QString>
#include <QStringList>
#include <string>

namespace spanwright {

/// The certificate's typeface at `size` tenths of a point.
QFont typeface(int size, bool bold = false);
double textWidth(const QFont& font, const QString& text);
/// From one baseline to the next.
double leading(const QFont& font);
/// From the top of a line to its baseline.
double rise(const QFont& font);
/// Broken at blanks into lines no wider than `width`, within a word only when the word alone is wider. At
/// least one line, which may be empty.
QStringList wrapped(const QFont& font, const QString& text, double width);
double widestWord(const QFont& font, const QString& text);
/// The largest size from `size` down to 50 at which `text` is no wider than `width`.
QFont fitting(int size, bool bold, const QString& text, double width);

/// UTF-8 to what is printed: control characters become blanks.
QString printed(const std::string& text);
/// A number with a proper minus sign.
QString printedNumber(const std::string& text);

}  // namespace spanwright
