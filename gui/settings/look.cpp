// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/settings/look.h"

#include <QAbstractScrollArea>
#include <QApplication>
#include <QPainter>
#include <QStyleOption>
#include <algorithm>
#include <array>
#include <cmath>

#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

struct Shades {
  QColor window, base, alternate, text, faded, button, highlight, highlighted, link, line, edge;
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
  palette.setColor(QPalette::Dark, shades.edge);
  palette.setColor(QPalette::Shadow, shades.line.darker(180));
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
    palette.setColor(QPalette::Disabled, role, shades.faded);
  }
  return palette;
}

// Contrast against the palettes below: light tones on #f4f2ed at least 4.9 : 1, dark tones on #22272a at
// least 6 : 1, those of high contrast on black at least 9 : 1.
constexpr std::array<std::array<const char*, 3>, 6> kTones{{
    {"#17694a", "#74cfa2", "#6dffb0"},  // good
    {"#a52f1c", "#ff9580", "#ffa28f"},  // bad
    {"#7d5200", "#e9b657", "#ffd23f"},  // attention
    {"#62686b", "#a3a9ac", "#d4d4d4"},  // quiet
    {"#1b5a78", "#6fbbd8", "#86d0ff"},  // accent
    {"#1c2225", "#e8e5de", "#ffffff"},  // plain
}};

Look& lookInForce() {
  static Look look = Look::light;
  return look;
}

/// One channel of a colour, from 0 to 1, as the light it stands for.
double linear(double channel) {
  return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

double relativeLuminance(const QColor& colour) {
  return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF());
}

void paintFocus(QPainter& painter, const QStyleOption& option) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const bool onHighlight = (option.state & QStyle::State_Selected) != 0;
  painter.setPen(
      QPen(option.palette.color(onHighlight ? QPalette::HighlightedText : QPalette::Highlight), 2.0));
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

/// The edge of what is typed into or chosen from, two pixels wide where the keys go.
void paintBoxFrame(QPainter& painter, const QStyleOption& option) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const bool focus = (option.state & QStyle::State_HasFocus) != 0;
  const bool enabled = (option.state & QStyle::State_Enabled) != 0;
  painter.setPen(focus ? QPen(option.palette.color(QPalette::Highlight), 2.0)
                       : QPen(option.palette.color(enabled ? QPalette::Dark : QPalette::Mid), 1.0));
  painter.setBrush(Qt::NoBrush);
  const double in = focus ? 1.0 : 0.5;
  painter.drawRoundedRect(QRectF(option.rect).adjusted(in, in, -in, -in), 2.0, 2.0);
  painter.restore();
}

/// In high contrast, where the base style's outlines are as black as the ground.
void paintEdge(QPainter& painter, const QStyleOption& option) {
  painter.save();
  const bool enabled = (option.state & QStyle::State_Enabled) != 0;
  painter.setPen(QPen(option.palette.color(enabled ? QPalette::Dark : QPalette::Mid), 1.0));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(option.rect.adjusted(0, 0, -1, -1));
  painter.restore();
}

/// Lists, tables and texts that take the keys have a frame two pixels wide for it.
bool isScrolledAndFocusable(const QWidget* widget) {
  const auto* area = qobject_cast<const QAbstractScrollArea*>(widget);
  return area != nullptr && area->focusPolicy() != Qt::NoFocus && area->frameShape() != QFrame::NoFrame;
}

}  // namespace

const std::vector<Look>& allLooks() {
  static const std::vector<Look> kAll{Look::light, Look::dark, Look::contrast};
  return kAll;
}

QString codeOf(Look look) {
  switch (look) {
    case Look::light:
      return QStringLiteral("light");
    case Look::dark:
      return QStringLiteral("dark");
    case Look::contrast:
      return QStringLiteral("contrast");
  }
  return {};
}

std::optional<Look> lookOf(const QString& code) {
  const auto found =
      std::find_if(allLooks().begin(), allLooks().end(), [&code](Look look) { return codeOf(look) == code; });
  return found == allLooks().end() ? std::nullopt : std::optional(*found);
}

