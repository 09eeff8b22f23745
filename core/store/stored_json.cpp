// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "core/metrology/ruling.h"
#include "core/record/problem.h"
#include "core/store/stored_forms.h"
#include "core/store/stored_words.h"

namespace spanwright {
namespace {

using Json = nlohmann::ordered_json;

/// Simple acceptance; the others are JSON objects.
constexpr std::string_view kSimpleRule = "simple";

/// What a JSON text of ours cannot hold; becomes "damaged" with the file's name.
struct Unreadable : std::runtime_error {
  using std::runtime_error::runtime_error;
};

template <class E, std::size_t N>
E wordOf(const words::Table<E, N>& table, const Json& json) {
  const auto& text = json.get_ref<const std::string&>();
  if (const auto found = words::value(table, text)) {
    return *found;
  }
  throw Unreadable(fmt::format("\"{}\" is not a value this program writes", text));
}

std::string dumped(const Json& json) {
  try {
    return json.dump();
  } catch (const Json::exception&) {
    throw InputError("a text is not UTF-8", "write it again with an editor that saves UTF-8");
  }
}

template <class Read>
auto parsedAt(const Query& row, int column, Read read) {
  try {
    return read(Json::parse(row.textView(column)));
  } catch (const Json::exception&) {
    row.damaged("a description of a setup, sensor, plan or list cannot be read");
  } catch (const Unreadable& unreadable) {
    row.damaged(unreadable.what());
  }
}

Json toJson(const Span& span) {
  return {{"low", span.low}, {"high", span.high}, {"unit", symbol(span.unit)}};
}

Span spanOf(const Json& json) {
  const auto& text = json.at("unit").get_ref<const std::string&>();
  const auto unit = words::unit(text);
  if (!unit) {
    throw Unreadable(fmt::format("\"{}\" is not a unit", text));
  }
  return {json.at("low").get<double>(), json.at("high").get<double>(), *unit};
}

void putSpan(Json& json, const char* key, const std::optional<Span>& span) {
  if (span) {
    json[key] = toJson(*span);
  }
}

std::optional<Span> findSpan(const Json& json, const char* key) {
  const auto found = json.find(key);
  return found == json.end() ? std::nullopt : std::optional(spanOf(*found));
}

void putAlarms(Json& json, const AlarmLevels& alarms) {
  Json levels = Json::object();
  const auto put = [&levels](const char* key, const std::optional<double>& level) {
    if (level) {
      levels[key] = *level;
    }
  };
  put("low_low", alarms.lowLow);
  put("low", alarms.low);
  put("high", alarms.high);
  put("high_high", alarms.highHigh);
  levels["dead_band"] = alarms.deadBand;
  json["alarms"] = std::move(levels);
}

AlarmLevels alarmsOf(const Json& json) {
  const Json& levels = json.at("alarms");
  const auto level = [&levels](const char* key) {
    const auto found = levels.find(key);
    return found == levels.end() ? std::nullopt : std::optional(found->get<double>());
  };
  return {level("low_low"), level("low"), level("high"), level("high_high"),
          levels.at("dead_band").get<double>()};
}

Json toJson(const ThresholdSetup& s) {
  return {{"rated_volts", s.ratedVolts},
          {"on_level", s.onLevel},
          {"off_level", s.offLevel},
          {"input_type", s.inputType}};
}

Json toJson(const AnalogInputSetup& s) {
  Json json = {{"signal", toJson(s.signal)}};
  putSpan(json, "counts", s.counts);
  json["bits"] = s.bits;
  putSpan(json, "units", s.units);
  json["transfer"] = words::word(words::kTransfers, s.transfer);
  json["cut_off_percent"] = s.cutOffPercent;
  json["reads_as"] = words::word(words::kReadsAs, s.readsAs);
  json["resolution"] = s.resolution;
  putAlarms(json, s.alarms);
  return json;
}

Json toJson(const ThermocoupleSetup& s) {
  Json json = {{"couple", words::word(words::kThermocouples, s.type)},
               {"range", toJson(s.range)},
               {"resolution", s.resolution},
               {"reads_tenths", s.readsTenths}};
  putAlarms(json, s.alarms);
  return json;
}

Json toJson(const RtdSetup& s) {
  Json json = {{"element", words::word(words::kRtdElements, s.element)},
               {"wires", s.wires},
               {"range", toJson(s.range)},
               {"resolution", s.resolution},
               {"reads_tenths", s.readsTenths}};
  putAlarms(json, s.alarms);
  return json;
}

Json toJson(const AnalogOutputSetup& s) {
  Json json = {{"signal", toJson(s.signal)}};
  putSpan(json, "counts", s.counts);
  json["bits"] = s.bits;
  putSpan(json, "units", s.units);
  json["commanded_as"] = words::word(words::kReadsAs, s.commandedAs);
  json["on_loss"] = words::word(words::kLossBehaviours, s.onLoss);
  return json;
}

Json toJson(const DiscreteOutputSetup& s) {
  return {{"supply_volts", s.supplyVolts},
          {"max_drop_volts", s.maxDropVolts},
          {"max_off_volts", s.maxOffVolts},
          {"on_loss", words::word(words::kLossBehaviours, s.onLoss)}};
}

ThresholdSetup thresholdOf(const Json& j) {
  return {j.at("rated_volts").get<double>(), j.at("on_level").get<double>(), j.at("off_level").get<double>(),
          j.at("input_type").get<int>()};
}

AnalogInputSetup analogInputOf(const Json& j) {
  AnalogInputSetup s;
  s.signal = spanOf(j.at("signal"));
  s.counts = findSpan(j, "counts");
  s.bits = j.at("bits").get<int>();
  s.units = findSpan(j, "units");
  s.transfer = wordOf(words::kTransfers, j.at("transfer"));
  s.cutOffPercent = j.at("cut_off_percent").get<double>();
  s.readsAs = wordOf(words::kReadsAs, j.at("reads_as"));
  s.resolution = j.at("resolution").get<double>();
  s.alarms = alarmsOf(j);
  return s;
}

ThermocoupleSetup thermocoupleOf(const Json& j) {
  return {wordOf(words::kThermocouples, j.at("couple")), spanOf(j.at("range")),
          j.at("resolution").get<double>(), j.at("reads_tenths").get<bool>(), alarmsOf(j)};
}

RtdSetup rtdOf(const Json& j) {
  return {wordOf(words::kRtdElements, j.at("element")),
          j.at("wires").get<int>(),
          spanOf(j.at("range")),
          j.at("resolution").get<double>(),
          j.at("reads_tenths").get<bool>(),
          alarmsOf(j)};
}

AnalogOutputSetup analogOutputOf(const Json& j) {
  AnalogOutputSetup s;
  s.signal = spanOf(j.at("signal"));
  s.counts = findSpan(j, "counts");
  s.bits = j.at("bits").get<int>();
  s.units = findSpan(j, "units");
  s.commandedAs = wordOf(words::kReadsAs, j.at("commanded_as"));
  s.onLoss = wordOf(words::kLossBehaviours, j.at("on_loss"));
  return s;
}

DiscreteOutputSetup discreteOutputOf(const Json& j) {
  return {j.at("supply_volts").get<double>(), j.at("max_drop_volts").get<double>(),
          j.at("max_off_volts").get<double>(), wordOf(words::kLossBehaviours, j.at("on_loss"))};
}

// The kinds' words stand here and not in kindName, whose wording may change.
std::string_view kindOf(const ThresholdSetup& /*setup*/) {
  return "threshold-input";
}
std::string_view kindOf(const AnalogInputSetup& /*setup*/) {
  return "analog-input";
}
std::string_view kindOf(const ThermocoupleSetup& /*setup*/) {
  return "thermocouple-input";
}
std::string_view kindOf(const RtdSetup& /*setup*/) {
  return "rtd-input";
}
std::string_view kindOf(const AnalogOutputSetup& /*setup*/) {
  return "analog-output";
}
std::string_view kindOf(const DiscreteOutputSetup& /*setup*/) {
  return "discrete-output";
}

SetupKind setupOf(std::string_view kind, const Json& json) {
  if (kind == "threshold-input") {
    return thresholdOf(json);
  }
  if (kind == "analog-input") {
    return analogInputOf(json);
  }
  if (kind == "thermocouple-input") {
    return thermocoupleOf(json);
  }
  if (kind == "rtd-input") {
    return rtdOf(json);
  }
  if (kind == "analog-output") {
    return analogOutputOf(json);
  }
  if (kind == "discrete-output") {
    return discreteOutputOf(json);
  }
  throw Unreadable(fmt::format("\"{}\" is not a kind of setup", kind));
}

Json toJson(const ToleranceSide& side) {
  return {{"absolute", side.absolute},
          {"percent_of_reading", side.percentOfReading},
          {"percent_of_span", side.percentOfSpan},
          {"counts", side.counts}};
}

ToleranceSide sideOf(const Json& j) {
  return {j.at("absolute").get<double>(), j.at("percent_of_reading").get<double>(),
          j.at("percent_of_span").get<double>(), j.at("counts").get<double>()};
}

}  // namespace

StoredSetup storedSetup(const SetupKind& setup) {
  return std::visit([](const auto& kind) { return StoredSetup{kindOf(kind), dumped(toJson(kind))}; }, setup);
}

std::string storedJson(const SensorRange& range) {
  Json json = {{"process", toJson(range.process)}};
  putSpan(json, "output", range.output);
  json["transfer"] = words::word(words::kTransfers, range.transfer);
  if (range.thermocouple) {
    json["thermocouple"] = words::word(words::kThermocouples, *range.thermocouple);
  }
  if (range.rtd) {
    json["rtd"] = words::word(words::kRtdElements, *range.rtd);
  }
  return dumped(json);
}

std::string storedJson(const TestScheme& scheme) {
  return dumped({{"percents", scheme.percents},
                 {"order", words::word(words::kRunOrders, scheme.order)},
                 {"repeats", scheme.repeats},
                 {"alarms", scheme.alarms},
                 {"loss", scheme.loss}});
}

std::string storedJson(const Tolerance& tolerance) {
  return dumped({{"plus", toJson(tolerance.plus)}, {"minus", toJson(tolerance.minus)}});
}

std::string storedRule(const DecisionRule& rule) {
  if (const auto fault = planRuleFault(rule)) {
    throw InputError(*fault, "give the plan a decision rule it can have");
  }
  switch (rule.basis) {
    case GuardBasis::none:
      break;
    case GuardBasis::factor:
      return dumped({{"rule", "guard-band"}, {"factor", rule.factor}});
    default:
      return dumped({{"rule", "false-accept"},
                     {"limit", rule.falseAcceptLimit},
                     {"any_spread", rule.basis == GuardBasis::anyPopulation}});
  }
  return std::string(kSimpleRule);
}

std::string storedJson(const std::vector<std::string>& lines) {
  return dumped(Json(lines));
}
std::string storedJson(const std::vector<int>& numbers) {
  return dumped(Json(numbers));
}

std::string storedJson(const std::vector<Role>& roles) {
  Json json = Json::array();
  for (const Role role : roles) {
    json.push_back(words::word(words::kRoles, role));
  }
  return dumped(json);
}

SetupKind setupAt(const Query& row, int kindColumn, int parametersColumn) {
  return parsedAt(row, parametersColumn, [&](const Json& j) { return setupOf(row.textView(kindColumn), j); });
}

SensorRange sensorRangeAt(const Query& row, int column) {
  return parsedAt(row, column, [](const Json& j) {
    SensorRange range;
    range.process = spanOf(j.at("process"));
    range.output = findSpan(j, "output");
    range.transfer = wordOf(words::kTransfers, j.at("transfer"));
    if (const auto couple = j.find("thermocouple"); couple != j.end()) {
      range.thermocouple = wordOf(words::kThermocouples, *couple);
    }
    if (const auto element = j.find("rtd"); element != j.end()) {
      range.rtd = wordOf(words::kRtdElements, *element);
    }
    return range;
  });
}

TestScheme testSchemeAt(const Query& row, int column) {
  return parsedAt(row, column, [](const Json& j) {
    return TestScheme{j.at("percents").get<std::vector<double>>(), wordOf(words::kRunOrders, j.at("order")),
                      j.at("repeats").get<int>(), j.at("alarms").get<bool>(), j.at("loss").get<bool>()};
  });
}

Tolerance toleranceAt(const Query& row, int column) {
  return parsedAt(row, column, [](const Json& j) {
    return Tolerance{sideOf(j.at("plus")), sideOf(j.at("minus"))};
  });
}

DecisionRule decisionRuleAt(const Query& row, int column) {
  if (row.textView(column) == kSimpleRule) {
    return {};
  }
  return parsedAt(row, column, [](const Json& j) {
    const auto& name = j.at("rule").get_ref<const std::string&>();
    DecisionRule rule;
    if (name == "guard-band") {
      rule.basis = GuardBasis::factor;
      rule.factor = j.at("factor").get<double>();
    } else if (name == "false-accept") {
      rule.basis = j.at("any_spread").get<bool>() ? GuardBasis::anyPopulation : GuardBasis::specificRisk;
      rule.falseAcceptLimit = j.at("limit").get<double>();
    } else {
      throw Unreadable(fmt::format("\"{}\" is not a decision rule this program writes", name));
    }
    if (const auto fault = planRuleFault(rule)) {
      throw Unreadable(*fault);
    }
    return rule;
  });
}

std::vector<std::string> linesAt(const Query& row, int column) {
  return parsedAt(row, column, [](const Json& j) { return j.get<std::vector<std::string>>(); });
}

std::vector<int> numbersAt(const Query& row, int column) {
  return parsedAt(row, column, [](const Json& j) { return j.get<std::vector<int>>(); });
}

std::vector<Role> rolesAt(const Query& row, int column) {
  return parsedAt(row, column, [](const Json& j) {
    std::vector<Role> roles;
    for (const Json& role : j) {
      roles.push_back(wordOf(words::kRoles, role));
    }
    return roles;
  });
}

}  // namespace spanwright
