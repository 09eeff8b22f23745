// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/tasks/drift_backtest.h"
#include "core/tasks/status.h"

namespace spanwright {

namespace {

// Decimals that show the standard error to two digits: more would be noise. Without one, three digits of the
// rate.
std::string shownRate(const DriftItem& item, std::optional<double> rate) {
  if (!rate) {
    return "";
  }
  const bool judged = item.fit && item.fit->rateStandardError && *item.fit->rateStandardError > 0.0;
  return judged ? formatFixed(
                      *rate,
                      std::max(0, 1 - static_cast<int>(std::floor(std::log10(*item.fit->rateStandardError)))))
                : formatSignificant(*rate, 3);
}

std::string shown(std::optional<Date> value) {
  return value ? formatDate(*value) : "";
}

std::string shownProbability(std::optional<double> probability) {
  return probability ? formatFixed(100.0 * *probability, 1) + " %" : "";
}

std::string shownBasis(const DriftItem& item) {
  const bool leans = item.basis == BandBasis::likeSubjects;
  return leans ? fmt::format("{} like subjects", item.group.size) : std::string(text(item.basis));
}

class Drift : public Command {
 public:
  std::string name() const override { return "drift"; }
  std::string description() const override {
    return "how fast each channel moves, and when it leaves tolerance";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    CLI::Option* channel = app.add_option("CHANNEL", tag_, "only this channel");
    app.add_option("--on", on_, "as of this day (default: today)");
    CLI::Option* within =
        app.add_option("--within", within_, "only points whose line leaves tolerance within so many days")
            ->check(CLI::NonNegativeNumber);
    app.add_flag("--backtest", backtest_,
                 "hide each channel's last visit, forecast it, and say how good the forecasts were")
        ->excludes(channel)
        ->excludes(within);
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Date day = dayOf(on_, surroundings);
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    if (!tag_.empty() && !store.site().channel(tag_)) {
      throw InputError(fmt::format("the register has no channel \"{}\"", tag_),
                       "check the tag; \"spanwright due\" lists them all");
    }
    if (backtest_) {
      const Backtest test = backtestDrift(store, day);
      json_ ? printBacktestJson(surroundings, test) : printBacktest(surroundings, test);
      return kDone;
    }
    std::vector<DriftItem> items = driftReport(store, tag_, day);
    if (within_ >= 0) {
      const Date last = day + boost::gregorian::days(within_);
      std::erase_if(items, [&](const DriftItem& item) { return !item.lineOutOn || *item.lineOutOn > last; });
      std::stable_sort(items.begin(), items.end(),
                       [](const DriftItem& a, const DriftItem& b) { return *a.lineOutOn < *b.lineOutOn; });
    }
    json_ ? printItemsJson(surroundings, items) : printItems(surroundings, items);
    return kDone;
  }

 private:
  static void printItemsJson(const Surroundings& surroundings, const std::vector<DriftItem>& items) {
    Json list = Json::array();
    for (const DriftItem& item : items) {
      const bool fitted = item.fit.has_value();
      list.push_back({{"channel", item.channel},
                      {"subject", text(item.subject)},
                      {"point", item.point},
                      {"point_percent", orNull(item.pointPercent)},
                      {"unit", symbol(item.unit)},
                      {"calibrations", item.calibrations},
                      {"segments", item.fitted.size()},
                      {"rate_per_year", fitted ? Json(item.fit->rate) : Json(nullptr)},
                      {"rate_standard_error", fitted ? orNull(item.fit->rateStandardError) : Json(nullptr)},
                      {"residual_sd", fitted ? orNull(item.fit->residualSd) : Json(nullptr)},
                      {"degrees_of_freedom", fitted ? Json(item.fit->degreesOfFreedom) : Json(nullptr)},
                      {"pooled_rate_per_year", orNull(item.pooledRate)},
                      {"robust_rate_per_year", fitted ? orNull(item.fit->robustRate) : Json(nullptr)},
                      {"limit_low", orNull(item.limits.low)},
                      {"limit_high", orNull(item.limits.high)},
                      {"forecast_out_on", orNull(item.bandOutOn)},
                      {"line_out_on", orNull(item.lineOutOn)},
                      {"t", item.rateTest ? Json(item.rateTest->t) : Json(nullptr)},
                      {"p_value", item.rateTest ? Json(item.rateTest->pValue) : Json(nullptr)},
                      {"pooled_rate_standard_error", orNull(item.pooledRateStandardError)},
                      {"in_tolerance_probability", orNull(item.inTolerance)},
                      {"band_rests_on", text(item.basis)},
                      {"group", groupJson(item.group)},
                      {"influence", influenceJson(item)},
                      {"growing_scatter", growthJson(item)},
                      {"findings", findingsJson(item)},
                      {"parts", partsJson(item)},
                      {"other_plan_visits", item.otherPlanVisits}});
    }
    printJson(surroundings, list);
  }

