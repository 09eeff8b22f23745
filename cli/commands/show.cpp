// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "cli/visit_output.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/tasks/signing.h"
#include "core/tasks/site_calendar.h"
#include "core/tasks/status.h"

namespace spanwright {

namespace {

class Show : public Command {
 public:
  std::string name() const override { return "show"; }
  std::string description() const override { return "one channel: setups, fittings, calibrations, state"; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("CHANNEL", tag_, "the channel's tag")->required();
    app.add_option("--on", on_, "as of this day (default: today)");
    app.add_option("--calibration", calibration_, "only this calibration: its points and run figures");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Date day = dayOf(on_, surroundings);
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    const Channel* channel = store.site().channel(tag_);
    if (!channel) {
      throw InputError(fmt::format("the register has no channel \"{}\"", tag_),
                       "check the tag; \"spanwright due\" lists them all");
    }
    if (calibration_) {
      return showCalibration(surroundings, store);
    }
    std::vector<DueItem> due = dueList(store, day);
    std::erase_if(due, [&](const DueItem& item) { return item.channel != tag_; });
    const auto calibrations = store.calibrations(tag_);
    const SetupVersion* inForce = setupInForce(*channel, Moment(day, boost::posix_time::hours(24)));
    json_ ? printJson(surroundings, document(*channel, inForce, due, calibrations))
          : print(surroundings, *channel, inForce, due, calibrations);
    return kDone;
  }

 private:
  int showCalibration(const Surroundings& surroundings, const Store& store) const {
    const auto calibration = store.calibration(*calibration_);
    if (!calibration || calibration->channel != tag_) {
      throw InputError(fmt::format("{} has no calibration {}", tag_, *calibration_),
                       fmt::format("\"spanwright show RECORD {}\" lists those it has", tag_));
    }
    if (json_) {
      Json document = visitJson(store.site(), *calibration);
      document["state"] = text(store.state(calibration->id));
      document["corrects"] = calibration->corrects == 0 ? Json(nullptr) : Json(calibration->corrects);
      document["signatures"] = signaturesJson(store, calibration->id);
      printJson(surroundings, document);
      return kDone;
    }
    std::ostream& out = surroundings.out;
    out << fmt::format("Calibration {} of {} ({}), {}, setup {}, by {}: as found {}, as left {}.\n\n",
                       calibration->id, calibration->channel, text(calibration->subject),
                       formatMoment(calibration->performed), calibration->setupVersion, calibration->person,
                       text(calibration->foundVerdict), text(calibration->leftVerdict));
    printPoints(out, store.site(), *calibration);
    out << '\n';
    printFigures(out, store.site(), *calibration);
    printSignatures(out, store, *calibration);
    return kDone;
  }

  static Json signaturesJson(const Store& store, CalibrationId id) {
    Json list = Json::array();
    for (const Signature& signature : signatures(store, id)) {
      const LifeEvent& event = signature.event;
      list.push_back({{"meaning", text(event.act)},
                      {"person", event.person},
                      {"name", signature.name},
                      {"at", formatMoment(event.atUtc) + "Z"},
                      {"reason", event.reason},
                      {"correction", event.correction == 0 ? Json(nullptr) : Json(event.correction)},
                      {"key", signature.keyMark}});
    }
    return list;
  }

  static void printSignatures(std::ostream& out, const Store& store, const Calibration& calibration) {
    if (calibration.corrects != 0) {
      out << fmt::format("\nIt corrects calibration {}: {}.\n", calibration.corrects,
                         calibration.correctionReason);
    }
    Table table({{"what became of it"}, {"by"}, {"at (UTC)"}, {"reason"}, {"key"}});
    for (const Signature& signature : signatures(store, calibration.id)) {
      const LifeEvent& event = signature.event;
      table.add({event.correction == 0
                     ? std::string(text(event.act))
                     : fmt::format("{} by calibration {}", text(event.act), event.correction),
                 signature.name, formatMoment(event.atUtc), event.reason, signature.keyMark});
    }
    out << '\n';
    if (table.empty()) {
      out << "Nobody has signed it yet.\n";
    } else {
      table.print(out);
    }
  }

