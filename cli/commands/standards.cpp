// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/standards.h"

#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

Json statusJson(const StandardStatus& status) {
  const Standard& standard = *status.standard;
  const StandardCertificate* certificate = status.certificate;
  return {{"standard", standard.serial},
          {"maker", standard.maker},
          {"model", standard.model},
          {"description", standard.description},
          {"location", standard.location},
          {"certificate", certificate != nullptr ? Json(certificate->number) : Json(nullptr)},
          {"issuer", certificate != nullptr ? Json(certificate->issuer) : Json(nullptr)},
          {"valid_from", certificate != nullptr ? orNull(certificate->validFrom) : Json(nullptr)},
          {"valid_until", certificate != nullptr ? orNull(certificate->validUntil) : Json(nullptr)},
          {"last_day", orNull(status.lastDay)},
          {"days_left", status.lastDay ? Json(status.daysLeft) : Json(nullptr)},
          {"state", text(status.state)}};
}

std::string_view gapWord(ChartGap gap) {
  return gap == ChartGap::tooFew ? "too few certificates" : "no spread";
}

Json limitsJson(const ChartLimits& limits) {
  return {{"low", limits.low}, {"high", limits.high}};
}

Json chartJson(const ChartedValue& value) {
  Json points = Json::array();
  const auto* chart = std::get_if<ControlChart>(&value.chart);
  for (std::size_t i = 0; i < value.errors.size(); ++i) {
    Json point{{"certificate", value.certificates[i]->number},
               {"issued", formatDate(value.certificates[i]->issued)},
               {"error", value.errors[i]}};
    if (chart != nullptr) {
      const ChartPoint& on = chart->points[i];
      point["moving_range"] = orNull(on.movingRange);
      point["average"] = on.average;
      point["average_limits"] = limitsJson(on.averageLimits);
      point["error_beyond"] = on.valueBeyond;
      point["range_beyond"] = on.rangeBeyond;
      point["average_beyond"] = on.averageBeyond;
    }
    points.push_back(std::move(point));
  }
  Json json{{"unit", symbol(value.unit)}, {"nominal", value.nominal}, {"gap", nullptr}, {"points", points}};
  if (chart == nullptr) {
    json["gap"] = gapWord(std::get<ChartGap>(value.chart));
    return json;
  }
  json["mean"] = chart->mean;
  json["sigma"] = chart->sigma;
  json["provisional"] = chart->provisional;
  json["limits"] = limitsJson(chart->limits);
  json["range_limit"] = chart->rangeLimit;
  return json;
}

std::string beyondWords(const ChartedValue& value, const ControlChart& chart) {
  std::string words;
  for (std::size_t i = 0; i < chart.points.size(); ++i) {
    const ChartPoint& point = chart.points[i];
    if (!point.beyond()) {
      continue;
    }
    std::string how;
    const auto add = [&](bool is, const char* word) {
      how += is ? (how.empty() ? "" : ", ") + std::string(word) : "";
    };
    add(point.valueBeyond, "error");
    add(point.rangeBeyond, "change");
    add(point.averageBeyond, "average");
    words += (words.empty() ? "" : "; ") + fmt::format("{} ({})", value.certificates[i]->number, how);
  }
  return words.empty() ? "none" : words;
}

class Standards : public Command {
 public:
  std::string name() const override { return "standards"; }
  std::string description() const override {
    return "the standards, how long each may be used, its control chart";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--on", on_, "as of this day (default: today)");
    app.add_option("--chart", serial_, "the control chart of this standard's own certificates instead");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Date day = dayOf(on_, surroundings);
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    if (!serial_.empty()) {
      return chart(surroundings, store.site(), day);
    }
    const auto all = standardsOn(store.site(), day);
    if (json_) {
      Json list = Json::array();
      for (const StandardStatus& status : all) {
        list.push_back(statusJson(status));
      }
      printJson(surroundings, list);
    } else {
      print(surroundings.out, all);
    }
    return kDone;
  }

 private:
  static void print(std::ostream& out, const std::vector<StandardStatus>& all) {
    if (all.empty()) {
      out << "The register has no standards.\n";
      return;
    }
    Table table({{"standard"},
                 {"what"},
                 {"where"},
                 {"certificate"},
                 {"issuer"},
                 {"last day"},
                 {"days left", kRight},
                 {"state"}});
    for (const StandardStatus& status : all) {
      const StandardCertificate* certificate = status.certificate;
      table.add({status.standard->serial, status.standard->model, status.standard->location,
                 certificate != nullptr ? certificate->number : "",
                 certificate != nullptr ? certificate->issuer : "",
                 status.lastDay ? formatDate(*status.lastDay) : "",
                 status.lastDay ? std::to_string(status.daysLeft) : "", std::string(text(status.state))});
    }
    table.print(out);
  }

  int chart(const Surroundings& surroundings, const Register& site, Date day) const {
    const Standard* standard = site.standard(serial_);
    if (standard == nullptr) {
      throw InputError(fmt::format("the register has no standard \"{}\"", serial_),
                       "check the serial number; \"spanwright standards\" lists them all");
    }
    const auto charts = certificateCharts(*standard, day);
    if (json_) {
      Json list = Json::array();
      for (const ChartedValue& value : charts) {
        list.push_back(chartJson(value));
      }
      printJson(surroundings, {{"standard", standard->serial}, {"charts", list}});
    } else {
      printChart(surroundings.out, *standard, charts);
    }
    return kDone;
  }

  static void printChart(std::ostream& out, const Standard& standard,
                         const std::vector<ChartedValue>& charts) {
    if (charts.empty()) {
      out << fmt::format("{} has no certificate yet.\n", standard.serial);
      return;
    }
    bool provisional = false;
    Table table({{"at", kRight},
                 {"certificates", kRight},
                 {"mean error", kRight},
                 {"sigma", kRight},
                 {"limits", kRight},
                 {"last average", kRight},
                 {"its limits", kRight},
                 {"beyond"}});
    for (const ChartedValue& value : charts) {
      const std::string at = formatShortest(value.nominal) + " " + std::string(displaySymbol(value.unit));
      const std::string count = std::to_string(value.errors.size());
      const auto* chart = std::get_if<ControlChart>(&value.chart);
      if (chart == nullptr) {
        table.add({at, count, "", "", "", "", "", std::string(gapWord(std::get<ChartGap>(value.chart)))});
        continue;
      }
      provisional = provisional || chart->provisional;
      const auto shown = [](double figure) { return formatSignificant(figure, 3); };
      const auto limits = [&](const ChartLimits& each) {
        return shown(each.low) + " .. " + shown(each.high);
      };
      const ChartPoint& last = chart->points.back();
      table.add({at, count, shown(chart->mean), shown(chart->sigma), limits(chart->limits),
                 shown(last.average), limits(last.averageLimits), beyondWords(value, *chart)});
    }
    table.print(out);
    out << fmt::format(
        "Errors as the certificates state them; limits at 3 sigma from the mean moving range, the average "
        "weighted by 0.2. Fewer than {} certificates give no limits",
        kLeastForLimits);
    out << (provisional ? fmt::format(", fewer than {} provisional ones.\n", kEnoughForLimits) : ".\n");
  }

  std::string record_, on_, serial_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> standardsCommand() {
  return std::make_unique<Standards>();
}

}  // namespace spanwright
