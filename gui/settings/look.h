// SPDX-License-Identifier: GPL-3.0-or-later
//
// The program's own light and dark palette over the Fusion style, with a focus frame that can be seen.
#pragma once

#include <QColor>
#include <QPalette>
#include <QProxyStyle>

class QApplication;

namespace spanwright {

/// What a colour says; always beside a sign or a word that says the same.
enum class Tone { good, bad, attention, quiet, accent, plain };

QPalette lightPalette();
QPalette darkPalette();
void applyLook(QApplication& application, bool dark);
bool isDark();
/// Readable on Base and Window of the palette in force (at least 4.5 : 1).
QColor toneColour(Tone tone);

/// Fusion with a two-pixel focus frame and a little more room in buttons and boxes.
class LookStyle : public QProxyStyle {
  Q_OBJECT
 public:
  LookStyle();
  void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
  int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                QStyleHintReturn* returnData) const override;
  QSize sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& contents,
                         const QWidget* widget) const override;
};

}  // namespace spanwright
