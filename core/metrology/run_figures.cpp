// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/run_figures.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/metrology/straight_line.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

struct Error {
  double percent;  // of span
  int cycle;
};

struct Point {
  double percent = 0.0;  // where it lies
  std::map<Direction, std::vector<Error>> errors;
};

double toPercent(double output, double spanLow, double spanHigh) {
  return (output - spanLow) / (spanHigh - spanLow) * 100.0;
}

// For every reading the number of its test point, ascending.
std::vector<std::size_t> pointNumbers(const std::vector<RunReading>& readings, double spanLow,
                                      double spanHigh) {
  std::vector<std::pair<double, std::size_t>> places;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    places.emplace_back(toPercent(readings[i].expected, spanLow, spanHigh), i);
  }
  std::sort(places.begin(), places.end());
  std::vector<std::size_t> numbers(readings.size());
  std::size_t number = 0;
  double first = places.empty() ? 0.0 : places.front().first;
  for (const auto& [percent, i] : places) {
    // The room for rounding lets 10.5 % still belong to 10 %, whatever the span.
    if (percent - first > kSamePointPercent * (1.0 + 1e-9)) {
      ++number;
      first = percent;
    }
    numbers[i] = number;
  }
  return numbers;
}

std::vector<Point> gather(const std::vector<RunReading>& readings, double spanLow, double spanHigh) {
  const std::vector<std::size_t> numbers = pointNumbers(readings, spanLow, spanHigh);
  std::vector<Point> points(*std::max_element(numbers.begin(), numbers.end()) + 1);
  std::vector<int> counts(points.size());
  const double width = std::abs(spanHigh - spanLow);
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const RunReading& reading = readings[i];
    Point& point = points[numbers[i]];
    point.percent += toPercent(reading.expected, spanLow, spanHigh);
    ++counts[numbers[i]];
    point.errors[reading.direction].push_back(
        {(reading.reading - reading.expected) / width * 100.0, reading.cycle});
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    points[i].percent /= counts[i];
  }
  return points;
}

std::optional<double> mean(const Point& point, Direction direction) {
  const auto found = point.errors.find(direction);
  if (found == point.errors.end()) {
    return std::nullopt;
  }
  double sum = 0.0;
  for (const Error& error : found->second) {
    sum += error.percent;
  }
  return sum / static_cast<double>(found->second.size());
}

void raise(std::optional<double>& largest, double value) {
  largest = std::max(largest.value_or(value), value);
}

PointErrors averages(const Point& point) {
  PointErrors result{point.percent, mean(point, Direction::up), mean(point, Direction::down),
                     mean(point, Direction::none), 0.0};
  int directions = 0;
  for (const auto& of : {result.up, result.down, result.unknown}) {
    if (of) {
      result.average += *of;
      ++directions;
    }
  }
  result.average /= directions;
  return result;
}

void extremes(RunFigures& figures, const std::vector<Point>& points) {
  constexpr double kInfinite = std::numeric_limits<double>::infinity();
  figures.inaccuracyHigh = figures.averageErrorHigh = -kInfinite;
  figures.inaccuracyLow = figures.averageErrorLow = kInfinite;
  for (const Point& point : points) {
    for (const auto& [direction, errors] : point.errors) {
      for (const Error& error : errors) {
        figures.inaccuracyHigh = std::max(figures.inaccuracyHigh, error.percent);
        figures.inaccuracyLow = std::min(figures.inaccuracyLow, error.percent);
      }
      const double average = *mean(point, direction);
      figures.averageErrorHigh = std::max(figures.averageErrorHigh, average);
      figures.averageErrorLow = std::min(figures.averageErrorLow, average);
    }
  }
  figures.maximumError = figures.averageErrorHigh >= -figures.averageErrorLow ? figures.averageErrorHigh
                                                                              : figures.averageErrorLow;
}

void ends(RunFigures& figures) {
  const PointErrors &low = figures.points.front(), &high = figures.points.back();
  const bool atLow = std::abs(low.percent) <= kNearEndPercent;
  const bool atHigh = std::abs(high.percent - 100.0) <= kNearEndPercent;
  const double distance = high.percent - low.percent;
  const double slope = distance > 0.0 ? (high.average - low.average) / distance : 0.0;
  if (atLow) {
    // A lone point near the end leaves nothing to extend it with.
    figures.zeroError = low.average - slope * low.percent;
  }
  if (atLow && atHigh) {
    figures.spanError = slope * 100.0;
  }
}

void linearity(RunFigures& figures) {
  if (figures.points.size() < 3) {
    return;
  }
  std::vector<PlanePoint> curve;
  for (const PointErrors& point : figures.points) {
    curve.push_back({point.percent, point.average});
  }
  const PlanePoint &low = curve.front(), &high = curve.back();
  const double slope = (high.y - low.y) / (high.x - low.x);
  double terminal = 0.0;
  for (const PlanePoint& point : curve) {
    terminal = std::max(terminal, std::abs(point.y - low.y - slope * (point.x - low.x)));
  }
  figures.linearityTerminal = terminal;
  figures.linearityBest = bestLine(curve).deviation;
  figures.linearityZero = bestLineThrough(low, curve).deviation;
}

