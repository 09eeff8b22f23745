// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <ostream>
#include <string_view>

#include "cli/commands/calc/calculations.h"
#include "cli/commands/calc/data_file.h"
#include "cli/commands/calc/typed.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/schedule/reliability.h"

namespace spanwright {

namespace {

std::optional<bool> parseOutcome(std::string word) {
  for (char& c : word) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  constexpr std::array<std::string_view, 5> kIn{"yes", "true", "1", "in", "pass"},
      kOut{"no", "false", "0", "out", "fail"};
  if (std::find(kIn.begin(), kIn.end(), word) != kIn.end()) {
    return true;
  }
  if (std::find(kOut.begin(), kOut.end(), word) != kOut.end()) {
    return false;
  }
  return std::nullopt;
}

std::vector<ToleranceOutcome> readOutcomes(const std::string& file) {
  DataFile data(file, {"interval_days", "in_tolerance"});
  std::vector<ToleranceOutcome> outcomes;
  for (std::size_t row = 0; row < data.rows(); ++row) {
    const double days = data.number(row, "interval_days");
    if (!std::isnan(days) && outcomesFault({{days, true}}, 0.5)) {
      data.refuse(row, "interval_days",
                  fmt::format("{} is not an interval in days", data.text(row, "interval_days")),
                  "give the days since the calibration before, above 0");
    }
    const auto in = parseOutcome(data.text(row, "in_tolerance"));
    if (!in) {
      data.refuse(
          row, "in_tolerance",
          fmt::format("\"{}\" does not say whether it was in tolerance", data.text(row, "in_tolerance")),
          "write yes or no");
    }
    outcomes.push_back({days, in.value_or(false)});
  }
  data.finish();
  return outcomes;
}

double between0And1(const std::string& option, const std::string& text) {
  const double value = typedNumber(option, text);
  if (!(value > 0.0 && value < 1.0)) {
    throw InputError(fmt::format("{}: {} is not between 0 and 1", option, text), "95 % is 0.95");
  }
  return value;
}

class IntervalCalculation : public Calculation {
 public:
  std::string name() const override { return "interval"; }
  std::string description() const override {
    return "the interval that keeps a reliability, from what calibrations found";
  }
  void declare(CLI::App& app) override {
    app.add_option("OUTCOMES", file_, "a file with the columns interval_days and in_tolerance (yes or no)")
        ->required();
    app.add_option("--target", target_, "share that should still be in tolerance at the end, between 0 and 1")
        ->required();
    app.add_option("--confidence", confidence_, "of the limits, between 0 and 1 (default 0.95)");
    app.add_option("--present", present_, "the present interval in days (default: the last one in the file)");
  }
  int execute(const Surroundings& surroundings, bool json) override {
    const double target = between0And1("--target", target_);
    const double confidence = between0And1("--confidence", confidence_);
    const std::vector<ToleranceOutcome> outcomes = readOutcomes(file_);
    double present = outcomes.back().intervalDays;
    if (!present_.empty()) {
      present = typedNumber("--present", present_);
      if (outcomesFault({{present, true}}, confidence)) {
        throw InputError(fmt::format("--present: {} is not an interval in days", present_),
                         "give a number of days above 0");
      }
    }
    const ReliabilityFit fit = fitReliability(outcomes, confidence);
    json ? printDocument(surroundings, fit, target, present) : printTable(surroundings, fit, target, present);
    return kDone;
  }

 private:
  static std::optional<double> reliability(std::optional<double> rate, double days) {
    return rate ? std::optional(reliabilityAt(*rate, days)) : std::nullopt;
  }

  static void printDocument(const Surroundings& surroundings, const ReliabilityFit& fit, double target,
                            double present) {
    printJson(surroundings, Json{{"failure_rate_per_day", orNull(fit.rate)},
                                 {"failure_rate_low", orNull(fit.rateLow)},
                                 {"failure_rate_high", orNull(fit.rateHigh)},
                                 {"interval_days", orNull(intervalForTarget(fit.rate, target))},
                                 {"interval_days_low", orNull(intervalForTarget(fit.rateHigh, target))},
                                 {"interval_days_high", orNull(intervalForTarget(fit.rateLow, target))},
                                 {"present_days", present},
                                 {"reliability_at_present", orNull(reliability(fit.rate, present))},
                                 {"reliability_at_present_low", orNull(reliability(fit.rateHigh, present))},
                                 {"reliability_at_present_high", orNull(reliability(fit.rateLow, present))},
                                 {"outcomes", fit.outcomes},
                                 {"out_of_tolerance", fit.out},
                                 {"mix", text(fit.mix)},
                                 {"confidence", fit.confidence}});
  }

  static void printTable(const Surroundings& surroundings, const ReliabilityFit& fit, double target,
                         double present) {
    const auto shown = [](std::optional<double> value) {
      return value ? formatSignificant(*value, 4) : std::string("none");
    };
    const std::string limits = formatSignificant(100.0 * fit.confidence, 4) + " %";
    Table table(
        {{"quantity"}, {"value", kRight}, {limits + " low", kRight}, {limits + " high", kRight}, {"unit"}});
    table.add(
        {"rate of leaving tolerance", shown(fit.rate), shown(fit.rateLow), shown(fit.rateHigh), "per day"});
    table.add({fmt::format("interval for {} % in tolerance", formatSignificant(100.0 * target, 4)),
               shown(intervalForTarget(fit.rate, target)), shown(intervalForTarget(fit.rateHigh, target)),
               shown(intervalForTarget(fit.rateLow, target)), "days"});
    table.add({fmt::format("in tolerance after {} days", formatSignificant(present, 6)),
               shown(reliability(fit.rate, present)), shown(reliability(fit.rateHigh, present)),
               shown(reliability(fit.rateLow, present)), ""});
    table.print(surroundings.out);
    surroundings.out << fmt::format("From {} calibrations, {} out of tolerance.\n", fit.outcomes, fit.out);
    if (fit.mix == OutcomeMix::allIn) {
      surroundings.out
          << "Nothing was out of tolerance yet: the interval has a lower limit only (one-sided).\n";
    } else if (fit.mix == OutcomeMix::allOut) {
      surroundings.out
          << "Everything was out of tolerance: the interval has an upper limit only (one-sided).\n";
    }
  }

  std::string file_, target_, present_;
  std::string confidence_ = "0.95";
};

}  // namespace

std::unique_ptr<Calculation> intervalCalculation() {
  return std::make_unique<IntervalCalculation>();
}

}  // namespace spanwright
