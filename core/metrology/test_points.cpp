// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/test_points.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

#include "core/units/number.h"

namespace spanwright {
namespace {

/// The unit alarm levels are written in: the setup's engineering unit, or the reading's own when it has none.
Unit alarmUnit(const PointModel& model, const ChannelSetup& setup) {
  if (const auto* input = std::get_if<AnalogInputSetup>(&setup.kind)) {
    return input->units ? input->units->unit : model.readingSpan().unit;
  }
  if (const auto* couple = std::get_if<ThermocoupleSetup>(&setup.kind)) {
    return couple->range.unit;
  }
  if (const auto* rtd = std::get_if<RtdSetup>(&setup.kind)) {
    return rtd->range.unit;
  }
  return model.readingSpan().unit;
}

const std::optional<double>& levelOf(const AlarmLevels& alarms, AlarmLevel level) {
  switch (level) {
    case AlarmLevel::lowLow:
      return alarms.lowLow;
    case AlarmLevel::low:
      return alarms.low;
    case AlarmLevel::high:
      return alarms.high;
    case AlarmLevel::highHigh:
      break;
  }
  return alarms.highHigh;
}

bool isOutput(const ChannelSetup& setup) {
  return std::holds_alternative<AnalogOutputSetup>(setup.kind) ||
         std::holds_alternative<DiscreteOutputSetup>(setup.kind);
}

std::string alarmName(const TestPoint& point) {
  return std::string(text(point.alarm.value_or(AlarmLevel::low))) +
         (point.role == PointRole::alarmTrip ? " trip" : " reset");
}

/// Fills a sheet line by line; every line gets its sequence, units and label here.
class Layout {
 public:
  Layout(const TestScheme& scheme, const PointModel& model) : scheme_(scheme), model_(model) {}

  void values() {
    std::vector<double> rising = scheme_.percents;
    std::sort(rising.begin(), rising.end());
    const std::vector<double> falling(rising.rbegin(), rising.rend());
    for (int run = 1; run <= std::max(1, scheme_.repeats); ++run) {
      switch (scheme_.order) {
        case RunOrder::up:
          sweep(rising, Direction::up, run);
          break;
        case RunOrder::down:
          sweep(falling, Direction::down, run);
          break;
        case RunOrder::upDown:
          sweep(rising, Direction::up, run);
          sweep(falling, Direction::down, run);
          break;
        case RunOrder::downUp:
          sweep(falling, Direction::down, run);
          sweep(rising, Direction::up, run);
          break;
      }
    }
  }

  void switching(const ThresholdSetup& setup) {
    const Span span = model_.readingSpan();
    for (int run = 1; run <= std::max(1, scheme_.repeats); ++run) {
      add(PointRole::switchOn, Direction::up, run, percentOf(setup.onLevel, span), rampAt(setup.onLevel));
      add(PointRole::switchOff, Direction::down, run, percentOf(setup.offLevel, span),
          rampAt(setup.offLevel));
    }
  }

  void states() {
    const Span command = model_.appliedSpan();
    for (int run = 1; run <= std::max(1, scheme_.repeats); ++run) {
      add(PointRole::stateOn, Direction::none, run, 100.0, command.high);
      add(PointRole::stateOff, Direction::none, run, 0.0, command.low);
    }
  }

  void alarms(const ChannelSetup& setup, const AlarmLevels& levels) {
    struct Step {
      AlarmLevel level;
      bool reset;
      Direction direction;
    };
    static constexpr std::array kRamp{
        Step{AlarmLevel::high, false, Direction::up},      Step{AlarmLevel::highHigh, false, Direction::up},
        Step{AlarmLevel::highHigh, true, Direction::down}, Step{AlarmLevel::high, true, Direction::down},
        Step{AlarmLevel::low, false, Direction::down},     Step{AlarmLevel::lowLow, false, Direction::down},
        Step{AlarmLevel::lowLow, true, Direction::up},     Step{AlarmLevel::low, true, Direction::up}};
    for (const Step& step : kRamp) {
      if (!levelOf(levels, step.level)) {
        continue;
      }
      // A level that cannot be told as a reading keeps its line; judging it names the reason.
      const Expected reading = alarmReading(model_, setup, step.level, step.reset);
      const double* at = std::get_if<double>(&reading);
      add(step.reset ? PointRole::alarmReset : PointRole::alarmTrip, step.direction, 1,
          at != nullptr ? percentOf(*at, model_.readingSpan()) : 0.0, at != nullptr ? rampAt(*at) : 0.0,
          step.level);
    }
  }

  void loss() {
    const Span command = model_.appliedSpan();
    add(PointRole::lossOfSignal, Direction::none, 1, 50.0, command.low + command.width() / 2.0);
  }

  std::vector<TestPoint> take() { return std::move(points_); }

 private:
  /// The applied value at which the ramp should bring this reading; 0 when it lies outside what can be
  /// applied.
  double rampAt(double reading) const {
    const Expected applied = model_.appliedFor(reading);
    const double* at = std::get_if<double>(&applied);
    return at != nullptr ? *at : 0.0;
  }

  static double percentOf(double value, const Span& span) {
    return span.width() == 0.0 ? 0.0 : (value - span.low) / span.width() * 100.0;
  }

