// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/thin.h"

#include <QSet>
#include <algorithm>
#include <cmath>

namespace spanwright {
namespace {

using Iterator = QList<QPointF>::const_iterator;

std::pair<Iterator, Iterator> inView(const QList<QPointF>& points, double first, double last) {
  const auto before = [](const QPointF& point, double x) { return point.x() < x; };
  auto begin = std::lower_bound(points.begin(), points.end(), first, before);
  auto end = std::lower_bound(begin, points.end(), last, before);
  if (begin != points.begin()) {
    --begin;
  }
  if (end != points.end()) {
    ++end;
  }
  return {begin, end};
}

}  // namespace

QList<QPointF> thinnedLine(const QList<QPointF>& points, double first, double last, double column) {
  const auto [begin, end] = inView(points, first, last);
  QList<QPointF> thinned;
  for (auto from = begin; from != end;) {
    // Columns stand still while the view moves, or the line would tremble.
    const double number = std::floor(from->x() / column);
    auto to = from;
    while (to != end && std::floor(to->x() / column) == number) {
      ++to;
    }
    const auto [low, high] =
        std::minmax_element(from, to, [](const QPointF& a, const QPointF& b) { return a.y() < b.y(); });
    Iterator kept[] = {from, low, high, std::prev(to)};
    std::sort(std::begin(kept), std::end(kept));
    auto* const keptEnd = std::unique(std::begin(kept), std::end(kept));
    std::for_each(std::begin(kept), keptEnd, [&thinned](Iterator each) { thinned << *each; });
    from = to;
  }
  return thinned;
}

QList<QPointF> thinnedMarks(const QList<QPointF>& points, double first, double last, double pixelX,
                            double pixelY) {
  constexpr double kSquare = 3.0;
  const auto [begin, end] = inView(points, first, last);
  QList<QPointF> thinned;
  QSet<quint64> taken;
  for (auto at = begin; at != end; ++at) {
    const auto cell = [](double value) {
      return static_cast<quint64>(static_cast<quint32>(qRound64(value)));
    };
    const quint64 square = cell(at->x() / (kSquare * pixelX)) << 32U | cell(at->y() / (kSquare * pixelY));
    const qsizetype before = taken.size();
    taken.insert(square);
    if (taken.size() > before) {
      thinned << *at;
    }
  }
  return thinned;
}

}  // namespace spanwright
