// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/signal/scale_at.h"

namespace spanwright {

namespace {

class ScaleCalculation : public Calculation {
 public:
  std::string name() const override { return "scale"; }
  std::string description() const override {
    return "one value of a scaled signal told as signal, counts, engineering units and percent";
  }
  void declare(CLI::App& app) override {
    app.add_option("--signal", signal_, "the signal's range, as 4:20:mA")->required();
    app.add_option("--counts", counts_, "what it becomes in the controller, as 0:32000");
    app.add_option("--bits", bits_, "resolution of the converter over the signal");
    app.add_option("--units", units_, "what it means, as 0:150:degC");
    app.add_option("--transfer", transfer_, "linear (default) or square-root");
    app.add_option("--at", at_, "the value: in signal units, or with a unit as 8000counts or 75degC")
        ->required();
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const AnalogInputSetup setup = readSetup();
    const TypedQuantity typed = typedQuantity("--at", at_);
    const Scaled scaled = scaleAt(setup, {typed.value, typed.unit.value_or(setup.signal.unit)});
    if (const auto* reason = std::get_if<RangeResult>(&scaled)) {
      throw InputError(fmt::format("--at: \"{}\" is {}", at_, rangeText(*reason)), todoFor(*reason));
    }
    const auto& value = std::get<ScaledValue>(scaled);
    json ? printDocument(surroundings, value) : printTable(surroundings, setup, value);
    return kDone;
  }

 private:
  static std::string todoFor(RangeResult reason) {
    switch (reason) {
      case RangeResult::wrongUnit:
        return "give it in the unit of the signal, in counts, or in the unit of --units, and name the range "
               "it needs";
      case RangeResult::belowFunction:
        return "a flow through the square root is not below zero";
      default:
        return "check the number";
    }
  }

  AnalogInputSetup readSetup() const {
    AnalogInputSetup setup;
    setup.signal = typedSpan("--signal", signal_);
    if (!counts_.empty()) {
      setup.counts = typedSpan("--counts", counts_, Unit::count);
    }
    if (!units_.empty()) {
      setup.units = typedSpan("--units", units_);
    }
    if (!bits_.empty()) {
      const auto bits = parseNumber(bits_);
      if (!bits || bits->value < 1.0 || bits->value > 32.0 || bits->value != static_cast<int>(bits->value)) {
        throw InputError(fmt::format("--bits: \"{}\" is not a converter's resolution", bits_),
                         "give a whole number from 1 to 32");
      }
      setup.bits = static_cast<int>(bits->value);
    }
    if (transfer_ != "linear" && transfer_ != "square-root") {
      throw InputError(fmt::format("--transfer: \"{}\" is not known", transfer_),
                       "use linear or square-root");
    }
    setup.transfer = transfer_ == "linear" ? TransferKind::linear : TransferKind::squareRoot;
    std::vector<Problem> problems;
    for (const std::string& fault : scaleFaults(setup)) {
      problems.push_back({{}, fault, "mend the range"});
    }
    if (!problems.empty()) {
      throw InputError(problems);
    }
    return setup;
  }

  static void printDocument(const Surroundings& surroundings, const ScaledValue& value) {
    printJson(surroundings,
              Json{{"signal", value.signal},
                   {"counts", orNull(value.counts)},
                   {"units", orNull(value.units)},
                   {"percent", value.percent},
                   {"step_counts", orNull(value.stepCounts)},
                   {"step_units", orNull(value.stepUnits)},
                   {"band", value.band ? Json(text(*value.band)) : Json(nullptr)},
                   {"in_span", value.inSpan},
                   {"code", value.code ? Json(*value.code) : Json(nullptr)},
                   {"converter", value.converter ? Json(text(*value.converter)) : Json(nullptr)},
                   {"whole_counts", orNull(value.wholeCounts)}});
  }

  static void printTable(const Surroundings& surroundings, const AnalogInputSetup& setup,
                         const ScaledValue& value) {
    Table table({{"quantity"}, {"value", Table::Align::right}, {"unit"}});
    const auto add = [&](const char* name, std::optional<double> number, std::string_view unit) {
      if (number) {
        table.add({name, shownNumber(*number, 8), std::string(unit)});
      }
    };
    const std::string_view units = setup.units ? displaySymbol(setup.units->unit) : "";
    add("signal", value.signal, displaySymbol(setup.signal.unit));
    add("counts", value.counts, "counts");
    add("units", value.units, units);
    add("of the signal's span", value.percent, "%");
    add("one step", value.stepCounts, "counts");
    add("one step here", value.stepUnits, units);
    if (value.code) {
      table.add({"converter's code", std::to_string(*value.code), std::string(text(*value.converter))});
    }
    add("counts shown", value.wholeCounts, "counts");
    if (value.band) {
      table.add({"NE 43", std::string(text(*value.band)), std::string(meaning(*value.band))});
    }
    table.print(surroundings.out);
    if (!value.inSpan) {
      surroundings.out << "The value lies outside the signal's range; the scaling is carried on beyond it.\n";
    }
  }

  std::string signal_, counts_, units_, bits_, at_;
  std::string transfer_ = "linear";
};

}  // namespace

std::unique_ptr<Calculation> scaleCalculation() {
  return std::make_unique<ScaleCalculation>();
}

}  // namespace spanwright
