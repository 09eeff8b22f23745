// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/wrap_row.h"

#include <QLabel>
#include <QSpacerItem>
#include <QWidgetItem>
#include <algorithm>

#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

/// Spacers and stretches need no gap beside them.
bool isBlank(const QLayoutItem& item) {
  return item.widget() == nullptr && item.sizeHint().width() == 0;
}

/// The name of a box, or a sign before a word.
bool staysWithNext(const QLayoutItem& item) {
  const auto* label = qobject_cast<const QLabel*>(const_cast<QLayoutItem&>(item).widget());
  return label != nullptr && (label->buddy() != nullptr || !label->pixmap().isNull());
}

/// A text that wraps takes the rest of a line rather than one of its own.
int wantedWidth(const QLayoutItem& item) {
  constexpr int kReadable = 200;
  const int wide = item.sizeHint().width();
  return item.hasHeightForWidth() ? std::min(wide, std::max(item.minimumSize().width(), scaled(kReadable)))
                                  : wide;
}

}  // namespace

WrapRow::WrapRow(QWidget* parent) : QLayout(parent) {}
WrapRow::~WrapRow() = default;

void WrapRow::add(std::unique_ptr<QLayoutItem> item, int stretch) {
  parts_.push_back({std::move(item), stretch});
  invalidate();
}

void WrapRow::addWidget(QWidget* widget, int stretch) {
  addChildWidget(widget);
  add(std::make_unique<QWidgetItem>(widget), stretch);
}

void WrapRow::addStretch(int stretch) {
  add(std::make_unique<QSpacerItem>(0, 0, QSizePolicy::Expanding), stretch);
}

void WrapRow::addSpacing(int pixels) {
  add(std::make_unique<QSpacerItem>(pixels, 0, QSizePolicy::Fixed), 0);
}

void WrapRow::addItem(QLayoutItem* item) {
  add(std::unique_ptr<QLayoutItem>(item), 0);
}

int WrapRow::count() const {
  return static_cast<int>(parts_.size());
}

QLayoutItem* WrapRow::itemAt(int index) const {
  return index >= 0 && index < count() ? parts_[static_cast<std::size_t>(index)].item.get() : nullptr;
}

QLayoutItem* WrapRow::takeAt(int index) {
  if (index < 0 || index >= count()) {
    return nullptr;
  }
  QLayoutItem* item = parts_[static_cast<std::size_t>(index)].item.release();
  parts_.erase(parts_.begin() + index);
  invalidate();
  return item;
}

Qt::Orientations WrapRow::expandingDirections() const {
  return Qt::Horizontal;
}

bool WrapRow::hasHeightForWidth() const {
  return true;
}

int WrapRow::gap() const {
  return std::max(0, spacing());
}

std::vector<WrapRow::Line> WrapRow::linesIn(int width) const {
  std::vector<Line> lines(1);
  int used = 0;
  Line together;  // what may not be torn apart
  int wide = 0;
  for (const Part& part : parts_) {
    if (part.item->widget() != nullptr && part.item->isEmpty()) {
      continue;  // hidden
    }
    together.push_back(&part);
    wide += wantedWidth(*part.item) + (isBlank(*part.item) ? 0 : gap());
    if (staysWithNext(*part.item)) {
      continue;
    }
    if (!lines.back().empty() && used + wide - gap() > width) {
      lines.emplace_back();
      used = 0;
    }
    lines.back().insert(lines.back().end(), together.begin(), together.end());
    used += wide;
    together.clear();
    wide = 0;
  }
  lines.back().insert(lines.back().end(), together.begin(), together.end());
  return lines;
}

int WrapRow::place(const Line& line, const QPoint& at, int width, bool move) const {
  int taken = 0;
  int shares = 0;
  for (const Part* part : line) {
    taken += wantedWidth(*part->item) + (isBlank(*part->item) ? 0 : gap());
    shares += part->stretch;
  }
  const int spare = width - (taken - gap());
  std::vector<int> widths;
  int high = 0;
  for (const Part* part : line) {
    int wide = wantedWidth(*part->item);
    if (spare > 0 && shares > 0) {
      wide += spare * part->stretch / shares;
    } else if (spare < 0 && part->item->widget() != nullptr) {  // alone and too wide
      wide = std::max(part->item->minimumSize().width(), wide + spare);
    }
    widths.push_back(wide);
    high = std::max(high, part->item->hasHeightForWidth() ? part->item->heightForWidth(wide)
                                                          : part->item->sizeHint().height());
  }
  int x = at.x();
  for (std::size_t i = 0; move && i < line.size(); ++i) {
    QLayoutItem& item = *line[i]->item;
    const int own = item.hasHeightForWidth() ? item.heightForWidth(widths[i]) : item.sizeHint().height();
    item.setGeometry({x, at.y() + (high - own) / 2, widths[i], own});
    x += widths[i] + (isBlank(item) ? 0 : gap());
  }
  return high;
}

int WrapRow::arrange(const QRect& rect, bool move) const {
  const QMargins margins = contentsMargins();
  const QRect inside = rect.marginsRemoved(margins);
  int y = inside.top();
  for (const Line& line : linesIn(inside.width())) {
    y += place(line, {inside.left(), y}, inside.width(), move) + gap();
  }
  return y - gap() - inside.top() + margins.top() + margins.bottom();
}

int WrapRow::heightForWidth(int width) const {
  return arrange({0, 0, width, 0}, false);
}

QSize WrapRow::minimumSize() const {
  QSize least;
  int together = 0;
  for (const Part& part : parts_) {
    if (part.item->widget() != nullptr && part.item->isEmpty()) {
      continue;
    }
    together += part.item->minimumSize().width();
    least = least.expandedTo({together, part.item->minimumSize().height()});
    together = staysWithNext(*part.item) ? together + gap() : 0;
  }
  return least.grownBy(contentsMargins());
}

QSize WrapRow::sizeHint() const {
  QSize size;
  for (const Part& part : parts_) {
    if (part.item->widget() == nullptr || !part.item->isEmpty()) {
      const QSize own = part.item->sizeHint();
      size = {size.width() + own.width() + (isBlank(*part.item) ? 0 : gap()),
              std::max(size.height(), own.height())};
    }
  }
  return size.grownBy(contentsMargins());
}

void WrapRow::setGeometry(const QRect& rect) {
  QLayout::setGeometry(rect);
  arrange(rect, true);
}

}  // namespace spanwright
