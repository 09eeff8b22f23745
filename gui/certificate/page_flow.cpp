// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/page_flow.h"

#include <algorithm>

#include "gui/certificate/type.h"

namespace spanwright {
namespace {

constexpr int kBodySize = 82;
constexpr int kHeadingSize = 96;
constexpr double kLabelShare = 0.27;  // of the block's width
constexpr double kPairGap = 14.0;     // between pairs
constexpr double kGutter = 200.0;     // between two blocks side by side
constexpr double kSectionGap = 100.0;

const QColor kInk(0, 0, 0);
const QColor kQuiet(70, 70, 70);
const QColor kHairline(150, 150, 150);

double labelWidth(double width) {
  return std::clamp(kLabelShare * width, 600.0, 950.0);
}

struct WrappedPair {
  QStringList label;
  QStringList value;
  qsizetype lines() const { return std::max(label.size(), value.size()); }
};

WrappedPair wrapPair(const std::pair<QString, QString>& pair, double width) {
  const QFont font = typeface(kBodySize);
  const double label = labelWidth(width);
  return {wrapped(font, pair.first, label - 60.0), wrapped(font, pair.second, width - label)};
}

}  // namespace

PageFlow::PageFlow(QRectF area, double laterTop)
    : area_(area), laterTop_(laterTop), y_(area.top()), pages_(1) {}

void PageFlow::newPage() {
  pages_.emplace_back();
  y_ = laterTop_;
}

void PageFlow::ensure(double height) {
  const double top = pages_.size() == 1 ? area_.top() : laterTop_;
  if (!fits(height) && y_ > top) {
    newPage();
  }
}

void PageFlow::text(double x, double baseline, const QFont& font, const QString& text, Align align) {
  const double width = align == Align::left ? 0.0 : textWidth(font, text);
  const double start = align == Align::left ? x : align == Align::right ? x - width : x - width / 2.0;
  pages_.back().texts.push_back({{start, baseline}, font, text, kInk});
}

void PageFlow::rule(double x1, double x2, double y, double width, bool grey) {
  PathItem item;
  item.path.moveTo(x1, y);
  item.path.lineTo(x2, y);
  item.width = width;
  item.color = grey ? kHairline : kInk;
  path(std::move(item));
}

void PageFlow::path(PathItem item) {
  pages_.back().paths.push_back(std::move(item));
}

void PageFlow::heading(const QString& text, double follows) {
  const QFont font = typeface(kHeadingSize, true);
  ensure(kSectionGap + leading(font) + 40.0 + follows);
  const double top = pages_.size() == 1 ? area_.top() : laterTop_;
  if (y_ > top) {
    skip(kSectionGap);
  }
  this->text(left(), y_ + rise(font), font, text);
  skip(leading(font) + 10.0);
  rule(left(), right(), y_, 5.0);
  skip(34.0);
}

void PageFlow::paragraph(const QString& text, const QFont& font, const QString& hanging) {
  const double indent = hanging.isEmpty() ? 0.0 : std::max(110.0, textWidth(font, hanging) + 40.0);
  const QStringList lines = wrapped(font, text, width() - indent);
  const double step = leading(font);
  for (qsizetype i = 0; i < lines.size(); ++i) {
    // Neither the first nor the last line of a paragraph stands alone on a page.
    const bool pairUp = lines.size() > 1 && (i == 0 || i == lines.size() - 2);
    ensure(pairUp ? 2.0 * step : step);
    if (i == 0 && !hanging.isEmpty()) {
      this->text(left(), y_ + rise(font), font, hanging);
    }
    this->text(left() + indent, y_ + rise(font), font, lines[i]);
    skip(step);
  }
  skip(24.0);
}

double PageFlow::pairsHeight(const Pairs& pairs, double width) const {
  double height = 0.0;
  for (const auto& pair : pairs) {
    height += static_cast<double>(wrapPair(pair, width).lines()) * leading(typeface(kBodySize)) + kPairGap;
  }
  return height;
}

double PageFlow::placePairs(const Pairs& pairs, double x, double width) {
  const QFont font = typeface(kBodySize);
  double at = y_;
  for (const auto& pair : pairs) {
    const WrappedPair lines = wrapPair(pair, width);
    for (qsizetype i = 0; i < lines.lines(); ++i) {
      const double baseline = at + rise(font);
      if (i < lines.label.size()) {
        text(x, baseline, font, lines.label[i]);
        pages_.back().texts.back().color = kQuiet;
      }
      if (i < lines.value.size()) {
        text(x + labelWidth(width), baseline, font, lines.value[i]);
      }
      at += leading(font);
    }
    at += kPairGap;
  }
  return at - y_;
}

void PageFlow::flowPairs(const Pairs& pairs) {
  const QFont font = typeface(kBodySize);
  for (const auto& pair : pairs) {
    if (const double whole = pairsHeight({pair}, width()); whole <= fullHeight() / 3.0) {
      ensure(whole);
      skip(placePairs({pair}, left(), width()));
      continue;
    }
    const WrappedPair lines = wrapPair(pair, width());
    for (qsizetype i = 0; i < lines.lines(); ++i) {
      ensure(leading(font));
      if (i < lines.label.size()) {
        text(left(), y_ + rise(font), font, lines.label[i]);
        pages_.back().texts.back().color = kQuiet;
      }
      if (i < lines.value.size()) {
        text(left() + labelWidth(width()), y_ + rise(font), font, lines.value[i]);
      }
      skip(leading(font));
    }
    skip(kPairGap);
  }
}

void PageFlow::pairColumns(const QString& leftTitle, const Pairs& leftPairs, const QString& rightTitle,
                           const Pairs& rightPairs) {
  const double half = (width() - kGutter) / 2.0;
  const double height = std::max(pairsHeight(leftPairs, half), pairsHeight(rightPairs, half));
  if (height > fullHeight() / 3.0 || leftPairs.empty() || rightPairs.empty()) {
    for (const auto& [title, pairs] : {std::pair(leftTitle, leftPairs), std::pair(rightTitle, rightPairs)}) {
      if (!pairs.empty()) {
        heading(title, 250.0);
        flowPairs(pairs);
      }
    }
    return;
  }
  const QFont font = typeface(kHeadingSize, true);
  ensure(kSectionGap + leading(font) + 44.0 + height);
  skip(kSectionGap);
  const double second = left() + half + kGutter;
  text(left(), y_ + rise(font), font, leftTitle);
  text(second, y_ + rise(font), font, rightTitle);
  skip(leading(font) + 10.0);
  rule(left(), left() + half, y_, 5.0);
  rule(second, right(), y_, 5.0);
  skip(34.0);
  placePairs(leftPairs, left(), half);
  placePairs(rightPairs, second, half);
  skip(height);
}

}  // namespace spanwright