  static Json groupJson(const DriftGroup& group) {
    return {
        {"name", group.name},
        {"size", group.size},
        {"too_small", group.tooSmall},
        {"rate_mean", group.tooSmall ? Json(nullptr) : Json(group.rateMean)},
        {"rate_spread", group.tooSmall ? Json(nullptr) : Json(group.rateSpread)},
        {"scatter", group.tooSmall ? Json(nullptr) : Json(group.scatter)},
        {"scatter_degrees_of_freedom", group.tooSmall ? Json(nullptr) : Json(group.scatterDegreesOfFreedom)}};
  }

  static Json influenceJson(const DriftItem& item) {
    if (!item.influence) {
      return nullptr;
    }
    return {{"performed", formatMoment(momentOf(item, item.influence->time))},
            {"as_left", item.influence->asLeft},
            {"rate_without", item.influence->rateWithout},
            {"cook_distance", item.influence->cookDistance}};
  }

  static Json growthJson(const DriftItem& item) {
    if (!item.growth) {
      return nullptr;
    }
    return {{"variance_ratio_per_year", item.growth->ratio}, {"p_value", item.growth->pValue}};
  }

  static Json findingsJson(const DriftItem& item) {
    Json list = Json::array();
    for (const DriftFinding& finding : item.findings) {
      list.push_back({{"kind", text(finding.kind)},
                      {"after", orNull(finding.after)},
                      {"before", orNull(finding.before)},
                      {"amount", finding.amount},
                      {"p_value", finding.pValue},
                      {"words", finding.words}});
    }
    return list;
  }

  static Json partsJson(const DriftItem& item) {
    if (!item.parts) {
      return nullptr;
    }
    const auto rate = [](const std::optional<DriftParts::Rate>& of) {
      return of ? Json{{"rate", of->rate}, {"standard_error", of->standardError}} : Json(nullptr);
    };
    return {{"channel", rate(item.parts->channel)},
            {"sensor", rate(item.parts->sensor)},
            {"loop", rate(item.parts->loop)},
            {"difference", rate(item.parts->difference)},
            {"follows", item.parts->follows ? Json(text(*item.parts->follows)) : Json(nullptr)},
            {"p_value", orNull(item.parts->pValue)}};
  }

  static void printBacktestJson(const Surroundings& surroundings, const Backtest& test) {
    Json readings = Json::array();
    for (const HiddenReading& reading : test.readings) {
      readings.push_back({{"channel", reading.channel},
                          {"subject", text(reading.subject)},
                          {"point", reading.point},
                          {"unit", symbol(reading.unit)},
                          {"performed", formatMoment(reading.at)},
                          {"found", reading.found},
                          {"forecast", reading.forecast.value},
                          {"low", orNull(reading.forecast.low)},
                          {"high", orNull(reading.forecast.high)},
                          {"band_rests_on", text(reading.basis)},
                          {"last_value", reading.lastValue},
                          {"straight_line", reading.straightLine}});
    }
    printJson(surroundings, {{"readings", std::move(readings)},
                             {"with_band", test.withBand},
                             {"in_band", test.inBand},
                             {"mean_absolute_error_of_tolerance",
                              {{"forecast", test.forecastError},
                               {"last_value", test.lastValueError},
                               {"straight_line", test.straightLineError}}}});
  }

