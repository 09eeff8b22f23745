// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/settings/look.h"

#include <QApplication>
#include <QPainter>
#include <QStyleOption>

namespace spanwright {
namespace {

struct Shades {
  QColor window, base, alternate, text, faded, button, highlight, highlighted, link, line;
};

QPalette paletteOf(const Shades& shades) {
  QPalette palette;
  palette.setColor(QPalette::Window, shades.window);
  palette.setColor(QPalette::WindowText, shades.text);
  palette.setColor(QPalette::Base, shades.base);
  palette.setColor(QPalette::AlternateBase, shades.alternate);
  palette.setColor(QPalette::Text, shades.text);
  palette.setColor(QPalette::PlaceholderText, shades.faded);
  palette.setColor(QPalette::Button, shades.button);
  palette.setColor(QPalette::ButtonText, shades.text);
  palette.setColor(QPalette::BrightText, shades.highlight);
  palette.setColor(QPalette::ToolTipBase, shades.alternate);
  palette.setColor(QPalette::ToolTipText, shades.text);
  palette.setColor(QPalette::Highlight, shades.highlight);
  palette.setColor(QPalette::HighlightedText, shades.highlighted);
  palette.setColor(QPalette::Link, shades.link);
  palette.setColor(QPalette::Light, shades.button.lighter(115));
  palette.setColor(QPalette::Midlight, shades.button.lighter(105));
  palette.setColor(QPalette::Mid, shades.line);
  palette.setColor(QPalette::Dark, shades.line.darker(130));
  palette.setColor(QPalette::Shadow, shades.line.darker(180));
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
    palette.setColor(QPalette::Disabled, role, shades.faded);
  }
  return palette;
}

struct ToneColours {
  const char* light;
  const char* dark;
};
// Contrast against the palettes below: light tones on #f4f2ed at least 4.9 : 1, dark tones on #22272a at
// least 6 : 1.
constexpr ToneColours kTones[] = {
    {"#17694a", "#74cfa2"},  // good
    {"#a52f1c", "#ff9580"},  // bad
    {"#7d5200", "#e9b657"},  // attention
    {"#62686b", "#a3a9ac"},  // quiet
    {"#1b5a78", "#6fbbd8"},  // accent
    {"#1c2225", "#e8e5de"},  // plain
};

void paintFocus(QPainter& painter, const QStyleOption& option) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const bool onHighlight = (option.state & QStyle::State_Selected) != 0;
  painter.setPen(QPen(option.palette.color(onHighlight ? QPalette::Text : QPalette::Highlight), 2.0));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(QRectF(option.rect).adjusted(1.0, 1.0, -1.0, -1.0), 2.0, 2.0);
  painter.restore();
}

/// Fusion's own outlines vanish on a dark ground.
void paintCheckBox(QPainter& painter, const QStyleOption& option) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const QRectF box = QRectF(option.rect).adjusted(1.0, 1.0, -1.0, -1.0);
  const bool enabled = (option.state & QStyle::State_Enabled) != 0;
  const QColor ink = option.palette.color(enabled ? QPalette::Active : QPalette::Disabled, QPalette::Text);
  painter.setPen(QPen(toneColour(Tone::quiet), 1.2));
  painter.setBrush(option.palette.color(QPalette::Base));
  painter.drawRoundedRect(box, 2.0, 2.0);
  if ((option.state & QStyle::State_On) != 0) {
    painter.setPen(QPen(ink, 2.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolyline(QPolygonF{{{box.left() + box.width() * 0.22, box.top() + box.height() * 0.52},
                                    {box.left() + box.width() * 0.43, box.top() + box.height() * 0.74},
                                    {box.left() + box.width() * 0.80, box.top() + box.height() * 0.26}}});
  } else if ((option.state & QStyle::State_NoChange) != 0) {
    painter.fillRect(box.adjusted(4.0, 4.0, -4.0, -4.0), ink);
  }
  painter.restore();
}

void paintRadioButton(QPainter& painter, const QStyleOption& option) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const QRectF ring = QRectF(option.rect).adjusted(1.0, 1.0, -1.0, -1.0);
  const bool enabled = (option.state & QStyle::State_Enabled) != 0;
  const auto group = enabled ? QPalette::Active : QPalette::Disabled;
  painter.setPen(QPen(enabled ? toneColour(Tone::quiet) : option.palette.color(group, QPalette::Text), 1.2));
  painter.setBrush(option.palette.color(enabled ? QPalette::Base : QPalette::Window));
  painter.drawEllipse(ring);
  if ((option.state & QStyle::State_On) != 0) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(option.palette.color(group, QPalette::Text));
    painter.drawEllipse(ring.adjusted(3.0, 3.0, -3.0, -3.0));
  }
  painter.restore();
}

