// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/type.h"

#include <QFontMetricsF>
#include <QTextLayout>
#include <QTextOption>
#include <algorithm>

namespace spanwright {

QFont typeface(int size, bool bold) {
  QFont font(QStringList{QStringLiteral("DejaVu Sans"), QStringLiteral("Liberation Sans"),
                         QStringLiteral("Noto Sans"), QStringLiteral("sans-serif")});
  font.setPixelSize(size);
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  font.setStyleStrategy(QFont::PreferOutline);
  // Any spacing at all turns ligatures off: with them "certificate" could not be found in the file, as one
  // character stands for "fi". The least Qt knows, a 64th of a tenth of a point, is not seen.
  font.setLetterSpacing(QFont::AbsoluteSpacing, 1.0 / 64.0);
  return font;
}

double textWidth(const QFont& font, const QString& text) {
  return QFontMetricsF(font).horizontalAdvance(text);
}

double leading(const QFont& font) {
  return 1.32 * font.pixelSize();
}

double rise(const QFont& font) {
  return 1.0 * font.pixelSize();
}

QStringList wrapped(const QFont& font, const QString& text, double width) {
  QTextLayout layout(text, font);
  QTextOption option;
  option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
  option.setUseDesignMetrics(true);
  layout.setTextOption(option);
  layout.beginLayout();
  QStringList lines;
  for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
    line.setLineWidth(std::max(width, 1.0));
    lines << text.mid(line.textStart(), line.textLength()).trimmed();
  }
  layout.endLayout();
  return lines.isEmpty() ? QStringList{QString()} : lines;
}

double widestWord(const QFont& font, const QString& text) {
  double widest = 0.0;
  for (const QString& word : text.split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
    widest = std::max(widest, textWidth(font, word));
  }
  return widest;
}

QFont fitting(int size, bool bold, const QString& text, double width) {
  constexpr int kSmallest = 50;
  QFont font = typeface(size, bold);
  while (size > kSmallest && textWidth(font, text) > width) {
    font = typeface(--size, bold);
  }
  return font;
}

QString printed(const std::string& text) {
  QString shown;
  for (const QChar c : QString::fromStdString(text)) {
    // No-break spaces stay: they hold a number and its unit together.
    const bool blank = c.category() == QChar::Other_Control || c == QChar::LineSeparator ||
                       c == QChar::ParagraphSeparator || c == QLatin1Char(' ');
    if (!blank) {
      shown += c;
    } else if (!shown.isEmpty() && !shown.endsWith(QLatin1Char(' '))) {
      shown += QLatin1Char(' ');
    }
  }
  return shown.endsWith(QLatin1Char(' ')) ? shown.chopped(1) : shown;
}

QString printedNumber(const std::string& text) {
  constexpr char16_t kMinus = 0x2212;
  QString shown = printed(text);
  for (qsizetype i = 0; i + 1 < shown.size(); ++i) {
    const bool begins = i == 0 || shown[i - 1] == QLatin1Char(' ');
    if (begins && shown[i] == QLatin1Char('-') && shown[i + 1].isDigit()) {
      shown[i] = QChar(kMinus);
    }
  }
  return shown;
}

}  // namespace spanwright