void hysteresis(RunFigures& figures, const std::vector<Point>& points) {
  for (const Point& point : points) {
    const auto ups = point.errors.find(Direction::up), downs = point.errors.find(Direction::down);
    if (ups == point.errors.end() || downs == point.errors.end()) {
      continue;
    }
    raise(figures.hysteresis, std::abs(*mean(point, Direction::down) - *mean(point, Direction::up)));
    for (const Error& up : ups->second) {
      for (const Error& down : downs->second) {
        if (up.cycle == down.cycle) {
          raise(figures.hysteresisWithinCycle, std::abs(down.percent - up.percent));
        }
      }
    }
  }
}

void repeatability(RunFigures& figures, const std::vector<Point>& points) {
  for (const Point& point : points) {
    for (const auto& [direction, errors] : point.errors) {
      if (direction == Direction::none || errors.size() < 2) {
        continue;
      }
      const auto [low, high] = std::minmax_element(
          errors.begin(), errors.end(), [](const Error& a, const Error& b) { return a.percent < b.percent; });
      raise(figures.repeatability, high->percent - low->percent);
    }
  }
}

// Written down as the work went: rising while up, falling while down.
bool inOrderOfWork(const std::vector<RunReading>& readings, const std::vector<std::size_t>& numbers) {
  for (std::size_t i = 1; i < readings.size(); ++i) {
    const Direction direction = readings[i].direction;
    if (direction != readings[i - 1].direction) {
      continue;
    }
    const bool onward =
        direction == Direction::down ? numbers[i] < numbers[i - 1] : numbers[i] > numbers[i - 1];
    if (!onward) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::optional<std::string> runFault(const std::vector<RunReading>& readings, double spanLow,
                                    double spanHigh) {
  if (readings.empty()) {
    return "the run has no readings";
  }
  if (!std::isfinite(spanLow) || !std::isfinite(spanHigh) || !std::isfinite(spanHigh - spanLow)) {
    return "the span's ends are not finite numbers";
  }
  if (spanLow == spanHigh) {
    return "the span has no width";
  }
  for (const RunReading& reading : readings) {
    // Also what would overflow on the way to percent.
    const double width = std::abs(spanHigh - spanLow);
    if (!std::isfinite((reading.reading - reading.expected) / width * 1e6) ||
        !std::isfinite((reading.expected - spanLow) / width * 1e6)) {
      return "a reading or an expected value is not a finite number, or far beyond the span";
    }
    if (reading.cycle < 1) {
      return "a reading's cycle is below 1";
    }
  }
  const std::vector<std::size_t> numbers = pointNumbers(readings, spanLow, spanHigh);
  std::set<std::tuple<std::size_t, Direction, int>> seen;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const RunReading& reading = readings[i];
    if (reading.direction != Direction::none &&
        !seen.insert({numbers[i], reading.direction, reading.cycle}).second) {
      return "the point at " + formatShortest(reading.expected) + " was read twice going " +
             std::string(text(reading.direction)) + " in cycle " + std::to_string(reading.cycle);
    }
  }
  return std::nullopt;
}

RunFigures runFigures(const std::vector<RunReading>& readings, double spanLow, double spanHigh) {
  if (const auto fault = runFault(readings, spanLow, spanHigh)) {
    throw std::invalid_argument(*fault);
  }
  const std::vector<Point> points = gather(readings, spanLow, spanHigh);
  RunFigures figures;
  for (const Point& point : points) {
    figures.points.push_back(averages(point));
  }
  extremes(figures, points);
  ends(figures);
  linearity(figures);
  hysteresis(figures, points);
  repeatability(figures, points);
  return figures;
}

void numberCycles(std::vector<RunReading>& readings, double spanLow, double spanHigh) {
  const std::vector<std::size_t> numbers = pointNumbers(readings, spanLow, spanHigh);
  if (!inOrderOfWork(readings, numbers)) {
    std::map<std::pair<std::size_t, Direction>, int> counts;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      readings[i].cycle = ++counts[{numbers[i], readings[i].direction}];
    }
    return;
  }
  int cycle = 1;
  Direction began = readings.empty() ? Direction::none : readings.front().direction;
  std::set<std::pair<std::size_t, Direction>> seen;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const Direction direction = readings[i].direction;
    const bool turnedBack = i > 0 && direction == began && readings[i - 1].direction != began;
    if (turnedBack || seen.count({numbers[i], direction}) > 0) {
      ++cycle;
      began = direction;
      seen.clear();
    }
    seen.insert({numbers[i], direction});
    readings[i].cycle = cycle;
  }
}

std::optional<double> deadBand(const std::vector<DeadBandMove>& moves) {
  std::optional<double> largest;
  for (const DeadBandMove& move : moves) {
    if (!std::isfinite(move.from) || !std::isfinite(move.to)) {
      throw std::invalid_argument("a dead band is looked for between two finite values of the input");
    }
    raise(largest, std::abs(move.to - move.from));
  }
  return largest;
}

}  // namespace spanwright
