// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/budget_inputs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string_view>
#include <utility>

#include "core/metrology/formula.h"

namespace spanwright {
namespace {

constexpr std::pair<std::string_view, InputShape> kShapes[] = {{"normal", InputShape::normal},
                                                               {"t", InputShape::student},
                                                               {"rectangular", InputShape::rectangular},
                                                               {"triangular", InputShape::triangular},
                                                               {"U-shaped", InputShape::arcsine}};
constexpr Bounds kProbability{0.0, 1.0, true};

/// The ways to say how uncertain an input is; exactly one of them is used.
constexpr std::array<std::string_view, 7> kSources = {"readings",
                                                      "pooled_standard_deviation",
                                                      "standard_uncertainty",
                                                      "expanded_uncertainty",
                                                      "half_width",
                                                      "scale",
                                                      "exact"};
constexpr const char* kSourceList =
    "readings, pooled_standard_deviation with count, standard_uncertainty, expanded_uncertainty, half_width, "
    "scale, or exact = true";

/// Which source is given; readings may stand beside a pooled standard deviation. Empty after a mistake.
std::string_view sourceOf(const TomlTable& table) {
  std::string_view found;
  for (const std::string_view source : kSources) {
    if (!table.has(source) || (source == "pooled_standard_deviation" && found == "readings")) {
      continue;
    }
    if (!found.empty()) {
      table.problem(source, fmt::format("stands beside {}", found),
                    "say in one way how uncertain the input is");
      return {};
    }
    found = source;
  }
  if (found.empty()) {
    table.problems().add(table.at(), fmt::format("{} does not say how uncertain it is", table.name()),
                         fmt::format("add one of {}", kSourceList));
  }
  return found;
}

class InputReader {
 public:
  InputReader(TomlTable& table, BudgetInput& made) : table_(table), made_(made) {}

  void read() {
    const std::string_view source = sourceOf(table_);
    shape_ = table_.choice<InputShape>("distribution", kShapes);
    made_.input.shape = shape_.value_or(InputShape::normal);
    readDegrees();
    readOptional();
    if (source == "readings" || source == "pooled_standard_deviation") {
      fromReadings();
    } else if (source == "standard_uncertainty") {
      made_.input.standardUncertainty = table_.maybeNumber("standard_uncertainty", kPositive).value_or(1.0);
      needDegrees();
    } else if (source == "expanded_uncertainty") {
      fromExpanded();
    } else if (source == "half_width") {
      fromHalfWidth();
    } else if (source == "scale") {
      fromScale();
    } else if (source == "exact" && !table_.yes("exact", true)) {
      table_.problem("exact", "is false", fmt::format("add one of {} instead", kSourceList));
    }
    for (const std::string_view each : kSources) {
      table_.know(each);
    }
    for (const char* each :
         {"coverage_factor", "divisor", "probability", "count", "pooled_degrees_of_freedom", "value"}) {
      table_.know(each);
    }
    refuseStray(source);
  }

 private:
  void readDegrees() {
    const auto degrees = table_.maybeNumber("degrees_of_freedom", kPositive);
    const auto relative = table_.maybeNumber("relative_uncertainty_of_u", kPositive);
    if (degrees && relative) {
      table_.problem("relative_uncertainty_of_u", "stands beside degrees_of_freedom", "keep one of them");
    }
    if (degrees) {
      made_.input.degreesOfFreedom = *degrees;
    } else if (relative) {
      made_.input.degreesOfFreedom = degreesOfFreedomFrom(*relative);
    }
    stated_ = table_.has("degrees_of_freedom") || table_.has("relative_uncertainty_of_u");
  }

  void readOptional() {
    factor_ = table_.maybeNumber("coverage_factor", kPositive);
    if (const auto divisor = table_.maybeNumber("divisor", kPositive)) {
      if (factor_) {
        table_.problem("divisor", "stands beside coverage_factor", "they are the same: keep one");
      }
      factor_ = divisor;
    }
    probability_ = table_.maybeNumber("probability", kProbability);
    if (probability_ == 1.0) {
      table_.problem("probability", "is 1", "write 95 % as 0.95");
      probability_.reset();
    }
  }

  void fromReadings() {
    for (const auto& number : table_.numbers("readings")) {
      if (std::isfinite(number.value)) {
        made_.readings.push_back(number.value);
      } else {
        table_.problems().add(number.at, fmt::format("a reading of {} is not a finite number", table_.name()),
                              "write what was read");
      }
    }
    if (shape_ || stated_) {
      table_.problem(shape_ ? "distribution" : "degrees_of_freedom", "is given beside readings",
                     "take it out: readings bring their own (t, n - 1)");
    }
    made_.input.shape = InputShape::student;
    const bool pooled = table_.has("pooled_standard_deviation");
    const std::size_t needed = pooled ? 1 : 2;
    if (table_.has("readings")) {
      if (table_.has("value")) {
        table_.problem("value", "stands beside readings", "their mean is the value: take it out");
      }
      if (made_.readings.size() < needed) {
        table_.problem("readings", fmt::format("are fewer than {}", needed),
                       "give more, or another source of uncertainty");
        return;
      }
      if (made_.readings.size() >= 2) {
        const ReadingsSummary summary = summarise(made_.readings);
        made_.input.value = summary.mean;
        made_.input.standardUncertainty = summary.standardUncertainty;
        made_.input.degreesOfFreedom = summary.degreesOfFreedom;
      } else {
        made_.input.value = made_.readings.front();
      }
    }
    if (pooled) {
      fromPooled();
    }
  }

