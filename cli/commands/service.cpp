// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/passphrase.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/tasks/signing.h"

namespace spanwright {

namespace {

class Service : public Command {
 public:
  std::string name() const override { return "service"; }
  std::string description() const override {
    return "take a standard out of service, back into it, or allow its use without a valid certificate";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("STANDARD", event_.standard, "serial number of the standard")->required();
    auto* act = app.add_option_group("act", "exactly one of");
    act->add_flag("--out", out_, "out of service from the day on");
    act->add_flag("--back", back_, "back in service from the day on (a reviewer)");
    act->add_flag("--allow", allow_, "may be used on these days without a valid certificate (a reviewer)");
    act->require_option(1);
    app.add_option("--from", from_, "the day (today)");
    app.add_option("--until", until_, "last day of an allowance");
    app.add_option("--reason", event_.reason, "why")->required();
    app.add_option("--person", person_, "who decides (login)")->required();
    app.add_option("--passphrase-file", file_, "read the passphrase from the first line of this file");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    event_.act = out_    ? StandardAct::outOfService
                 : back_ ? StandardAct::backInService
                         : StandardAct::useAllowed;
    event_.firstDay = dayOf(from_, surroundings);
    if (!until_.empty()) {
      if (!allow_) {
        throw InputError("--until belongs to --allow", "leave it out");
      }
      event_.lastDay = dayOf(until_, surroundings);
    }
    Store store = openRecord(record_, Store::Mode::readWrite, surroundings);
    const StandardEvent made = decideOnStandard(store, event_, signerFrom(store, person_, file_));
    if (json_) {
      printJson(surroundings,
                {{"standard", made.standard},
                 {"act", text(made.act)},
                 {"from", formatDate(made.firstDay)},
                 {"until", made.lastDay.is_special() ? Json(nullptr) : Json(formatDate(made.lastDay))},
                 {"person", made.person},
                 {"reason", made.reason}});
    } else {
      surroundings.out << fmt::format(
          "Standard {}: {} from {}{}, signed by {}.\n", made.standard, text(made.act),
          formatDate(made.firstDay),
          made.lastDay.is_special() ? "" : fmt::format(" to {}", formatDate(made.lastDay)), made.person);
    }
    return kDone;
  }

 private:
  std::string record_, person_, file_, from_, until_;
  StandardEvent event_;
  bool out_ = false, back_ = false, allow_ = false, json_ = false;
};

}  // namespace

std::unique_ptr<Command> serviceCommand() {
  return std::make_unique<Service>();
}

}  // namespace spanwright
