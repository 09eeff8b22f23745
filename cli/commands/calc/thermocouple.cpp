// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/signal/sensor_classes.h"
#include "core/signal/thermocouple.h"

namespace spanwright {

namespace {

struct CoupleAt {
  ThermocoupleType type = ThermocoupleType::K;
  double celsius = 0.0;
  double millivolt = 0.0;
  double referenceJunction = 0.0;
  double seebeck = 0.0;
};

Json toleranceJson(const ClassTolerance& tolerance) {
  const auto* value = std::get_if<double>(&tolerance);
  return value != nullptr ? Json(*value) : Json(nullptr);
}

class ThermocoupleCalculation : public Calculation {
 public:
  std::string name() const override { return "thermocouple"; }
  std::string description() const override {
    return "a thermocouple's millivolts for a temperature, or the other way, with its class tolerances";
  }
  void declare(CLI::App& app) override {
    app.add_option("TYPE", type_, "B, C, E, J, K, N, R, S or T")->required();
    auto* value = app.add_option_group("value", "what is known");
    value->add_option("--celsius", celsius_, "temperature of the junction, degC");
    value->add_option("--millivolt", millivolt_, "voltage at the terminals, mV");
    value->require_option(1);
    app.add_option("--reference-junction", reference_, "temperature of the terminals, degC (default 0)");
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const CoupleAt at = compute();
    json ? printDocument(surroundings, at) : printTable(surroundings, at);
    return kDone;
  }

 private:
  CoupleAt compute() const {
    const auto type = parseThermocoupleType(type_);
    if (!type) {
      throw InputError(fmt::format("there is no thermocouple type \"{}\"", type_),
                       "use B, C, E, J, K, N, R, S or T");
    }
    const CelsiusRange range = thermocoupleRange(*type);
    const std::string todo = fmt::format("type {} goes from {} to {} degC", text(*type),
                                         formatShortest(range.low.value), formatShortest(range.high.value));
    CoupleAt at{*type, 0.0, 0.0, 0.0, 0.0};
    at.referenceJunction = typedNumber("--reference-junction", reference_);
    valueOrRefuse("--reference-junction", thermocoupleMillivolts(*type, {at.referenceJunction}), todo);
    if (!celsius_.empty()) {
      at.celsius = typedNumber("--celsius", celsius_);
      at.millivolt = valueOrRefuse("--celsius",
                                   thermocoupleMillivolts(*type, {at.celsius}, {at.referenceJunction}), todo);
    } else {
      at.millivolt = typedNumber("--millivolt", millivolt_);
      at.celsius = valueOrRefuse("--millivolt",
                                 thermocoupleCelsius(*type, {at.millivolt}, {at.referenceJunction}), todo);
    }
    at.seebeck = valueOrRefuse("--celsius", seebeckMicrovoltsPerKelvin(*type, {at.celsius}), todo);
    return at;
  }

  static ClassTolerance tolerance(const CoupleAt& at, ThermocoupleClass coupleClass) {
    return thermocoupleTolerance(at.type, coupleClass, {at.celsius});
  }

  static void printDocument(const Surroundings& surroundings, const CoupleAt& at) {
    printJson(
        surroundings,
        Json{{"type", text(at.type)},
             {"celsius", at.celsius},
             {"millivolt", at.millivolt},
             {"reference_junction", at.referenceJunction},
             {"seebeck_uv_per_k", at.seebeck},
             {"tolerance_class_1", toleranceJson(tolerance(at, ThermocoupleClass::class1))},
             {"tolerance_class_2", toleranceJson(tolerance(at, ThermocoupleClass::class2))},
             {"tolerance_class_3", toleranceJson(tolerance(at, ThermocoupleClass::class3))},
             {"tolerance_astm_standard", toleranceJson(tolerance(at, ThermocoupleClass::astmStandard))}});
  }

  static void printTable(const Surroundings& surroundings, const CoupleAt& at) {
    Table table({{"quantity"}, {"value", Table::Align::right}, {"unit"}});
    table.add({fmt::format("type {} at", text(at.type)), formatFixed(at.celsius, 3), "°C"});
    table.add({"voltage at the terminals", formatFixed(at.millivolt, 4), "mV"});
    table.add({"terminals at", formatFixed(at.referenceJunction, 2), "°C"});
    table.add({"sensitivity", formatFixed(at.seebeck, 3), "µV/K"});
    for (const auto coupleClass : {ThermocoupleClass::class1, ThermocoupleClass::class2,
                                   ThermocoupleClass::class3, ThermocoupleClass::astmStandard}) {
      const ClassTolerance limit = tolerance(at, coupleClass);
      // The ASTM limit is known here for type C only; nobody misses it with the others.
      if (coupleClass == ThermocoupleClass::astmStandard && !classRange(at.type, coupleClass)) {
        continue;
      }
      const auto* value = std::get_if<double>(&limit);
      table.add({fmt::format("tolerance, {}", text(coupleClass)),
                 value != nullptr ? "±" + formatFixed(*value, 2) : "",
                 value != nullptr ? "K" : std::string(text(std::get<NoTolerance>(limit)))});
    }
    table.print(surroundings.out);
  }

  std::string type_, celsius_, millivolt_;
  std::string reference_ = "0";
};

}  // namespace

std::unique_ptr<Calculation> thermocoupleCalculation() {
  return std::make_unique<ThermocoupleCalculation>();
}

}  // namespace spanwright
