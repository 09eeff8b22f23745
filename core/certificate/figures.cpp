// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/record/ruled_reading.h"
#include "core/units/number.h"
#include "core/units/quantity.h"

namespace spanwright {
namespace {

constexpr int kMostDecimals = 9;
constexpr int kExtraDecimals = 3;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale;
}

/// What was done where no value was applied, in words.
std::string appliedWords(const Reading& reading) {
  switch (reading.point.role) {
    case PointRole::switchOn:
    case PointRole::switchOff:
    case PointRole::alarmTrip:
    case PointRole::alarmReset:
      return reading.point.direction == Direction::down ? "ramped down" : "ramped up";
    case PointRole::stateOn:
      return "commanded on";
    case PointRole::stateOff:
      return "commanded off";
    case PointRole::lossOfSignal:
      return reading.point.appliedUnit == Unit::none
                 ? "communication interrupted"
                 // A no-break space keeps the number with its unit.
                 : fmt::format("communication interrupted at {}\u00a0{}",
                               formatFixed(reading.applied, fullDecimals(reading.applied, 0, 6)),
                               displaySymbol(reading.point.appliedUnit));
    case PointRole::value:
      break;
  }
  return "";
}

/// A rounded error must not look inside a limit it is outside of: digits are added until it shows.
int errorDecimals(double error, const ErrorLimits& limits, bool failed, int decimals) {
  if (!failed) {
    return decimals;
  }
  const int most = decimals + kExtraDecimals;
  while (decimals < most) {
    const double shown = rounded(error, decimals);
    if (shown > limits.high || shown < limits.low) {
      break;
    }
    ++decimals;
  }
  return decimals;
}

/// The verdict was given on the whole numbers: what is printed must not seem to say otherwise.
std::string fractionText(double fraction, Verdict verdict) {
  if (fraction > 99.0) {
    return ">99";
  }
  // Only what is outside; a guarded rule fails what is inside too.
  if (verdict == Verdict::fail && fraction >= 1.0 && fraction < 1.005) {
    return ">1.00";
  }
  return formatFixed(verdict == Verdict::pass ? std::min(fraction, 1.0) : fraction, 2);
}

void addNote(std::string& notes, std::string_view note) {
  if (!notes.empty()) {
    notes += "; ";
  }
  notes += note;
}

/// `decimals`: of the expected reading, for a value that was converted.
void fillApplied(CertificateRow& row, const Reading& reading, const RowStyle& style, int decimals) {
  if (reading.point.role != PointRole::value) {
    row.applied = appliedWords(reading);
    return;
  }
  const auto typed = typedDecimals(reading.appliedText, reading.applied, reading.point.appliedUnit);
  if (typed || reading.appliedText.empty()) {
    row.applied = formatFixed(reading.applied, typed.value_or(style.appliedDecimals));
  } else {
    row.applied = formatFixed(reading.applied, decimals);
    row.appliedAs = reading.appliedText;
  }
}

/// Decimals for a result without uncertainty: those of the step or of what was typed, whichever shows more.
int plainDecimals(const Reading& reading, const RowStyle& style, std::optional<int> typed) {
  const int byStep = style.step > 0.0 ? std::min(decimalsFor(style.step), kMostDecimals) : 0;
  if (style.step <= 0.0 && !typed) {
    return fullDecimals(reading.indicated, 0, 6);
  }
  return std::max(byStep, typed.value_or(0));
}

/// What a guarded rule has to say beyond the verdict.
std::string ruleNote(const Ruling& ruling, const Reading& reading) {
  if (!ruling.answer) {
    return reading.verdict == Verdict::fail ? ruling.reason + "; outside its limits it fails all the same"
                                            : "not judged: " + ruling.reason;
  }
  const bool inside = *ruling.answer == Decision::conditionalPass;
  if (!inside && *ruling.answer != Decision::conditionalFail) {
    return "";
  }
  if (ruling.guard->state != GuardState::found) {
    return inside ? "conditional pass: inside its limits, but the uncertainty is too large for the decision "
                    "rule "
                    "to accept anything"
                  : "conditional fail: outside its limits, and the uncertainty is too large for the decision "
                    "rule "
                    "to accept anything";
  }
  const std::string band = fmt::format("{}\u00a0{}", formatSignificant(ruling.guard->width, 2),
                                       displaySymbol(reading.point.readingUnit));
  return inside
             ? fmt::format(
                   "conditional pass: inside its limits, but nearer to one than the guard band of {}; "
                   "not accepted",
                   band)
             : fmt::format("conditional fail: outside its limits by no more than the guard band of {}", band);
}

bool insideLimits(const Reading& reading) {
  return reading.error() >= reading.limits.low && reading.error() <= reading.limits.high;
}

void fillNotes(CertificateRow& row, const Reading& reading, const DecisionRule* rule) {
  const bool guarded = rule != nullptr && rule->basis != GuardBasis::none;
  const std::string ruled = guarded ? ruleNote(rulingOn(*rule, reading), reading) : "";
  if (!ruled.empty()) {
    addNote(row.note, ruled);
  } else if (reading.verdict == Verdict::fail && insideLimits(reading)) {
    addNote(row.note, "the limit itself is already outside");
  }
  if (reading.withinOneStep) {
    addNote(row.note, "the error is no more than one step of the reading: no error can be told from it");
  }
  if (reading.flooredByStep) {
    addNote(row.note, "the tolerance is finer than one step of the reading: one step was used as limit");
  }
}

}  // namespace

