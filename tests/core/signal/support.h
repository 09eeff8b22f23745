// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the tests of this room share.
#pragma once

#include <gtest/gtest.h>

#include <limits>
#include <ostream>
#include <string>

#include "core/signal/point_model.h"
#include "core/signal/range_result.h"
#include "tests/support/csv.h"

namespace spanwright {

inline std::ostream& operator<<(std::ostream& out, RangeResult result) {
  return out << rangeText(result);
}

namespace test {

inline std::string signalReference(const std::string& name) {
  return std::string(SPANWRIGHT_REFERENCE_DIR "/signals/") + name;
}

inline constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
inline constexpr double kInf = std::numeric_limits<double>::infinity();

/// The value, or a failed test and NaN, which fails every comparison after it.
inline double valueOf(const Expected& expected) {
  if (const auto* value = std::get_if<double>(&expected))
    return *value;
  ADD_FAILURE() << "no value: " << rangeText(std::get<RangeResult>(expected));
  return kNan;
}

inline Expected why(RangeResult result) {
  return result;
}

/// Applied to reading and back over the whole span and 4 % beyond both ends, within 1e-9 of the span.
inline void expectThereAndBack(const PointModel& model, double from = -0.04, double to = 1.04) {
  const Span span = model.appliedSpan();
  const Span readings = model.readingSpan();
  constexpr int kPoints = 5000;
  for (int i = 0; i <= kPoints; ++i) {
    const double applied = span.low + (from + (to - from) * i / kPoints) * span.width();
    const double reading = valueOf(model.expected(applied));
    const double back = valueOf(model.appliedFor(reading));
    ASSERT_NEAR(back, applied, 1e-9 * std::abs(span.width())) << applied << " " << symbol(span.unit);
    ASSERT_NEAR(valueOf(model.expected(back)), reading, 1e-9 * std::abs(readings.width())) << applied;
  }
}

}  // namespace test
}  // namespace spanwright
