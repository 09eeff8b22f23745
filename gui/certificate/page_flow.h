// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fills pages from top to bottom. Lengths in tenths of a point.
#pragma once

#include <QPointF>
#include <QRectF>
#include <QString>
#include <utility>
#include <vector>

#include "gui/certificate/page_items.h"

namespace spanwright {

/// "Label  value" lines under one another.
using Pairs = std::vector<std::pair<QString, QString>>;

enum class Align { left, centre, right };

class PageFlow {
 public:
  /// `area`: where text may stand on a page; `laterTop`: the top of that area from the second page on, below
  /// the repeated header.
  PageFlow(QRectF area, double laterTop);

  double left() const { return area_.left(); }
  double right() const { return area_.right(); }
  double width() const { return area_.width(); }
  double y() const { return y_; }
  double remaining() const { return area_.bottom() - y_; }
  /// Height of an empty later page.
  double fullHeight() const { return area_.bottom() - laterTop_; }
  bool fits(double height) const { return height <= remaining(); }

  void newPage();
  /// A new page when `height` does not fit here (and it is not already an empty one).
  void ensure(double height);
  void skip(double height) { y_ += height; }
  void moveTo(double y) { y_ = y; }

  // Things at a place on the current page.
  void text(double x, double baseline, const QFont& font, const QString& text, Align align = Align::left);
  void rule(double x1, double x2, double y, double width, bool grey = false);
  void path(PathItem item);

  /// A section's heading, kept with at least `follows` of what comes after it.
  void heading(const QString& text, double follows);
  /// Flows over pages line by line; `hanging` is put before the first line, the others are indented to it.
  void paragraph(const QString& text, const QFont& font, const QString& hanging = {});

  double pairsHeight(const Pairs& pairs, double width) const;
  /// Draws pairs at (x, current y) without breaking the page or moving on; returns the height.
  double placePairs(const Pairs& pairs, double x, double width);
  /// Pairs over the full width, breaking pages where needed.
  void flowPairs(const Pairs& pairs);
  /// Two titled blocks side by side; one under the other when either is long.
  void pairColumns(const QString& leftTitle, const Pairs& leftPairs, const QString& rightTitle,
                   const Pairs& rightPairs);

  std::vector<Page>& pages() { return pages_; }

 private:
  QRectF area_;
  double laterTop_;
  double y_;
  std::vector<Page> pages_;
};

}  // namespace spanwright
