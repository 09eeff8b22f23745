// SPDX-License-Identifier: GPL-3.0-or-later
//
// The program's own palettes over the Fusion style, with a focus frame that can be seen.
#pragma once

#include <QColor>
#include <QPalette>
#include <QProxyStyle>
#include <optional>
#include <vector>

class QApplication;

namespace spanwright {

/// What a colour says; always beside a sign or a word that says the same.
enum class Tone { good, bad, attention, quiet, accent, plain };

enum class Look { light, dark, contrast };

/// In the order of the menu.
const std::vector<Look>& allLooks();
/// As it is kept: "light", "dark", "contrast".
QString codeOf(Look look);
std::optional<Look> lookOf(const QString& code);

QPalette paletteOf(Look look);
/// For every window made from now on; charts and signs take their colours when they are made.
void applyLook(QApplication& application, Look look);
/// What was applied last.
Look currentLook();
/// Readable on Base and Window of the look in force (at least 4.5 : 1; 7 : 1 in high contrast).
QColor toneColour(Tone tone);
/// From 1 to 21, by the relative luminance of both: W3C, Web Content Accessibility Guidelines 2.2, "contrast
/// ratio" and "relative luminance" as defined there. Opacity is not looked at.
double contrastRatio(const QColor& one, const QColor& other);

/// Fusion with a two-pixel focus frame, a little more room in buttons and boxes, edges that can be seen in
/// high contrast, and signs that grow with the text.
class LookStyle : public QProxyStyle {
  Q_OBJECT
 public:
  LookStyle();
  void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
  void drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                   const QWidget* widget) const override;
  void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                          const QWidget* widget) const override;
  int pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const override;
  int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                QStyleHintReturn* returnData) const override;
  QSize sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& contents,
                         const QWidget* widget) const override;
};

}  // namespace spanwright
