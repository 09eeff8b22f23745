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

class Drift : public Command {
 public:
  std::string name() const override { return "drift"; }
  std::string description() const override {
    return "how fast each channel moves, and when it leaves tolerance";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("CHANNEL", tag_, "only this channel");
    app.add_option("--on", on_, "as of this day (default: today)");
    app.add_option("--within", within_, "only points whose line leaves tolerance within so many days")
        ->check(CLI::NonNegativeNumber);
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Date day = dayOf(on_, surroundings);
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    if (!tag_.empty() && !store.site().channel(tag_)) {
      throw InputError(fmt::format("the register has no channel \"{}\"", tag_),
                       "check the tag; \"spanwright due\" lists them all");
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
                      {"line_out_on", orNull(item.lineOutOn)}});
    }
    printJson(surroundings, list);
  }

  void printItems(const Surroundings& surroundings, const std::vector<DriftItem>& items) const {
    if (items.empty()) {
      surroundings.out << (within_ < 0 ? "No history to follow yet.\n"
                                       : fmt::format("No line leaves tolerance within {} days.\n", within_));
      return;
    }
    constexpr auto kRight = Table::Align::right;
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
                 {"band out on"},
                 {"line out on"}});
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
                 std::string(displaySymbol(item.unit)), shown(item.bandOutOn), shown(item.lineOutOn)});
    }
    table.print(surroundings.out);
    surroundings.out
        << "Rates from one line per segment with a common slope; the band holds 95 % of next readings. "
           "Empty: not enough visits, or inside tolerance for ten years.\n";
  }

  std::string record_, tag_, on_;
  int within_ = -1;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> driftCommand() {
  return std::make_unique<Drift>();
}

}  // namespace spanwright
