// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/rtd.h"

#include <fmt/format.h>

#include <optional>
#include <ostream>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/signal/leads.h"
#include "core/signal/sensor_classes.h"

namespace spanwright {

namespace {

struct PlatinumAt {
  RtdElement element = RtdElement::pt100;
  RtdConstruction construction = RtdConstruction::wire;
  double celsius = 0.0;
  double ohm = 0.0;
  double ohmPerKelvin = 0.0;
  std::optional<LeadEffect> leads;
};

constexpr std::array kClasses{RtdClass::aa, RtdClass::a, RtdClass::b, RtdClass::c};

class RtdCalculation : public Calculation {
 public:
  std::string name() const override { return "rtd"; }
  std::string description() const override {
    return "a platinum thermometer's ohms for a temperature, or the other way, with its class tolerances";
  }
  void declare(CLI::App& app) override {
    app.add_option("ELEMENT", element_, "pt100 or pt1000")->required();
    auto* value = app.add_option_group("value", "what is known");
    value->add_option("--celsius", celsius_, "temperature, degC");
    value->add_option("--ohm", ohm_, "resistance of the element, ohm");
    value->require_option(1);
    app.add_option("--construction", construction_, "wire (default) or film: where the classes hold");
    auto* leads = app.add_option("--leads", leads_, "resistance of each lead, ohm, as 1.2:1.3:1.3");
    app.add_option("--three-wire", method_, "what a three-wire input goes by: voltages (default) or loop")
        ->needs(leads);
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const PlatinumAt at = compute();
    json ? printDocument(surroundings, at) : printTable(surroundings, at);
    return kDone;
  }

 private:
  PlatinumAt compute() const {
    const auto element = parseRtdElement(element_);
    if (!element) {
      throw InputError(fmt::format("there is no element \"{}\"", element_), "use pt100 or pt1000");
    }
    const auto construction = parseRtdConstruction(construction_);
    if (!construction) {
      throw InputError(fmt::format("--construction: \"{}\" is not known", construction_), "use wire or film");
    }
    const std::string todo = fmt::format("platinum goes from {} to {} degC", formatShortest(kRtdLow.value),
                                         formatShortest(kRtdHigh.value));
    PlatinumAt at{*element, *construction, 0.0, 0.0, 0.0, std::nullopt};
    if (!celsius_.empty()) {
      at.celsius = typedNumber("--celsius", celsius_);
      at.ohm = valueOrRefuse("--celsius", rtdOhms(*element, {at.celsius}), todo);
    } else {
      at.ohm = typedNumber("--ohm", ohm_);
      if (at.ohm <= 0.0) {
        throw InputError("--ohm: a resistance is above zero", "check the reading and its sign");
      }
      at.celsius = valueOrRefuse("--ohm", rtdCelsius(*element, {at.ohm}), todo);
    }
    at.ohmPerKelvin = valueOrRefuse("--celsius", rtdOhmsPerKelvin(*element, {at.celsius}), todo);
    if (!leads_.empty()) {
      at.leads = leadEffectAt(*element, at.celsius);
    }
    return at;
  }

  LeadEffect leadEffectAt(RtdElement element, double celsius) const {
    if (method_ != "voltages" && method_ != "loop") {
      throw InputError(fmt::format("--three-wire: \"{}\" is not known", method_), "use voltages or loop");
    }
    std::vector<double> ohms;
    std::string::size_type from = 0;
    while (from <= leads_.size()) {
      const auto to = std::min(leads_.find(':', from), leads_.size());
      ohms.push_back(typedNumber("--leads", leads_.substr(from, to - from)));
      from = to + 1;
    }
    const int wires = static_cast<int>(ohms.size());
    ohms.resize(4, 0.0);
    const LeadResistances leads{ohms[0], ohms[1], ohms[2], ohms[3]};
    const std::vector<std::string> faults = leadFaults(wires, leads);
    if (!faults.empty()) {
      throw InputError("--leads: " + faults.front(),
                       "give the ohms of two, three or four leads, as 1.2:1.3:1.3");
    }
    const auto method = method_ == "loop" ? ThreeWireMethod::byLoop : ThreeWireMethod::byVoltages;
    const LeadAnswer answer = leadEffect(element, {celsius}, wires, leads, method);
    if (const auto* reason = std::get_if<RangeResult>(&answer)) {
      throw InputError(fmt::format("--leads: with these leads the resistance is {}", rangeText(*reason)),
                       "check the leads' resistances");
    }
    return std::get<LeadEffect>(answer);
  }

  static ClassTolerance tolerance(const PlatinumAt& at, RtdClass rtdClass) {
    return rtdTolerance(rtdClass, at.construction, {at.celsius});
  }

  static void printDocument(const Surroundings& surroundings, const PlatinumAt& at) {
    Json document{{"element", text(at.element)},
                  {"celsius", at.celsius},
                  {"ohm", at.ohm},
                  {"ohm_per_k", at.ohmPerKelvin},
                  {"construction", at.construction == RtdConstruction::wire ? "wire" : "film"}};
    static constexpr std::array<const char*, 4> kKeys{"tolerance_class_aa", "tolerance_class_a",
                                                      "tolerance_class_b", "tolerance_class_c"};
    for (std::size_t i = 0; i < kClasses.size(); ++i) {
      const ClassTolerance limit = tolerance(at, kClasses[i]);
      const auto* value = std::get_if<double>(&limit);
      document[kKeys[i]] = value != nullptr ? Json(*value) : Json(nullptr);
    }
    if (at.leads) {
      document["lead_error_ohm"] = at.leads->ohms;
      document["lead_error_kelvin"] = at.leads->kelvin;
      document["shown_celsius"] = at.leads->shown.value;
    }
    printJson(surroundings, document);
  }

  static void printTable(const Surroundings& surroundings, const PlatinumAt& at) {
    Table table({{"quantity"}, {"value", Table::Align::right}, {"unit"}});
    table.add({"temperature", formatFixed(at.celsius, 3), "°C"});
    table.add({"resistance", formatFixed(at.ohm, at.element == RtdElement::pt100 ? 3 : 2), "Ω"});
    table.add({"sensitivity", formatSignificant(at.ohmPerKelvin, 5), "Ω/K"});
    for (const RtdClass rtdClass : kClasses) {
      const ClassTolerance limit = tolerance(at, rtdClass);
      const auto* value = std::get_if<double>(&limit);
      table.add({fmt::format("tolerance, class {}, {}", text(rtdClass), text(at.construction)),
                 value != nullptr ? "±" + formatFixed(*value, 2) : "",
                 value != nullptr ? "K" : std::string(text(std::get<NoTolerance>(limit)))});
    }
    if (at.leads) {
      table.add({"added by the leads", formatFixed(at.leads->ohms, 3), "Ω"});
      table.add({"error from the leads", formatFixed(at.leads->kelvin, 3), "K"});
      table.add({"shown", formatFixed(at.leads->shown.value, 3), "°C"});
    }
    table.print(surroundings.out);
  }

  std::string element_, celsius_, ohm_, leads_;
  std::string construction_ = "wire";
  std::string method_ = "voltages";
};

}  // namespace

std::unique_ptr<Calculation> rtdCalculation() {
  return std::make_unique<RtdCalculation>();
}

}  // namespace spanwright
