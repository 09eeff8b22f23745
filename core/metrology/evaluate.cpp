// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/evaluate.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/metrology/input_types.h"

namespace spanwright {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

/// The least fraction of tolerance that is outside: the double after 1.
constexpr double kOutside = 1.0 + std::numeric_limits<double>::epsilon();

/// Readings and limits are decimals that a double holds only nearly: 37.6 - 37.5 is not quite 0.1.
/// Differences below this share of the numbers involved are rounding, not error.
constexpr double kRounding = 1e-12;

/// What one point is held against.
struct Demand {
  double expected = 0.0;
  ErrorLimits limits;
  bool floored = false;
  bool openLow = false, openHigh = false;  ///< the limit itself is already outside
};

using Demanded = std::variant<Demand, RangeResult>;

/// How many counts one reading unit is at `expected`; 0 when the reading has no counts.
double countsPerUnit(const PointModel& model, double expected) {
  const Span span = model.readingSpan();
  if (span.unit == Unit::count) {
    return 1.0;
  }
  // Under a square root's cut-off the local slope has no value; the full span's then gives the narrower
  // limit.
  for (const double at : {expected, span.high}) {
    const double step = -1e-3 * span.width();
    const ErrorForms forms = model.errorForms(at, at + step);
    if (forms.counts && step != 0.0) {
      return std::abs(*forms.counts / step);
    }
  }
  return 0.0;
}

Demand byTolerance(const PointModel& model, const Tolerance& tolerance, double expected) {
  Demand demand;
  demand.expected = expected;
  demand.limits =
      errorLimits(tolerance, expected, model.readingSpan().width(), countsPerUnit(model, expected));
  const double step = model.stepAt(expected);
  demand.floored = demand.limits.high < step || -demand.limits.low < step;
  demand.limits.high = std::max(demand.limits.high, step);
  demand.limits.low = std::min(demand.limits.low, -step);
  return demand;
}

/// A claimed input type must see every sure-off voltage as off and every sure-on voltage as on: it turns on
/// above the highest off voltage and no later than the lowest on voltage, and turns off no earlier on the way
/// down than the highest off voltage but before the lowest on voltage is left.
void holdToInputType(Demand& demand, int inputType, bool turningOn) {
  const auto type = inputTypeLimits(inputType);
  if (!type) {
    return;
  }
  const double low = type->offHigh - demand.expected;
  const double high = type->onLow - demand.expected;
  if (low >= demand.limits.low) {
    demand.limits.low = low;
    demand.openLow = turningOn;
  }
  if (high <= demand.limits.high) {
    demand.limits.high = high;
    demand.openHigh = !turningOn;
  }
}

Demanded switchDemand(const ThresholdSetup& setup, const PointModel& model, const Tolerance& tolerance,
                      bool turningOn) {
  Demand demand = byTolerance(model, tolerance, turningOn ? setup.onLevel : setup.offLevel);
  holdToInputType(demand, setup.inputType, turningOn);
  return demand;
}

/// On: at least the supply less the allowed drop, at most 10 % over the supply. Off: no more than the allowed
/// voltage, of either sign.
Demand stateDemand(const DiscreteOutputSetup& setup, bool on) {
  Demand demand;
  demand.expected = on ? setup.supplyVolts : 0.0;
  demand.limits = on ? ErrorLimits{-setup.maxDropVolts, 0.1 * setup.supplyVolts}
                     : ErrorLimits{-setup.maxOffVolts, setup.maxOffVolts};
  return demand;
}

Demanded lossDemand(const ChannelSetup& setup, const PointModel& model, const Tolerance& tolerance,
                    double applied) {
  if (const auto* discrete = std::get_if<DiscreteOutputSetup>(&setup.kind)) {
    return stateDemand(*discrete, discrete->onLoss == LossBehaviour::hold);
  }
  const auto* output = std::get_if<AnalogOutputSetup>(&setup.kind);
  if (output == nullptr) {
    return RangeResult::wrongUnit;
  }
  double expected = 0.0;
  if (output->onLoss == LossBehaviour::minimum) {
    expected = std::min(model.readingSpan().low, model.readingSpan().high);
  } else if (output->onLoss == LossBehaviour::hold) {
    const Expected held = model.expected(applied);
    if (const auto* trouble = std::get_if<RangeResult>(&held)) {
      return *trouble;
    }
    expected = std::get<double>(held);
  }
  return byTolerance(model, tolerance, expected);
}

Demanded demandOf(const Expected& expected, const PointModel& model, const Tolerance& tolerance) {
  if (const auto* trouble = std::get_if<RangeResult>(&expected)) {
    return *trouble;
  }
  return byTolerance(model, tolerance, std::get<double>(expected));
}

Demanded demandAt(const TestPoint& point, const PointModel& model, const ChannelSetup* setup,
                  const Tolerance& tolerance, double applied) {
  if (!std::isfinite(applied)) {
    return RangeResult::notANumber;
  }
  if (point.role == PointRole::value) {
    return demandOf(model.expected(applied), model, tolerance);
  }
  if (setup == nullptr) {
    return RangeResult::wrongUnit;
  }
  const auto* threshold = std::get_if<ThresholdSetup>(&setup->kind);
  const auto* discrete = std::get_if<DiscreteOutputSetup>(&setup->kind);
  const AlarmLevels* alarms = alarmLevels(*setup);
  switch (point.role) {
    case PointRole::switchOn:
    case PointRole::switchOff:
      if (threshold != nullptr) {
        return switchDemand(*threshold, model, tolerance, point.role == PointRole::switchOn);
      }
      break;
    case PointRole::stateOn:
    case PointRole::stateOff:
      if (discrete != nullptr) {
        return stateDemand(*discrete, point.role == PointRole::stateOn);
      }
      break;
    case PointRole::alarmTrip:
    case PointRole::alarmReset:
      if (alarms != nullptr && point.alarm) {
        return demandOf(alarmReading(model, *setup, *point.alarm, point.role == PointRole::alarmReset), model,
                        tolerance);
      }
      break;
    case PointRole::lossOfSignal:
      return lossDemand(*setup, model, tolerance, applied);
    case PointRole::value:
      break;
  }
  return RangeResult::wrongUnit;
}

/// How far outside an error is that has left `limit`; infinite when no error of its sign is allowed.
double beyond(double error, double limit) {
  const bool allowed = error > 0.0 ? limit > 0.0 : error < 0.0 && limit < 0.0;
  if (!allowed) {
    return kInfinity;
  }
  return std::max(kOutside, error / limit);
}

/// |error| over the limit on its side: 1 exactly on a limit, above 1 exactly when outside.
double fraction(const Demand& demand, double error, double slack) {
  const auto [low, high] = demand.limits;
  if (demand.openHigh ? error >= high - slack : error > high + slack) {
    return beyond(error, high);
  }
  if (demand.openLow ? error <= low + slack : error < low - slack) {
    return beyond(error, low);
  }
  const double limit = error >= 0.0 ? high : low;
  return limit == 0.0 ? 0.0 : std::clamp(error / limit, 0.0, 1.0);
}

PointResult unjudged(const Demand& demand) {
  PointResult result;
  result.expected = demand.expected;
  result.limits = demand.limits;
  result.flooredByStep = demand.floored;
  return result;
}

/// Is the reading taken with a measuring instrument at the terminals rather than shown by the converter?
bool readByMeter(const TestPoint& point) {
  const Dimension kind = dimension(point.readingUnit);
  return kind == Dimension::voltage || kind == Dimension::current || kind == Dimension::resistance;
}

}  // namespace