QPalette paletteOf(Look look) {
  switch (look) {
    case Look::light:
      break;
    case Look::dark:
      return paletteOf({"#22272a", "#191d1f", "#1e2325", "#e8e5de", "#969ca0", "#30373a", "#6fbbd8",
                        "#10181c", "#6fbbd8", "#5b656a", "#7f8a90"});
    case Look::contrast:
      return paletteOf({"#000000", "#000000", "#141414", "#ffffff", "#c8c8c8", "#1c1c1c", "#ffe14d",
                        "#000000", "#86d0ff", "#8c8c8c", "#ffffff"});
  }
  return paletteOf({"#f4f2ed", "#ffffff", "#f8f6f1", "#1c2225", "#62686b", "#e9e6df", "#1b5a78", "#ffffff",
                    "#1b5a78", "#bdb9b0", "#7d7a73"});
}

void applyLook(QApplication& application, Look look) {
  lookInForce() = look;
  application.setStyle(new LookStyle);  // the application takes it
  application.setPalette(paletteOf(look));
}

Look currentLook() {
  return lookInForce();
}

QColor toneColour(Tone tone) {
  return QColor(
      QLatin1String(kTones[static_cast<std::size_t>(tone)][static_cast<std::size_t>(lookInForce())]));
}

double contrastRatio(const QColor& one, const QColor& other) {
  const double a = relativeLuminance(one);
  const double b = relativeLuminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
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
    case PE_IndicatorBranch: {
      QStyleOption branch = *option;
      if ((option->state & State_Selected) != 0) {
        for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
          branch.palette.setColor(role, option->palette.color(QPalette::HighlightedText));
        }
      }
      QProxyStyle::drawPrimitive(element, &branch, painter, widget);
      return;
    }
    case PE_FrameLineEdit:
      QProxyStyle::drawPrimitive(element, option, painter, widget);
      paintBoxFrame(*painter, *option);
      return;
    case PE_Frame:
      QProxyStyle::drawPrimitive(element, option, painter, widget);
      if (isScrolledAndFocusable(widget) && widget->hasFocus()) {
        paintBoxFrame(*painter, *option);
        return;
      }
      break;
    default:
      QProxyStyle::drawPrimitive(element, option, painter, widget);
  }
  const bool edged = element == PE_PanelButtonCommand || element == PE_Frame || element == PE_FrameMenu ||
                     element == PE_FrameGroupBox || element == PE_FrameTabWidget ||
                     element == PE_PanelTipLabel;
  if (edged && lookInForce() == Look::contrast) {
    paintEdge(*painter, *option);
  }
}

void LookStyle::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                            const QWidget* widget) const {
  QProxyStyle::drawControl(element, option, painter, widget);
  const bool button = element == CE_PushButton && (option->state & State_HasFocus) != 0;
  const bool tab = element == CE_TabBarTab && (option->state & State_Selected) != 0 && widget != nullptr &&
                   widget->hasFocus();
  if (button || tab) {
    QStyleOption frame = *option;
    frame.state.setFlag(State_Selected, false);
    paintFocus(*painter, frame);
  }
  const bool edged = element == CE_HeaderSection || element == CE_TabBarTabShape ||
                     element == CE_ProgressBarGroove || element == CE_ScrollBarSlider ||
                     element == CE_Splitter;
  if (edged && lookInForce() == Look::contrast) {
    paintEdge(*painter, *option);
  }
}

void LookStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option,
                                   QPainter* painter, const QWidget* widget) const {
  QProxyStyle::drawComplexControl(control, option, painter, widget);
  if (control == CC_ComboBox || control == CC_SpinBox) {
    QStyleOption frame = *option;
    frame.state.setFlag(State_HasFocus, widget != nullptr && widget->hasFocus());
    paintBoxFrame(*painter, frame);
  } else if (control == CC_ScrollBar && lookInForce() == Look::contrast) {
    QStyleOption slider = *option;
    slider.rect = subControlRect(CC_ScrollBar, option, SC_ScrollBarSlider, widget);
    paintEdge(*painter, slider);
  }
}

int LookStyle::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
  const int usual = QProxyStyle::pixelMetric(metric, option, widget);
  switch (metric) {
    case PM_DefaultFrameWidth:
      return isScrolledAndFocusable(widget) ? 2 : usual;
    case PM_FocusFrameHMargin:
    case PM_HeaderMargin:
      return scaled(4);
    case PM_SmallIconSize:
    case PM_ButtonIconSize:
    case PM_ListViewIconSize:
    case PM_TabBarIconSize:
    case PM_MessageBoxIconSize:
    case PM_IndicatorWidth:
    case PM_IndicatorHeight:
    case PM_ExclusiveIndicatorWidth:
    case PM_ExclusiveIndicatorHeight:
    case PM_HeaderMarkSize:
    case PM_MenuButtonIndicator:
      return scaled(usual);
    default:
      return usual;
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
