// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/chart_layout.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/units/number.h"
#include "gui/certificate/type.h"

namespace spanwright {
namespace {

constexpr double kLowestPlot = 850.0;
constexpr double kHighestPlot = 1150.0;
constexpr double kMark = 30.0;     // half the size of a mark
constexpr double kApart = 68.0;    // from one mark to the next at the same place
constexpr double kBeside = 170.0;  // from the frame to the outermost place
constexpr int kLabelSize = 70;

const QColor kInk(0, 0, 0);
const QColor kGrid(205, 205, 205);

QPainterPath segment(QPointF from, QPointF to) {
  QPainterPath path(from);
  path.lineTo(to);
  return path;
}

/// Up a triangle on its base, down one on its tip, else a circle.
QPainterPath shape(Direction direction, QPointF at) {
  QPainterPath path;
  if (direction == Direction::none) {
    path.addEllipse(at, kMark, kMark);
    return path;
  }
  const double tip = direction == Direction::up ? -kMark : kMark;
  path.moveTo(at + QPointF(0.0, 1.15 * tip));
  path.lineTo(at + QPointF(kMark, -0.85 * tip));
  path.lineTo(at + QPointF(-kMark, -0.85 * tip));
  path.closeSubpath();
  return path;
}

/// As found hollow, as left filled.
PathItem markItem(const ChartMark& mark, QPointF at) {
  return {shape(mark.direction, at), mark.asLeft ? 6.0 : 9.0, kInk, mark.asLeft, false};
}

struct Plot {
  QRectF area;
  Axis x, y;
  double place(double value) const {
    const double inner = area.width() - 2.0 * kBeside;
    return area.left() + kBeside + inner * (value - x.ticks.front()) / (x.ticks.back() - x.ticks.front());
  }
  double height(double error) const {
    return area.bottom() - area.height() * (error - y.ticks.front()) / (y.ticks.back() - y.ticks.front());
  }
};

Axis errorAxis(const CertificateChart& chart) {
  double low = 0.0;
  double high = 0.0;
  for (const ChartMark& mark : chart.marks) {
    low = std::min({low, mark.error, std::isfinite(mark.low) ? mark.low : 0.0});
    high = std::max({high, mark.error, std::isfinite(mark.high) ? mark.high : 0.0});
  }
  const double margin = low == high ? 1.0 : 0.08 * (high - low);
  return roundAxis(low - margin, high + margin, 6);
}

Axis placeAxis(const CertificateChart& chart) {
  Axis axis;
  if (!chart.categories.empty()) {
    // Some room at either end.
    axis.ticks = {-0.4, static_cast<double>(chart.categories.size()) - 0.6};
    return axis;
  }
  double low = 0.0;
  double high = 100.0;
  for (const ChartMark& mark : chart.marks) {
    low = std::min(low, mark.percent);
    high = std::max(high, mark.percent);
  }
  return roundAxis(low, high, 10);
}

void drawAxes(PageFlow& flow, const Plot& plot, const CertificateChart& chart) {
  const QFont font = typeface(kLabelSize);
  const double half = 0.36 * kLabelSize;  // from a digit's middle to its baseline
  for (const double tick : plot.y.ticks) {
    const double y = plot.height(tick);
    flow.path({segment({plot.area.left(), y}, {plot.area.right(), y}), std::abs(tick) < 1e-12 ? 7.0 : 3.0,
               std::abs(tick) < 1e-12 ? kInk : kGrid, false, false});
    flow.text(plot.area.left() - 40.0, y + half, font, printedNumber(formatFixed(tick, plot.y.decimals)),
              Align::right);
  }
  const double foot = plot.area.bottom();
  if (chart.categories.empty()) {
    for (const double tick : plot.x.ticks) {
      const double x = plot.place(tick);
      flow.path({segment({x, foot}, {x, foot + 25.0}), 5.0, kInk, false, false});
      flow.text(x, foot + 35.0 + rise(font), font, printedNumber(formatFixed(tick, plot.x.decimals)),
                Align::centre);
    }
  } else {
    const double slot = plot.place(1.0) - plot.place(0.0);
    for (std::size_t i = 0; i < chart.categories.size(); ++i) {
      double y = foot + 35.0;
      for (const QString& line : wrapped(font, printed(chart.categories[i]), slot - 30.0)) {
        flow.text(plot.place(static_cast<double>(i)), y + rise(font), font, line, Align::centre);
        y += leading(font);
      }
    }
  }
  PathItem frame;
  frame.path.addRect(plot.area);
  frame.width = 5.0;
  frame.color = kInk;
  flow.path(std::move(frame));
}

/// Limits by place; where marks of one place differ in theirs, the narrower ones.
std::map<double, ErrorLimits> limitsByPlace(const CertificateChart& chart) {
  std::map<double, ErrorLimits> limits;
  for (const ChartMark& mark : chart.marks) {
    auto [at, fresh] = limits.try_emplace(mark.percent, ErrorLimits{mark.low, mark.high});
    if (!fresh) {
      at->second.low = std::max(at->second.low, mark.low);
      at->second.high = std::min(at->second.high, mark.high);
    }
  }
  return limits;
}

void drawLimits(PageFlow& flow, const Plot& plot, const CertificateChart& chart) {
  const auto limits = limitsByPlace(chart);
  const bool bars = !chart.categories.empty() || limits.size() < 2;
  for (const bool upper : {false, true}) {
    PathItem line;
    line.width = 9.0;
    line.color = kInk;
    line.dashed = true;
    bool drawing = false;
    for (const auto& [place, pair] : limits) {
      const double limit = upper ? pair.high : pair.low;
      if (!std::isfinite(limit)) {
        drawing = false;
        continue;
      }
      const QPointF at(plot.place(place), plot.height(limit));
      if (bars) {
        line.path.moveTo(at - QPointF(150.0, 0.0));
        line.path.lineTo(at + QPointF(150.0, 0.0));
      } else if (drawing) {
        line.path.lineTo(at);
      } else {
        line.path.moveTo(at);
      }
      drawing = true;
    }
    flow.path(std::move(line));
  }
}

/// Marks of one place stand side by side: as found before as left, going up before going down.
int column(const ChartMark& mark) {
  return (mark.asLeft ? 2 : 0) + (mark.direction == Direction::down ? 1 : 0);
}

void drawMarks(PageFlow& flow, const Plot& plot, const CertificateChart& chart) {
  std::map<double, std::set<int>> columns;
  for (const ChartMark& mark : chart.marks) {
    columns[mark.percent].insert(column(mark));
  }
  double closest = plot.area.width();
  for (auto place = columns.begin(); std::next(place) != columns.end(); ++place) {
    closest = std::min(closest, plot.place(std::next(place)->first) - plot.place(place->first));
  }
  for (const ChartMark& mark : chart.marks) {
    const std::set<int>& here = columns[mark.percent];
    const auto count = static_cast<double>(here.size());
    const auto nth = static_cast<double>(std::distance(here.begin(), here.find(column(mark))));
    const double apart = std::min(kApart, closest / (count + 1.0));
    const double x = plot.place(mark.percent) + (nth - (count - 1.0) / 2.0) * apart;
    flow.path(markItem(mark, {x, plot.height(mark.error)}));
  }
}

/// Only what the chart shows, on one line or several.
void drawLegend(PageFlow& flow, const CertificateChart& chart, double x, double width) {
  const QFont font = typeface(kLabelSize);
  std::set<std::pair<bool, Direction>> shown;
  for (const ChartMark& mark : chart.marks) {
    shown.emplace(mark.asLeft, mark.direction);
  }
  double at = x;
  const auto entry = [&](const QString& label, double symbol) {
    const double needs = symbol + 45.0 + textWidth(font, label) + 160.0;
    if (at > x && at + needs > x + width) {
      at = x;
      flow.skip(leading(font) + 20.0);
    }
    const QPointF middle(at + symbol / 2.0, flow.y() + 0.62 * kLabelSize);
    flow.text(at + symbol + 45.0, flow.y() + rise(font), font, label);
    at += needs;
    return middle;
  };
  for (const auto& [asLeft, direction] : shown) {
    QString label = asLeft ? QStringLiteral("as left") : QStringLiteral("as found");
    if (direction != Direction::none) {
      label += direction == Direction::up ? QStringLiteral(", going up") : QStringLiteral(", going down");
    }
    ChartMark mark;
    mark.asLeft = asLeft;
    mark.direction = direction;
    flow.path(markItem(mark, entry(label, 2.0 * kMark)));
  }
  const QPointF middle = entry(QStringLiteral("limit of error"), 300.0);
  flow.path({segment(middle - QPointF(150.0, 0.0), middle + QPointF(150.0, 0.0)), 9.0, kInk, false, true});
  flow.skip(leading(font) + 30.0);
}

double footHeight(const CertificateChart& chart, double width) {
  const QFont font = typeface(kLabelSize);
  qsizetype lines = 1;
  for (const std::string& name : chart.categories) {
    const double slot = (width - 2.0 * kBeside) / (static_cast<double>(chart.categories.size()) - 0.2);
    lines = std::max(lines, wrapped(font, printed(name), slot - 30.0).size());
  }
  return 35.0 + static_cast<double>(lines) * leading(font);
}

}  // namespace

Axis roundAxis(double low, double high, int wanted) {
  const double raw = (high - low) / std::max(1, wanted);
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  const double ratio = raw / power;
  const double step = power * (ratio <= 1.0 + 1e-9   ? 1.0
                               : ratio <= 2.0 + 1e-9 ? 2.0
                               : ratio <= 5.0 + 1e-9 ? 5.0
                                                     : 10.0);
  Axis axis;
  const double first = std::floor(low / step + 1e-9);
  const double last = std::ceil(high / step - 1e-9);
  const auto count = static_cast<int>(last - first) + 1;
  for (int n = 0; n < count; ++n) {
    axis.ticks.push_back((first + n) * step);
  }
  axis.decimals = std::max(0, -static_cast<int>(std::floor(std::log10(step) + 1e-9)));
  return axis;
}

void placeChart(PageFlow& flow, const CertificateChart& chart) {
  if (chart.marks.empty()) {
    return;
  }
  const QFont font = typeface(kLabelSize);
  Plot plot;
  plot.x = placeAxis(chart);
  plot.y = errorAxis(chart);
  double labels = 0.0;
  for (const double tick : plot.y.ticks) {
    labels = std::max(labels, textWidth(font, printedNumber(formatFixed(tick, plot.y.decimals))));
  }
  const double left = flow.left() + labels + 60.0;
  const double right = flow.right() - 60.0;
  const double foot = footHeight(chart, right - left);
  const double around = 4.0 * leading(font) + foot + 190.0;
  flow.heading(printed(chart.title), around + kLowestPlot);
  const double height = std::clamp(flow.remaining() - around, kLowestPlot, kHighestPlot);
  drawLegend(flow, chart, flow.left(), flow.width());
  const QString errorTitle =
      QStringLiteral("error, ") + (chart.unit.empty() ? QStringLiteral("1") : printed(chart.unit));
  flow.text(flow.left(), flow.y() + rise(font), font, errorTitle);
  flow.skip(leading(font) + 70.0);
  plot.area = QRectF(left, flow.y(), right - left, height);
  drawAxes(flow, plot, chart);
  drawLimits(flow, plot, chart);
  drawMarks(flow, plot, chart);
  flow.skip(height + foot);
  if (chart.categories.empty()) {
    flow.text((left + right) / 2.0, flow.y() + rise(font), font, QStringLiteral("nominal point, % of span"),
              Align::centre);
    flow.skip(leading(font));
  }
  flow.skip(40.0);
}

}  // namespace spanwright
