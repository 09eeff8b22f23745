// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/robust_rate.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

namespace spanwright {

namespace {

constexpr std::int64_t kPairsHeld = 2'000'000;

struct Mark {
  double time = 0.0;
  double error = 0.0;
};
using Line = std::vector<Mark>;  // one segment, by time then error, about its first reading

std::vector<Line> linesOf(const std::vector<Segment>& segments) {
  std::vector<Line> lines;
  for (const Segment& segment : segments) {
    Line line;
    for (const DriftReading& reading : segment.readings) {
      line.push_back(
          {reading.time - segment.readings.front().time, reading.error - segment.readings.front().error});
    }
    std::sort(line.begin(), line.end(), [](const Mark& a, const Mark& b) {
      return a.time != b.time ? a.time < b.time : a.error < b.error;
    });
    lines.push_back(std::move(line));
  }
  return lines;
}

std::int64_t pairsOf(std::int64_t count) {
  return count * (count - 1) / 2;
}

/// Pairs of readings whose `same` holds for neighbours, of a sorted line.
template <class Same>
std::int64_t pairsAlike(const Line& line, const Same& same) {
  std::int64_t pairs = 0;
  std::int64_t run = 1;
  for (std::size_t i = 1; i < line.size(); ++i) {
    run = same(line[i - 1], line[i]) ? run + 1 : 1;
    pairs += run - 1;
  }
  return pairs;
}

bool sameTime(const Mark& a, const Mark& b) {
  return a.time == b.time;
}
bool sameMark(const Mark& a, const Mark& b) {
  return a.time == b.time && a.error == b.error;
}

std::int64_t pairsWithSlope(const std::vector<Line>& lines) {
  std::int64_t pairs = 0;
  for (const Line& line : lines)
    pairs += pairsOf(std::ssize(line)) - pairsAlike(line, sameTime);
  return pairs;
}

/// Pairs i < j with values[j] <= values[i]; sorts `values`.
std::int64_t pairsNotRising(std::vector<double>& values, std::vector<double>& scratch, std::size_t first,
                            std::size_t last) {
  if (last - first < 2)
    return 0;
  const std::size_t middle = first + (last - first) / 2;
  std::int64_t pairs =
      pairsNotRising(values, scratch, first, middle) + pairsNotRising(values, scratch, middle, last);
  std::size_t left = first;
  for (std::size_t right = middle; right < last; ++right) {
    while (left < middle && values[left] < values[right])
      ++left;
    pairs += static_cast<std::int64_t>(middle - left);
  }
  const auto at = [&](std::vector<double>& list, std::size_t i) {
    return list.begin() + static_cast<std::ptrdiff_t>(i);
  };
  std::merge(at(values, first), at(values, middle), at(values, middle), at(values, last), at(scratch, first));
  std::copy(at(scratch, first), at(scratch, last), at(values, first));
  return pairs;
}

/// How many pairs have a slope of at most `slope`: those that do not rise once the slope is taken off.
std::int64_t slopesUpTo(const std::vector<Line>& lines, double slope) {
  std::int64_t pairs = 0;
  std::vector<double> values;
  std::vector<double> scratch;
  for (const Line& line : lines) {
    values.clear();
    for (const Mark& mark : line)
      values.push_back(mark.error - slope * mark.time);
    scratch.resize(values.size());
    // Readings at one time are sorted by error, so only equal ones among them fail to rise.
    pairs += pairsNotRising(values, scratch, 0, values.size()) - pairsAlike(line, sameMark);
  }
  return pairs;
}

/// A bound on every slope's size.
double steepest(const std::vector<Line>& lines) {
  double bound = 0.0;
  for (const Line& line : lines) {
    double low = 0.0;
    double high = 0.0;
    double shortest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < line.size(); ++i) {
      low = std::min(low, line[i].error);
      high = std::max(high, line[i].error);
      if (i > 0 && line[i].time > line[i - 1].time)
        shortest = std::min(shortest, line[i].time - line[i - 1].time);
    }
    bound = std::max(bound, (high - low) / shortest);
  }
  return bound;
}

double slopeOfRank(const std::vector<Line>& lines, std::int64_t rank, double bound) {
  double low = -bound;
  double high = bound;
  const double fine =
      bound * 1e-30;  // about nothing: a rate of exactly zero would else be halved towards for ever
  while (high - low >
         fine + 4.0 * std::numeric_limits<double>::epsilon() * std::max(std::abs(low), std::abs(high))) {
    const double middle = low + (high - low) / 2.0;
    if (slopesUpTo(lines, middle) >= rank) {
      high = middle;
    } else {
      low = middle;
    }
  }
  return high;
}

double medianOf(std::vector<double>& slopes) {
  const auto middle = slopes.begin() + std::ssize(slopes) / 2;
  std::nth_element(slopes.begin(), middle, slopes.end());
  if (slopes.size() % 2 == 1)
    return *middle;
  return (*std::max_element(slopes.begin(), middle) + *middle) / 2.0;
}

}  // namespace

std::optional<double> robustRateByCounting(const std::vector<Segment>& segments) {
  const std::vector<Line> lines = linesOf(segments);
  const std::int64_t pairs = pairsWithSlope(lines);
  if (pairs == 0)
    return std::nullopt;
  const double bound = steepest(lines);
  if (bound == 0.0)
    return 0.0;
  const double upper = slopeOfRank(lines, pairs / 2 + 1, bound);
  if (pairs % 2 == 1)
    return upper;
  return (slopeOfRank(lines, pairs / 2, bound) + upper) / 2.0;
}

std::optional<double> robustRate(const std::vector<Segment>& segments) {
  const std::vector<Line> lines = linesOf(segments);
  const std::int64_t pairs = pairsWithSlope(lines);
  if (pairs == 0)
    return std::nullopt;
  if (pairs > kPairsHeld)
    return robustRateByCounting(segments);
  std::vector<double> slopes;
  slopes.reserve(static_cast<std::size_t>(pairs));
  for (const Line& line : lines) {
    for (std::size_t j = 1; j < line.size(); ++j) {
      for (std::size_t i = 0; i < j && line[i].time < line[j].time; ++i) {
        slopes.push_back((line[j].error - line[i].error) / (line[j].time - line[i].time));
      }
    }
  }
  return medianOf(slopes);
}

double robustDisagreement(const std::vector<Segment>& segments, double apart, double degreesOfFreedom) {
  if (!(std::abs(apart) >= 1.0))
    return 1.0;
  std::mt19937_64 random(1968);
  std::normal_distribution<double> normal;
  std::chi_squared_distribution<double> scatter(std::min(degreesOfFreedom, 1e6));
  std::vector<Segment> quiet = segments;
  int asFar = 0;
  for (int draw = 0; draw < kRobustDraws; ++draw) {
    double sxx = 0.0;
    double sxy = 0.0;
    for (Segment& segment : quiet) {
      double time = 0.0;
      for (const DriftReading& reading : segment.readings)
        time += (reading.time - segment.readings.front().time) / static_cast<double>(segment.readings.size());
      for (DriftReading& reading : segment.readings) {
        const double away = reading.time - segment.readings.front().time - time;
        reading.error = normal(random);
        sxx += away * away;
        sxy += away * reading.error;
      }
    }
    const auto robust = robustRate(quiet);
    const double told = std::sqrt(scatter(random) / scatter.n());
    asFar += robust && std::abs(*robust - sxy / sxx) * std::sqrt(sxx) >= std::abs(apart) * told ? 1 : 0;
  }
  return static_cast<double>(asFar) / kRobustDraws;
}

}  // namespace spanwright
