// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/store/store.h"
#include "core/tasks/rounds.h"

namespace spanwright {

namespace {

class Rounds : public Command {
 public:
  std::string name() const override { return "rounds"; }
  std::string description() const override { return "lists of channels to visit, with what is done of them"; }
  bool writes() const override { return close_ > 0; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--close", close_, "close the round of this number")->check(CLI::PositiveNumber);
    app.add_flag("--all", all_, "closed ones too");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    Store store =
        openRecord(record_, close_ > 0 ? Store::Mode::readWrite : Store::Mode::readOnly, surroundings);
    if (close_ > 0) {
      store.closeRound(close_);
    }
    Json list = Json::array();
    for (const Round& round : store.rounds()) {
      if (round.closedUtc && !all_ && round.id != close_) {
        continue;
      }
      const auto stops = roundProgress(store, round);
      json_ ? list.push_back(document(round, stops)) : print(surroundings.out, round, stops);
    }
    if (json_) {
      printJson(surroundings, list);
    }
    return kDone;
  }

 private:
  static Json document(const Round& round, const std::vector<StopProgress>& stops) {
    Json channels = Json::array();
    for (const StopProgress& stop : stops) {
      channels.push_back({{"channel", stop.stop.channel},
                          {"subject", text(stop.stop.subject)},
                          {"place", stop.place},
                          {"calibration", stop.calibration == 0 ? Json(nullptr) : Json(stop.calibration)}});
    }
    return {{"round", round.id},
            {"name", round.name},
            {"reason", round.reason},
            {"made", formatMoment(round.madeUtc) + "Z"},
            {"closed", round.closedUtc ? Json(formatMoment(*round.closedUtc) + "Z") : Json(nullptr)},
            {"stops", channels}};
  }

  static void print(std::ostream& out, const Round& round, const std::vector<StopProgress>& stops) {
    std::size_t done = 0;
    Table table({{"channel"}, {"subject"}, {"place"}, {"visited"}});
    for (const StopProgress& stop : stops) {
      done += stop.calibration != 0 ? 1 : 0;
      table.add({stop.stop.channel, std::string(text(stop.stop.subject)), stop.place,
                 stop.calibration == 0 ? "" : fmt::format("calibration {}", stop.calibration)});
    }
    out << fmt::format("Round {}: {} ({} of {} visited{})\n{}\n", round.id, round.name, done, stops.size(),
                       round.closedUtc ? ", closed" : "", round.reason);
    table.print(out);
    out << '\n';
  }

  std::string record_;
  std::int64_t close_ = 0;
  bool all_ = false, json_ = false;
};

}  // namespace

std::unique_ptr<Command> roundsCommand() {
  return std::make_unique<Rounds>();
}

}  // namespace spanwright