int fullDecimals(double value, int least, int most) {
  for (int decimals = least; decimals < most; ++decimals) {
    const double scale = std::pow(10.0, decimals);
    const double scaled = value * scale;
    if (std::abs(scaled - std::round(scaled)) <= 1e-9 * std::max(1.0, std::abs(scaled))) {
      return decimals;
    }
  }
  return most;
}

int uncertaintyDecimals(double uncertainty) {
  const int exponent = static_cast<int>(std::floor(std::log10(uncertainty)));
  const int decimals = std::clamp(1 - exponent, -kMostDecimals, kMostDecimals);
  // 0.0996 to two digits is 0.10: the rounding gained a digit.
  const double shown = rounded(uncertainty, decimals);
  const bool carried = shown >= std::pow(10.0, exponent + 1) * (1.0 - 1e-12);
  return std::clamp(carried ? decimals - 1 : decimals, 0, kMostDecimals);
}

std::string uncertaintyText(double uncertainty) {
  const int exponent = static_cast<int>(std::floor(std::log10(uncertainty)));
  const double shown = exponent > 1 ? rounded(uncertainty, 1 - exponent) : uncertainty;
  return formatFixed(shown, uncertaintyDecimals(uncertainty));
}

std::string signedText(double value, int decimals) {
  std::string text = formatFixed(value, decimals);
  const bool zero = text.find_first_not_of("0.") == std::string::npos;
  return value > 0.0 && !zero ? "+" + text : text;
}

std::string limitsText(const ErrorLimits& limits, int decimals) {
  const bool low = std::isfinite(limits.low);
  const bool high = std::isfinite(limits.high);
  const auto shown = [decimals](double limit) {
    return signedText(limit, fullDecimals(limit, decimals, decimals + kExtraDecimals));
  };
  if (low && high) {
    const bool symmetric = std::abs(limits.low + limits.high) <= 1e-12 * std::abs(limits.high);
    return symmetric ? "±" + formatFixed(limits.high,
                                         fullDecimals(limits.high, decimals, decimals + kExtraDecimals))
                     : shown(limits.low) + " to " + shown(limits.high);
  }
  if (low) {
    return "at least " + shown(limits.low);
  }
  return high ? "at most " + shown(limits.high) : "none";
}

double fractionOfLimit(double error, const ErrorLimits& limits) {
  if (error == 0.0) {
    return 0.0;
  }
  const double limit = error > 0.0 ? limits.high : -limits.low;
  if (std::isinf(limit)) {
    return 0.0;
  }
  return limit > 0.0 ? std::abs(error) / limit : std::numeric_limits<double>::infinity();
}

std::optional<int> typedDecimals(const std::string& text, double value, Unit unit) {
  const auto typed = parseQuantity(text);
  if (!typed || (typed->unit && *typed->unit != unit)) {
    return std::nullopt;
  }
  const double scale = std::max(std::abs(value), std::abs(typed->value));
  return std::abs(typed->value - value) <= 1e-9 * scale ? std::optional(typed->decimals) : std::nullopt;
}

CertificateRow certificateRow(const Reading& reading, const RowStyle& style) {
  CertificateRow row;
  row.point = reading.point.label;
  if (reading.skipped()) {
    row.verdict = "skipped";
    row.note = reading.skipReason;
    return row;
  }
  const auto typed = typedDecimals(reading.indicatedText, reading.indicated, reading.point.readingUnit);
  const bool known = reading.expandedUncertainty && *reading.expandedUncertainty > 0.0;
  const int decimals =
      known ? uncertaintyDecimals(*reading.expandedUncertainty) : plainDecimals(reading, style, typed);
  const double error = reading.error();
  const ErrorLimits& limits = reading.limits;
  fillApplied(row, reading, style, decimals);
  row.expected = formatFixed(reading.expected, decimals);
  row.reading = formatFixed(reading.indicated, typed.value_or(plainDecimals(reading, style, typed)));
  row.readAs = typed ? "" : reading.indicatedText;
  row.error = signedText(
      error,
      errorDecimals(error, limits, reading.verdict == Verdict::fail && !insideLimits(reading), decimals));
  row.low = std::isfinite(limits.low)
                ? signedText(limits.low, fullDecimals(limits.low, decimals, decimals + kExtraDecimals))
                : "";
  row.high = std::isfinite(limits.high)
                 ? signedText(limits.high, fullDecimals(limits.high, decimals, decimals + kExtraDecimals))
                 : "";
  row.limits = limitsText(limits, decimals);
  if (style.spanWidth != 0.0) {
    row.percentOfSpan = signedText(100.0 * error / std::abs(style.spanWidth), 3);
  }
  row.fraction = fractionText(fractionOfLimit(error, limits), reading.verdict);
  if (known) {
    row.uncertainty = uncertaintyText(*reading.expandedUncertainty);
    row.coverage = formatFixed(reading.coverageFactor, 2);
  }
  row.verdict = std::string(text(reading.verdict));
  fillNotes(row, reading, style.rule);
  return row;
}

}  // namespace spanwright