  static Json document(const Channel& channel, const SetupVersion* inForce, const std::vector<DueItem>& due,
                       const std::vector<CalibrationSummary>& calibrations) {
    Json setups = Json::array(), fittings = Json::array(), states = Json::array(), visits = Json::array(),
         accepted = Json::array();
    for (const SetupVersion& setup : channel.setups) {
      setups.push_back({{"version", setup.version},
                        {"in_force_from", formatMoment(setup.inForceFrom)},
                        {"kind", kindName(setup.setup)},
                        {"what", describe(setup.setup)},
                        {"remark", setup.remark},
                        {"in_force", &setup == inForce}});
    }
    for (const Fitting& fitting : channel.fittings) {
      fittings.push_back({{"sensor", fitting.sensor},
                          {"from", formatMoment(fitting.from)},
                          {"until", fitting.until ? Json(formatMoment(*fitting.until)) : Json(nullptr)}});
    }
    for (const DueItem& item : due) {
      states.push_back({{"subject", text(item.subject)},
                        {"state", text(item.due.state)},
                        {"due_on", orNull(item.due.dueOn)},
                        {"proven_on", orNull(item.due.provenOn)},
                        {"reason", item.reason}});
    }
    for (const CalibrationSummary& visit : calibrations) {
      visits.push_back({{"calibration", visit.id},
                        {"performed", formatMoment(visit.performed)},
                        {"subject", text(visit.subject)},
                        {"setup", visit.setupVersion},
                        {"sensor", visit.sensor},
                        {"person", visit.person},
                        {"adjusted", visit.adjusted},
                        {"as_found", text(visit.foundVerdict)},
                        {"as_left", text(visit.leftVerdict)},
                        {"state", text(visit.state)}});
    }
    for (const AcceptedInterval& interval : channel.acceptedIntervals) {
      accepted.push_back(
          {{"subject", text(interval.subject)},
           {"from", formatDate(interval.fromDay)},
           {"days", interval.days > 0 ? Json(interval.days) : Json(nullptr)},
           {"months", interval.months > 0 ? Json(interval.months) : Json(nullptr)},
           {"policy", interval.policy},
           {"proposed_days", interval.proposedDays ? Json(*interval.proposedDays) : Json(nullptr)},
           {"person", interval.person},
           {"reason", interval.reason},
           {"evidence", interval.evidence}});
    }
    return {{"channel", channel.tag}, {"title", channel.title},
            {"place", channel.place}, {"terminal", channel.terminal},
            {"setups", setups},       {"fittings", fittings},
            {"states", states},       {"accepted_intervals", accepted},
            {"calibrations", visits}};
  }

  static void print(const Surroundings& surroundings, const Channel& channel, const SetupVersion* inForce,
                    const std::vector<DueItem>& due, const std::vector<CalibrationSummary>& calibrations) {
    std::ostream& out = surroundings.out;
    out << fmt::format("{}  {}\n{}, terminal {}\n\n", channel.tag, channel.title, channel.place,
                       channel.terminal);
    Table setups({{"setup", Table::Align::right}, {"in force from"}, {"what"}, {"remark"}});
    for (const SetupVersion& setup : channel.setups) {
      setups.add({fmt::format("{}{}", &setup == inForce ? "now " : "", setup.version),
                  formatMoment(setup.inForceFrom), describe(setup.setup), setup.remark});
    }
    setups.print(out);
    if (!channel.fittings.empty()) {
      Table fittings({{"sensor"}, {"fitted"}, {"until"}});
      for (const Fitting& fitting : channel.fittings) {
        fittings.add({fitting.sensor, formatMoment(fitting.from),
                      fitting.until ? formatMoment(*fitting.until) : "still"});
      }
      out << '\n';
      fittings.print(out);
    }
    Table states({{"subject"}, {"state"}, {"due"}, {"why"}});
    for (const DueItem& item : due) {
      states.add({std::string(text(item.subject)), std::string(text(item.due.state)),
                  item.due.dueOn ? formatDate(*item.due.dueOn) : "", item.reason});
    }
    out << '\n';
    states.print(out);
    printAccepted(out, channel.acceptedIntervals);
    printCalibrations(out, calibrations);
  }

  static void printAccepted(std::ostream& out, const std::vector<AcceptedInterval>& intervals) {
    if (intervals.empty()) {
      return;
    }
    Table table({{"accepted interval"}, {"subject"}, {"from"}, {"by"}, {"reason"}, {"evidence"}});
    for (const AcceptedInterval& interval : intervals) {
      table.add({lengthText(fixedInterval(interval)), std::string(text(interval.subject)),
                 formatDate(interval.fromDay), interval.person, interval.reason, interval.evidence});
    }
    out << '\n';
    table.print(out);
  }

  static void printCalibrations(std::ostream& out, const std::vector<CalibrationSummary>& calibrations) {
    if (calibrations.empty()) {
      out << "\nNo calibration is recorded.\n";
      return;
    }
    Table visits({{"calibration", Table::Align::right},
                  {"performed"},
                  {"subject"},
                  {"setup", Table::Align::right},
                  {"sensor"},
                  {"person"},
                  {"as found"},
                  {"adjusted"},
                  {"as left"},
                  {"state"}});
    for (const CalibrationSummary& visit : calibrations) {
      visits.add({std::to_string(visit.id), formatMoment(visit.performed), std::string(text(visit.subject)),
                  std::to_string(visit.setupVersion), visit.sensor, visit.person,
                  std::string(text(visit.foundVerdict)), visit.adjusted ? "yes" : "",
                  std::string(text(visit.leftVerdict)), std::string(text(visit.state))});
    }
    out << '\n';
    visits.print(out);
  }

  std::string record_, tag_, on_;
  std::optional<CalibrationId> calibration_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> showCommand() {
  return std::make_unique<Show>();
}

}  // namespace spanwright