  static void printBacktest(const Surroundings& surroundings, const Backtest& test) {
    if (test.readings.empty()) {
      surroundings.out << "No point has enough visits for one of them to be hidden and forecast.\n";
      return;
    }
    Table table({{"forecast of the last visit"}, {"mean error, % of tolerance", Table::Align::right}});
    const auto percent = [](double part) { return formatFixed(100.0 * part, 1); };
    table.add({"drift line", percent(test.forecastError)});
    table.add({"last value stays", percent(test.lastValueError)});
    table.add({"one straight line through everything", percent(test.straightLineError)});
    table.print(surroundings.out);
    surroundings.out << fmt::format(
        "{} hidden readings; of {} with a 95 % band {} lie in it{}.\n", test.readings.size(), test.withBand,
        test.inBand,
        test.withBand > 0 ? fmt::format(" ({} %)", percent(static_cast<double>(test.inBand) / test.withBand))
                          : "");
  }

  void printItems(const Surroundings& surroundings, const std::vector<DriftItem>& items) const {
    if (items.empty()) {
      surroundings.out << (within_ < 0 ? "No history to follow yet.\n"
                                       : fmt::format("No line leaves tolerance within {} days.\n", within_));
      return;
    }
    Table table({{"channel"},
                 {"subject"},
                 {"point"},
                 {"visits", kRight},
                 {"segments", kRight},
                 {"rate per year", kRight},
                 {"std. error", kRight},
                 {"robust", kRight},
                 {"pooled", kRight},
                 {"unit"},
                 {"in tolerance", kRight},
                 {"band out on"},
                 {"line out on"},
                 {"band rests on"}});
    for (const DriftItem& item : items) {
      std::optional<double> rate, error, robust;
      if (item.fit) {
        rate = item.fit->rate;
        error = item.fit->rateStandardError;
        robust = item.fit->robustRate;
      }
      table.add({item.channel, std::string(text(item.subject)), item.point + (item.pointPercent ? " %" : ""),
                 std::to_string(item.calibrations), std::to_string(item.fitted.size()), shownRate(item, rate),
                 shownRate(item, error), shownRate(item, robust), shownRate(item, item.pooledRate),
                 std::string(displaySymbol(item.unit)), shownProbability(item.inTolerance),
                 shown(item.bandOutOn), shown(item.lineOutOn), shownBasis(item)});
    }
    table.print(surroundings.out);
    surroundings.out
        << "Rates from one line per segment with a common slope; the band holds 95 % of next readings. "
           "Empty: not enough visits, or inside tolerance for ten years. In tolerance: how probable a "
           "reading "
           "taken on the day asked is inside.\n";
    printFindings(surroundings, items);
    if (!tag_.empty()) {
      printDetails(surroundings, items);
    }
  }

  static void printFindings(const Surroundings& surroundings, const std::vector<DriftItem>& items) {
    bool first = true;
    for (const DriftItem& item : items) {
      for (const DriftFinding& finding : item.findings) {
        surroundings.out << (first ? "\nFindings (a quiet point is given one of a kind once in 5000):\n" : "")
                         << fmt::format("  {} {} {}: {}: {}.\n", item.channel, text(item.subject), item.point,
                                        text(finding.kind), finding.words);
        first = false;
      }
    }
  }

  void printDetails(const Surroundings& surroundings, const std::vector<DriftItem>& items) const {
    surroundings.out << "\n";
    for (const DriftItem& item : items) {
      surroundings.out << fmt::format("{} {}: {}", text(item.subject), item.point, basisSentence(item));
      if (item.influence) {
        surroundings.out << fmt::format(" Without the reading of {} the rate would be {} {} a year.",
                                        formatDate(momentOf(item, item.influence->time).date()),
                                        shownRate(item, item.influence->rateWithout),
                                        displaySymbol(item.unit));
      }
      if (item.parts) {
        surroundings.out << partsSentence(item);
      }
      surroundings.out << "\n";
    }
  }

  static std::string partsSentence(const DriftItem& item) {
    const DriftParts& parts = *item.parts;
    const std::string difference =
        fmt::format("{} {} a year", shownRate(item, parts.difference.rate), displaySymbol(item.unit));
    if (parts.follows) {
      return fmt::format(" What the {} drifts follows from the other two: {}.", text(*parts.follows),
                         difference);
    }
    return fmt::format(" The loop drifts {} more than its sensor and channel together.", difference);
  }

  std::string record_, tag_, on_;
  int within_ = -1;
  bool json_ = false;
  bool backtest_ = false;
};

}  // namespace

std::unique_ptr<Command> driftCommand() {
  return std::make_unique<Drift>();
}

}  // namespace spanwright