Evaluation evaluatePoint(const TestPoint& point, const PointModel& model, const ChannelSetup* setup,
                         const Tolerance& tolerance, double applied, double reading) {
  if (!std::isfinite(reading)) {
    return RangeResult::notANumber;
  }
  const Demanded demanded = demandAt(point, model, setup, tolerance, applied);
  if (const auto* trouble = std::get_if<RangeResult>(&demanded)) {
    return *trouble;
  }
  const Demand& demand = std::get<Demand>(demanded);
  const Span span = model.readingSpan();
  const double slack = kRounding * std::max({std::abs(reading), std::abs(demand.expected), std::abs(span.low),
                                             std::abs(span.high)});
  PointResult result = unjudged(demand);
  result.error = reading - demand.expected;
  result.forms = model.errorForms(demand.expected, reading);
  const double step = model.stepAt(demand.expected);
  result.withinOneStep = step > 0.0 && std::abs(result.error) <= step + slack;
  result.fractionOfTolerance = fraction(demand, result.error, slack);
  result.verdict = result.fractionOfTolerance > 1.0 ? Verdict::fail : Verdict::pass;
  return result;
}

Evaluation expectPoint(const TestPoint& point, const PointModel& model, const ChannelSetup* setup,
                       const Tolerance& tolerance, double applied) {
  const Demanded demanded = demandAt(point, model, setup, tolerance, applied);
  if (const auto* trouble = std::get_if<RangeResult>(&demanded)) {
    return *trouble;
  }
  return unjudged(std::get<Demand>(demanded));
}

Span possibleReadings(const TestPoint& point, const PointModel& model) {
  const Span span = model.readingSpan();
  const double low = std::min(span.low, span.high);
  const double high = std::max(span.low, span.high);
  if (readByMeter(point)) {
    const double most = std::max(std::abs(low), std::abs(high));
    return {-2.0 * most, 2.0 * most, span.unit};
  }
  const double reach = 0.1 * (high - low);
  return {low - reach, high + reach, span.unit};
}

bool readingImpossible(const TestPoint& point, const PointModel& model, double reading) {
  const Span possible = possibleReadings(point, model);
  const double slack = kRounding * std::max(std::abs(possible.low), std::abs(possible.high));
  return !(reading >= possible.low - slack && reading <= possible.high + slack);
}

Verdict overall(const std::vector<Verdict>& verdicts) {
  Verdict result = Verdict::notJudged;
  for (const Verdict verdict : verdicts) {
    if (verdict == Verdict::fail) {
      return Verdict::fail;
    }
    if (verdict == Verdict::pass) {
      result = Verdict::pass;
    }
  }
  return result;
}

std::string_view text(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return "pass";
    case Verdict::fail:
      return "fail";
    case Verdict::notJudged:
      break;
  }
  return "not judged";
}

}  // namespace spanwright