  void sweep(const std::vector<double>& percents, Direction direction, int run) {
    const Span span = model_.appliedSpan();
    for (const double percent : percents) {
      // The ends exactly as they are, without the rounding of low + 100 % of (high - low).
      const double nominal = percent == 100.0 ? span.high : span.low + percent / 100.0 * span.width();
      add(PointRole::value, direction, run, percent, nominal);
    }
  }

  void add(PointRole role, Direction direction, int run, double percent, double nominal,
           std::optional<AlarmLevel> alarm = std::nullopt) {
    TestPoint point;
    point.sequence = static_cast<int>(points_.size()) + 1;
    point.role = role;
    point.percent = percent;
    point.direction = direction;
    point.run = run;
    point.alarm = alarm;
    point.nominalApplied = nominal;
    point.appliedUnit = model_.appliedSpan().unit;
    point.readingUnit = model_.readingSpan().unit;
    point.label = pointKey(point);
    if (role == PointRole::value) {
      point.label += " %";
      if (direction != Direction::none) {
        point.label += " " + std::string(text(direction));
      }
    }
    const bool repeated = role == PointRole::value || role == PointRole::switchOn ||
                          role == PointRole::switchOff || role == PointRole::stateOn ||
                          role == PointRole::stateOff;
    if (repeated && scheme_.repeats > 1) {
      point.label += ", run " + std::to_string(run);
    }
    points_.push_back(std::move(point));
  }

  const TestScheme& scheme_;
  const PointModel& model_;
  std::vector<TestPoint> points_;
};

std::string_view trimmed(std::string_view value) {
  const std::size_t first = value.find_first_not_of(" \t");
  if (first == std::string_view::npos) {
    return {};
  }
  return value.substr(first, value.find_last_not_of(" \t") - first + 1);
}

/// Lower case for ASCII; keys have nothing else.
std::string folded(std::string_view value) {
  std::string result(value);
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') {
      c = static_cast<char>(c - 'A' + 'a');
    }
  }
  return result;
}

bool keyMeans(std::string_view key, const TestPoint& point) {
  std::string_view wanted = trimmed(key);
  if (point.role != PointRole::value) {
    return folded(wanted) == pointKey(point);
  }
  if (!wanted.empty() && wanted.back() == '%') {
    wanted = trimmed(wanted.substr(0, wanted.size() - 1));
  }
  const auto percent = parseNumber(wanted, DecimalSign::either);
  return percent && std::abs(percent->value - point.percent) <= 1e-9 * std::max(1.0, std::abs(point.percent));
}

/// Match tolerance for an applied value without a key, in % of span: test points stand much further apart.
constexpr double kNearPercent = 2.0;

}  // namespace

std::vector<TestPoint> layOutPoints(const TestScheme& scheme, const PointModel& model,
                                    const ChannelSetup* setup, Subject subject) {
  Layout layout(scheme, model);
  if (setup == nullptr || subject == Subject::sensor) {
    layout.values();
    return layout.take();
  }
  if (const auto* threshold = std::get_if<ThresholdSetup>(&setup->kind)) {
    layout.switching(*threshold);
  } else if (std::holds_alternative<DiscreteOutputSetup>(setup->kind)) {
    layout.states();
  } else {
    layout.values();
  }
  const AlarmLevels* levels = alarmLevels(*setup);
  if (scheme.alarms && levels != nullptr) {
    layout.alarms(*setup, *levels);
  }
  if (scheme.loss && isOutput(*setup)) {
    layout.loss();
  }
  return layout.take();
}

Expected alarmReading(const PointModel& model, const ChannelSetup& setup, AlarmLevel level, bool reset) {
  const AlarmLevels* alarms = alarmLevels(setup);
  assert(alarms != nullptr && levelOf(*alarms, level).has_value());
  double value = *levelOf(*alarms, level);
  if (reset) {
    const bool high = level == AlarmLevel::high || level == AlarmLevel::highHigh;
    value += high ? -alarms->deadBand : alarms->deadBand;
  }
  return model.normaliseReading({value, alarmUnit(model, setup)});
}

std::string pointKey(const TestPoint& point) {
  switch (point.role) {
    case PointRole::value:
      return formatShortest(point.percent);
    case PointRole::switchOn:
    case PointRole::stateOn:
      return "on";
    case PointRole::switchOff:
    case PointRole::stateOff:
      return "off";
    case PointRole::alarmTrip:
    case PointRole::alarmReset:
      return alarmName(point);
    case PointRole::lossOfSignal:
      break;
  }
  return "loss of communication";
}

const TestPoint* matchPoint(const std::vector<TestPoint>& points, const std::vector<int>& taken,
                            const PointModel& model, std::optional<std::string_view> key,
                            std::optional<double> applied, Direction direction) {
  const TestPoint* best = nullptr;
  double bestDistance = std::numeric_limits<double>::infinity();
  for (const TestPoint& point : points) {
    const bool free = std::find(taken.begin(), taken.end(), point.sequence) == taken.end();
    if (!free || (direction != Direction::none && point.direction != direction)) {
      continue;
    }
    if (key) {
      if (keyMeans(*key, point)) {
        return &point;
      }
    } else if (applied && point.role == PointRole::value) {
      const double distance = std::abs(*applied - point.nominalApplied);
      const double reach = kNearPercent / 100.0 * std::abs(model.appliedSpan().width());
      if (distance <= reach * (1.0 + 1e-12) && distance < bestDistance) {
        best = &point;
        bestDistance = distance;
      }
    }
  }
  return best;
}

}  // namespace spanwright