  void fromPooled() {
    const double deviation = table_.needNumber("pooled_standard_deviation", kPositive);
    made_.input.degreesOfFreedom = table_.needNumber("pooled_degrees_of_freedom", kPositive);
    if (!(made_.input.degreesOfFreedom > 0.0)) {
      made_.input.degreesOfFreedom = 1.0;  // reported
    }
    if (table_.has("readings") && table_.has("count")) {
      table_.problem("count", "stands beside readings", "take it out: the readings are counted");
    }
    double count = static_cast<double>(made_.readings.size());
    if (!table_.has("readings")) {
      if (!table_.has("count")) {
        table_.problem("count", "is missing", "say how many readings the value is the mean of");
      }
      count = table_.whole("count", 1, 1, 1'000'000'000);
    }
    made_.input.standardUncertainty = deviation / std::sqrt(std::max(count, 1.0));
  }

  void needDegrees() {
    if (made_.input.shape == InputShape::student && !stated_) {
      table_.problem("degrees_of_freedom", "is missing", "a t distribution needs its degrees of freedom");
    }
  }

  void fromExpanded() {
    const double expanded = table_.maybeNumber("expanded_uncertainty", kPositive).value_or(1.0);
    const bool bell = made_.input.shape == InputShape::normal || made_.input.shape == InputShape::student;
    if (!bell) {
      table_.problem("distribution", fmt::format("is {}", text(made_.input.shape)),
                     "an expanded uncertainty is normal or t; limits are a half_width");
    }
    needDegrees();
    if (factor_.has_value() == probability_.has_value()) {
      table_.problem("expanded_uncertainty",
                     factor_ ? "has both a coverage factor and a probability"
                             : "has neither coverage_factor (or divisor) nor probability",
                     "give one of them");
      return;
    }
    const double degrees = made_.input.shape == InputShape::student ? made_.input.degreesOfFreedom
                                                                    : std::numeric_limits<double>::infinity();
    const double factor = factor_ ? *factor_ : studentFactor(*probability_, degrees);
    made_.input.standardUncertainty = expanded / factor;
    if (!(made_.input.standardUncertainty > 0.0)) {
      table_.problem("degrees_of_freedom", "are too few for that probability",
                     "give a coverage factor instead");
    }
  }

  void fromHalfWidth() {
    const double half = table_.maybeNumber("half_width", kPositive).value_or(1.0);
    switch (made_.input.shape) {
      case InputShape::rectangular:
        made_.input.standardUncertainty = half / std::sqrt(3.0);
        return;
      case InputShape::triangular:
        made_.input.standardUncertainty = half / std::sqrt(6.0);
        return;
      case InputShape::arcsine:
        made_.input.standardUncertainty = half / std::sqrt(2.0);
        return;
      case InputShape::normal:
      case InputShape::student:
        break;
    }
    table_.problem("half_width", "needs a distribution with limits",
                   "add distribution = \"rectangular\", \"triangular\" or \"U-shaped\"");
  }

  void fromScale() {
    if (shape_ && *shape_ != InputShape::student) {
      table_.problem("scale", "is given for a distribution that is not t", "give standard_uncertainty");
    }
    made_.input.shape = InputShape::student;
    made_.input.standardUncertainty = table_.maybeNumber("scale", kPositive).value_or(1.0);
    needDegrees();
  }

  /// Keys that mean something only beside another one.
  void refuseStray(std::string_view source) const {
    const auto only = [&](const char* key, bool fits, const char* beside) {
      if (table_.has(key) && !fits && !source.empty()) {
        table_.problem(key, fmt::format("has no meaning beside {}", source),
                       fmt::format("take it out; it goes with {}", beside));
      }
    };
    const bool expanded = source == "expanded_uncertainty";
    const bool pooled = table_.has("pooled_standard_deviation");
    only("coverage_factor", expanded, "expanded_uncertainty");
    only("divisor", expanded, "expanded_uncertainty");
    only("probability", expanded, "expanded_uncertainty");
    only("count", pooled, "pooled_standard_deviation");
    only("pooled_degrees_of_freedom", pooled, "pooled_standard_deviation");
    only("distribution", source != "exact", "an uncertainty");
    only("degrees_of_freedom", source != "exact", "an uncertainty");
    only("relative_uncertainty_of_u", source != "exact", "an uncertainty");
  }

  TomlTable& table_;
  BudgetInput& made_;
  std::optional<InputShape> shape_;
  std::optional<double> factor_, probability_;
  bool stated_ = false;
};

}  // namespace

BudgetInput readBudgetInput(TomlTable& table, bool formula) {
  BudgetInput made;
  made.at = table.at();
  made.input.name = table.needText("name");
  if (!made.input.name.empty()) {
    table.rename("[[input]] " + inQuotes(made.input.name));
    if (formula && !usableName(made.input.name)) {
      table.problem("name", "cannot stand in a formula",
                    "use letters, digits and \"_\", and no function's name; the rest goes into note");
    }
  }
  made.unit = table.text("unit");
  table.text("note");
  if (const auto value = table.maybeNumber("value")) {
    made.input.value = *value;
  }
  InputReader(table, made).read();
  if (formula && !table.has("value") && !table.has("readings")) {
    table.problem("value", "is missing", "a formula needs the best estimate of every input");
  }
  if (formula && table.has("sensitivity")) {
    table.problem("sensitivity", "stands beside a formula", "take it out: the formula gives it");
  }
  made.sensitivity = table.number("sensitivity", 1.0);
  table.finish();
  return made;
}

}  // namespace spanwright
