// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/visit_output.h"
#include "core/store/store.h"
#include "core/tasks/visit.h"
#include "importers/visit_file.h"

namespace spanwright {

namespace {

class RecordVisit : public Command {
 public:
  std::string name() const override { return "record"; }
  std::string description() const override { return "enter one visit from a file"; }
  bool writes() const override { return true; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("VISIT", visit_, "the visit (TOML)")->required();
    app.add_option("--person", person_, "who did it, instead of the person named in the file");
    auto* corrects =
        app.add_option("--corrects", corrects_, "number of the calibration that this one takes the place of");
    auto* reason = app.add_option("--reason", reason_, "why it is corrected");
    corrects->needs(reason);
    reason->needs(corrects);
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    ProposedVisit visit = readVisitFile(visit_);
    if (!person_.empty()) {
      visit.person = person_;
    }
    if (corrects_ > 0) {
      visit.corrects = corrects_;
      visit.correctionReason = reason_;
    }
    Store store = openRecord(record_, Store::Mode::readWrite, surroundings);
    const Calibration stored = enterVisit(store, visit, surroundings.clock.localNow());
    json_ ? printJson(surroundings, visitJson(store.site(), stored))
          : printVisit(surroundings, store.site(), stored);
    return kDone;
  }

 private:
  static void printVisit(const Surroundings& surroundings, const Register& site, const Calibration& stored) {
    printPoints(surroundings.out, site, stored);
    surroundings.out << fmt::format(
        "Recorded calibration {} of {} ({}), setup {}: as found {}, as left {}.\n", stored.id, stored.channel,
        text(stored.subject), stored.setupVersion, text(stored.foundVerdict), text(stored.leftVerdict));
    if (stored.corrects != 0) {
      surroundings.out << fmt::format("It corrects calibration {}: {}.\n", stored.corrects,
                                      stored.correctionReason);
    }
    printAdvice(surroundings.out, site, stored);
  }

  std::string record_, visit_, person_, reason_;
  CalibrationId corrects_ = 0;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> recordVisitCommand() {
  return std::make_unique<RecordVisit>();
}

}  // namespace spanwright
