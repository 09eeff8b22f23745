// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/store/store.h"
#include "core/tasks/visit.h"
#include "importers/visit_file.h"

namespace spanwright {

namespace {

Json pointJson(const Reading& reading, Phase phase) {
  Json point{{"phase", phase == Phase::asFound ? "as_found" : "as_left"}, {"point", reading.point.label}};
  if (reading.skipped()) {
    point["skipped"] = reading.skipReason;
    return point;
  }
  point["applied"] = reading.applied;
  point["applied_unit"] = symbol(reading.point.appliedUnit);
  point["reading"] = reading.indicated;
  point["unit"] = symbol(reading.point.readingUnit);
  point["expected"] = reading.expected;
  point["error"] = reading.error();
  point["limit_low"] = orNull(reading.limits.low);
  point["limit_high"] = orNull(reading.limits.high);
  point["expanded_uncertainty"] = orNull(reading.expandedUncertainty);
  point["verdict"] = text(reading.verdict);
  point["within_one_step"] = reading.withinOneStep;
  return point;
}

// As many as were typed, when what was typed was in the reading's own unit.
int shownDecimals(const Reading& reading) {
  const auto typed = parseQuantity(reading.indicatedText);
  const bool ownUnit = typed && (!typed->unit || *typed->unit == reading.point.readingUnit);
  return ownUnit ? typed->decimals : 3;
}

void addRows(Table& table, const std::vector<Reading>& readings, Phase phase) {
  for (const Reading& reading : readings) {
    if (reading.skipped()) {
      table.add(
          {std::string(text(phase)), reading.point.label, "", "", "", "", "skipped: " + reading.skipReason});
      continue;
    }
    const int decimals = shownDecimals(reading);
    const auto limit = [&](double value) {
      return std::isfinite(value) ? formatFixed(value, decimals + 1) : "open";
    };
    table.add({std::string(text(phase)), reading.point.label,
               formatFixed(reading.expected, decimals + 1) + " " +
                   std::string(displaySymbol(reading.point.readingUnit)),
               formatFixed(reading.indicated, decimals), formatFixed(reading.error(), decimals + 1),
               limit(reading.limits.low) + " .. " + limit(reading.limits.high),
               std::string(text(reading.verdict)) + (reading.withinOneStep ? " (inside one step)" : "")});
  }
}

class RecordVisit : public Command {
 public:
  std::string name() const override { return "record"; }
  std::string description() const override { return "enter one visit from a file"; }
  bool writes() const override { return true; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("VISIT", visit_, "the visit (TOML)")->required();
    app.add_option("--person", person_, "who did it, instead of the person named in the file");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    ProposedVisit visit = readVisitFile(visit_);
    if (!person_.empty()) {
      visit.person = person_;
    }
    Store store = Store::open(record_, Store::Mode::readWrite, surroundings.clock);
    const Calibration stored = enterVisit(store, visit, surroundings.clock.localNow());
    json_ ? printVisitJson(surroundings, stored) : printVisit(surroundings, stored);
    return kDone;
  }

 private:
  static void printVisitJson(const Surroundings& surroundings, const Calibration& stored) {
    Json points = Json::array();
    for (const Reading& reading : stored.asFound) {
      points.push_back(pointJson(reading, Phase::asFound));
    }
    for (const Reading& reading : stored.asLeft) {
      points.push_back(pointJson(reading, Phase::asLeft));
    }
    printJson(surroundings, {{"calibration", stored.id},
                             {"channel", stored.channel},
                             {"subject", text(stored.subject)},
                             {"setup", stored.setupVersion},
                             {"outcome", text(stored.leftVerdict)},
                             {"as_found", text(stored.foundVerdict)},
                             {"as_left", text(stored.leftVerdict)},
                             {"points", points}});
  }

  static void printVisit(const Surroundings& surroundings, const Calibration& stored) {
    Table table({{"phase"},
                 {"point"},
                 {"expected", Table::Align::right},
                 {"reading", Table::Align::right},
                 {"error", Table::Align::right},
                 {"limits", Table::Align::right},
                 {"verdict"}});
    addRows(table, stored.asFound, Phase::asFound);
    addRows(table, stored.asLeft, Phase::asLeft);
    table.print(surroundings.out);
    surroundings.out << fmt::format(
        "Recorded calibration {} of {} ({}), setup {}: as found {}, as left {}.\n", stored.id, stored.channel,
        text(stored.subject), stored.setupVersion, text(stored.foundVerdict), text(stored.leftVerdict));
  }

  std::string record_, visit_, person_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> recordVisitCommand() {
  return std::make_unique<RecordVisit>();
}

}  // namespace spanwright
