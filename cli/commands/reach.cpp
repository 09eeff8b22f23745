// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/reach.h"
#include "core/tasks/rounds.h"

#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/units/number.h"
#include "importers/found_file.h"

namespace spanwright {

namespace {

Json phaseJson(const ReachedPhase& phase) {
  return {{"was", text(phase.was)}, {"becomes", text(phase.becomes)}, {"flips", phase.flips()}};
}

Json pointJson(const ReachedPoint& point) {
  const bool limited = point.newError.has_value();
  return {{"phase", point.phase == Phase::asFound ? "as_found" : "as_left"},
          {"point", point.label},
          {"unit", symbol(point.unit)},
          {"standard_value", orNull(point.standardValue)},
          {"standard_unit", point.standardValue ? Json(symbol(point.standardUnit)) : Json(nullptr)},
          {"certificate_error", orNull(point.certificateError)},
          {"found_error", orNull(point.foundError)},
          {"beyond_found_values", point.beyondFound},
          {"not_in_finding", point.notInFinding},
          {"error_was", point.oldError},
          {"error_becomes", orNull(point.newError)},
          {"limit_low", limited ? orNull(point.limits.low) : Json(nullptr)},
          {"limit_high", limited ? orNull(point.limits.high) : Json(nullptr)},
          {"was", text(point.was)},
          {"becomes", text(point.becomes)},
          {"fraction_of_tolerance", orNull(point.fractionOfTolerance)},
          {"reason", point.reason}};
}

// Place of the calibration's channel among the visits, from 1; null when it needs none.
Json visitNumber(const Reach& reach, const ReachedCalibration& reached) {
  for (std::size_t i = 0; reached.needsVisit && i < reach.visits.size(); ++i) {
    if (reach.visits[i].channel == reached.channel && reach.visits[i].subject == reached.subject) {
      return i + 1;
    }
  }
  return nullptr;
}

Json reachedJson(const Reach& reach, const ReachedCalibration& reached) {
  Json points = Json::array();
  for (const ReachedPoint& point : reached.points) {
    points.push_back(pointJson(point));
  }
  const ReachedPoint* worst = reached.worst();
  return {{"calibration", reached.id},
          {"channel", reached.channel},
          {"place", reached.place},
          {"subject", text(reached.subject)},
          {"performed", formatMoment(reached.performed)},
          {"certificate", reached.certificate},
          {"last_good_certificate", reach.lastGood ? Json(reach.lastGood->number) : Json(nullptr)},
          {"since", orNull(reach.since)},
          {"was", text(reached.asLeft.was)},
          {"becomes", text(reached.asLeft.becomes)},
          {"flips", reached.flips()},
          {"as_found", phaseJson(reached.asFound)},
          {"as_left", phaseJson(reached.asLeft)},
          {"left_apart", reached.leftApart},
          {"worst", worst != nullptr ? pointJson(*worst) : Json(nullptr)},
          {"points", points},
          {"reason", reached.reason},
          {"needs_visit", reached.needsVisit},
          {"visit_order", visitNumber(reach, reached)},
          {"cleared_by", reached.clearedBy ? Json(*reached.clearedBy) : Json(nullptr)}};
}

std::string change(const ReachedPhase& phase) {
  return phase.flips() ? fmt::format("{} -> {}", text(phase.was), text(phase.becomes))
                       : std::string(text(phase.was));
}

std::string then(const ReachedCalibration& reached) {
  switch (reached.then()) {
    case ReachedThen::visitAgain:
      return "visit again";
    case ReachedThen::cleared:
      return fmt::format("cleared by {}", *reached.clearedBy);
    case ReachedThen::unchanged:
      return "unchanged";
    case ReachedThen::nothing:
      break;
  }
  return "";
}

void printHead(std::ostream& out, const Reach& reach, const FoundErrors& found) {
  out << fmt::format("{}, as found on {}{}.\n", reach.standard, formatDate(found.foundOn),
                     found.certificate.empty() ? "" : " (certificate " + found.certificate + ")");
  if (!found.remark.empty()) {
    out << "Remark: " << found.remark << ".\n";
  }
  if (!reach.lastGood) {
    out << "No certificate of it is older, so every calibration made with it is in doubt.\n";
    return;
  }
  out << fmt::format("Last good certificate: {}, valid from {}: {}.\n", reach.lastGood->number,
                     formatDate(*reach.since), text(reach.why));
  if (!reach.passedOver.empty()) {
    out << fmt::format("Passed over, because they already show what was found: {}.\n",
                       fmt::join(reach.passedOver, ", "));
  }
  if (reach.agrees) {
    out << "What was found agrees with it within both uncertainties.\n";
  }
}

void addRow(Table& table, const ReachedCalibration& reached) {
  std::vector<std::string> cells{std::to_string(reached.id),
                                 formatMoment(reached.performed),
                                 reached.channel,
                                 std::string(text(reached.subject)),
                                 change(reached.asFound),
                                 reached.leftApart ? change(reached.asLeft) : std::string("as found")};
  const ReachedPoint* worst = reached.worst();
  const auto number = [](std::optional<double> value) {
    return value ? formatSignificant(*value, 4) : std::string();
  };
  if (worst != nullptr) {
    const std::string unit(displaySymbol(worst->unit));
    cells.insert(cells.end(),
                 {fmt::format("{}, {}", text(worst->phase), worst->label),
                  formatSignificant(worst->oldError, 4) + " " + unit, number(worst->newError) + " " + unit,
                  number(worst->certificateError), number(worst->foundError),
                  worst->standardValue ? std::string(displaySymbol(worst->standardUnit)) : std::string()});
  } else {
    cells.resize(cells.size() + 6);
  }
  cells.push_back(then(reached));
  table.add(std::move(cells));
}

// What the finding could not answer, said once for each reason.
void printGaps(std::ostream& out, const Reach& reach) {
  for (const ReachedCalibration& reached : reach.calibrations) {
    const std::string name = fmt::format("Calibration {} of {}", reached.id, reached.channel);
    if (!reached.reason.empty()) {
      out << fmt::format("{} cannot be judged again: {}.\n", name, reached.reason);
    }
    for (const ReachedPoint& point : reached.points) {
      if (!point.reason.empty()) {
        out << fmt::format("{}, {}, {}: {}.\n", name, text(point.phase), point.label, point.reason);
      }
    }
  }
  if (const auto beyond = reach.beyondFound(); beyond > 0) {
    out << fmt::format(
        "{} points lie up to 5 % beyond the values found; the error of the nearest one was used there.\n",
        beyond);
  }
  if (const auto outside = reach.notInFinding(); outside > 0) {
    out << fmt::format(
        "{} points rest on a range of the standard that the finding does not mention; they were left as they "
        "are. Add the range to the file if it was checked.\n",
        outside);
  }
}

void printVisits(std::ostream& out, const Reach& reach) {
  if (reach.visits.empty()) {
    out << "\nNo channel needs a visit for this.\n";
    return;
  }
  Table table({{"", kRight}, {"place"}, {"channel"}, {"subject"}, {"in doubt"}});
  std::size_t number = 0;
  for (const ReachVisit& visit : reach.visits) {
    table.add({std::to_string(++number), visit.place, visit.channel, std::string(text(visit.subject)),
               fmt::format("{}", fmt::join(visit.calibrations, ", "))});
  }
  out << "\nTo visit again, in walking order:\n";
  table.print(out);
}

class ReachCommand : public Command {
 public:
  std::string name() const override { return "reach"; }
  std::string description() const override {
    return "calibrations touched by a standard found out of tolerance, recomputed";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("STANDARD", serial_, "the standard's serial number")->required();
    app.add_option("--found", found_, "what was found at its recalibration (TOML)")->required();
    auto* round =
        app.add_option("--make-round", round_, "make a round of this name of the channels to visit again");
    app.add_option("--person", person_, "who makes the round (login)")->needs(round);
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const FoundErrors found = readFoundFile(found_);
    Store store =
        openRecord(record_, round_.empty() ? Store::Mode::readOnly : Store::Mode::readWrite, surroundings);
    const Reach reach = reachOfStandard(store, serial_, found);
    if (!round_.empty() && reach.visits.empty()) {
      surroundings.err << "No channel needs a visit, so no round was made.\n";
    } else if (!round_.empty()) {
      surroundings.err << fmt::format("Round {} holds the {} channels to visit again.\n",
                                      makeRound(store, reach, round_, person_), reach.visits.size());
    }
    json_ ? printDocument(surroundings, reach) : print(surroundings.out, reach, found);
    return reach.flips() > 0 ? kFound : kDone;
  }

