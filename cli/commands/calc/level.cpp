// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "core/metrology/input_types.h"
#include "core/record/problem.h"

namespace spanwright {

namespace {

class LevelCalculation : public Calculation {
 public:
  std::string name() const override { return "level"; }
  std::string description() const override {
    return "what an on/off input makes of a voltage, by IEC 61131-2 type or by its own levels";
  }
  void declare(CLI::App& app) override {
    app.add_option("--volts", volts_, "the voltage")->required();
    auto* supply = app.add_option("--supply", supply_, "rated supply in volts: 24");
    auto* type = app.add_option("--type", type_, "input type 1, 2 or 3 of IEC 61131-2");
    auto* on = app.add_option("--on", on_, "on at or above so many volts");
    auto* off = app.add_option("--off", off_, "off at or below so many volts");
    auto* was = app.add_option("--was", was_, "its state before: on or off");
    supply->needs(type);
    type->needs(supply);
    on->needs(off)->excludes(type);
    off->needs(on)->excludes(type);
    was->needs(on);
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const double volts = typedNumber("--volts", volts_);
    if (type_.empty() && on_.empty()) {
      throw CLI::RequiredError("--supply and --type, or --on and --off,");
    }
    const InputState state = type_.empty() ? byLevels(volts) : byType(volts);
    if (json) {
      printJson(surroundings, Json{{"state", text(state)}});
    } else {
      surroundings.out << sentenceFor(state) << '\n';
    }
    return kDone;
  }

 private:
  InputState byType(double volts) const {
    const double supply = typedNumber("--supply", supply_);
    if (supply != 24.0) {
      throw InputError(fmt::format("--supply: the limits for {} V are not known here", supply_),
                       "only 24 V DC is; use --on and --off for another input");
    }
    const double type = typedNumber("--type", type_);
    const auto limits =
        type == 1.0 || type == 2.0 || type == 3.0 ? inputTypeLimits(static_cast<int>(type)) : std::nullopt;
    if (!limits) {
      throw InputError(fmt::format("--type: there is no input type \"{}\"", type_), "use 1, 2 or 3");
    }
    return inputState(*limits, volts);
  }

  InputState byLevels(double volts) const {
    const double on = typedNumber("--on", on_);
    const double off = typedNumber("--off", off_);
    if (!(on > off)) {
      throw InputError("the on level is not above the off level", "give --on above --off");
    }
    if (!was_.empty() && was_ != "on" && was_ != "off") {
      throw InputError(fmt::format("--was: \"{}\" is not a state", was_), "use on or off");
    }
    return inputState(on, off, volts, was_.empty() ? std::nullopt : std::optional(was_ == "on"));
  }

  static std::string_view sentenceFor(InputState state) {
    switch (state) {
      case InputState::on:
        return "on";
      case InputState::off:
        return "off";
      case InputState::indeterminate:
        return "indeterminate: the input may show either state";
      case InputState::outOfRange:
        return "out of range: the input's limits say nothing of this voltage";
    }
    return "";
  }

  std::string volts_, supply_, type_, on_, off_, was_;
};

}  // namespace

std::unique_ptr<Calculation> levelCalculation() {
  return std::make_unique<LevelCalculation>();
}

}  // namespace spanwright