void paintBoxFrame(QPainter& painter, const QStyleOption& option) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const bool focus = (option.state & QStyle::State_HasFocus) != 0;
  painter.setPen(focus ? QPen(option.palette.color(QPalette::Highlight), 2.0)
                       : QPen(option.palette.color(QPalette::Mid), 1.0));
  painter.setBrush(Qt::NoBrush);
  painter.drawRoundedRect(QRectF(option.rect).adjusted(1.0, 1.0, -1.0, -1.0), 2.0, 2.0);
  painter.restore();
}

}  // namespace

QPalette lightPalette() {
  return paletteOf({"#f4f2ed", "#ffffff", "#f8f6f1", "#1c2225", "#6a7073", "#e9e6df", "#1b5a78", "#ffffff",
                    "#1b5a78", "#bdb9b0"});
}

QPalette darkPalette() {
  return paletteOf({"#22272a", "#191d1f", "#1e2325", "#e8e5de", "#969ca0", "#30373a", "#6fbbd8", "#10181c",
                    "#6fbbd8", "#5b656a"});
}

void applyLook(QApplication& application, bool dark) {
  application.setStyle(new LookStyle);  // the application takes it
  application.setPalette(dark ? darkPalette() : lightPalette());
}

bool isDark() {
  return QApplication::palette().color(QPalette::Window).lightnessF() < 0.5F;
}

QColor toneColour(Tone tone) {
  const ToneColours& colours = kTones[static_cast<int>(tone)];
  return QColor(QLatin1String(isDark() ? colours.dark : colours.light));
}

LookStyle::LookStyle() : QProxyStyle(QStringLiteral("fusion")) {}

void LookStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                              const QWidget* widget) const {
  switch (element) {
    case PE_FrameFocusRect:
      paintFocus(*painter, *option);
      return;
    case PE_IndicatorCheckBox:
    case PE_IndicatorItemViewItemCheck:
      paintCheckBox(*painter, *option);
      return;
    case PE_IndicatorRadioButton:
      paintRadioButton(*painter, *option);
      return;
    case PE_FrameLineEdit:
      QProxyStyle::drawPrimitive(element, option, painter, widget);
      paintBoxFrame(*painter, *option);
      return;
    default:
      QProxyStyle::drawPrimitive(element, option, painter, widget);
  }
}

int LookStyle::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                         QStyleHintReturn* returnData) const {
  if (hint == SH_Table_GridLineColor) {
    return static_cast<int>(QApplication::palette().color(QPalette::Mid).rgba());
  }
  return QProxyStyle::styleHint(hint, option, widget, returnData);
}

QSize LookStyle::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& contents,
                                  const QWidget* widget) const {
  QSize size = QProxyStyle::sizeFromContents(type, option, contents, widget);
  // An editor inside a table cell keeps to its cell.
  const bool inCell = widget != nullptr && widget->parentWidget() != nullptr &&
                      widget->parentWidget()->objectName() == QLatin1String("qt_scrollarea_viewport");
  switch (type) {
    case CT_PushButton:
      return size + QSize(14, 4);
    case CT_ComboBox:
    case CT_LineEdit:
    case CT_SpinBox:
      return inCell ? size : size + QSize(6, 4);
    default:
      return size;
  }
}

}  // namespace spanwright