 private:
  static void printDocument(const Surroundings& surroundings, const Reach& reach) {
    Json list = Json::array();
    for (const ReachedCalibration& reached : reach.calibrations) {
      list.push_back(reachedJson(reach, reached));
    }
    printJson(surroundings, list);
  }

  static void print(std::ostream& out, const Reach& reach, const FoundErrors& found) {
    printHead(out, reach, found);
    if (reach.calibrations.empty()) {
      out << "No calibration was made with it since.\n";
      return;
    }
    out << fmt::format(
        "{} calibrations were made with it since; with the error found, {} change verdict.\n\n",
        reach.calibrations.size(), reach.flips());
    Table table({{"calibration", kRight},
                 {"performed"},
                 {"channel"},
                 {"subject"},
                 {"as found"},
                 {"as left"},
                 {"worst point"},
                 {"error was", kRight},
                 {"error is", kRight},
                 {"certificate said", kRight},
                 {"found", kRight},
                 {""},
                 {"then"}});
    for (const ReachedCalibration& reached : reach.calibrations) {
      addRow(table, reached);
    }
    table.print(out);
    printGaps(out, reach);
    printVisits(out, reach);
  }

  std::string record_, serial_, found_, round_, person_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> reachCommand() {
  return std::make_unique<ReachCommand>();
}

}  // namespace spanwright
