// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "core/store/store.h"
#include "importers/site_file.h"

namespace spanwright {

namespace {

class NewRecord : public Command {
 public:
  std::string name() const override { return "new"; }
  std::string description() const override { return "make a record from a site description"; }
  bool writes() const override { return true; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file to make")->required();
    app.add_option("--site", site_, "the site description (TOML)")->required();
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Register site = readSiteFile(site_);
    const Store store = Store::create(record_, site, surroundings.clock);
    std::size_t setups = 0;
    for (const Channel& channel : site.channels) {
      setups += channel.setups.size();
    }
    if (json_) {
      printJson(surroundings, {{"channels", site.channels.size()},
                               {"setups", setups},
                               {"sensors", site.sensors.size()},
                               {"standards", site.standards.size()},
                               {"people", site.people.size()}});
    } else {
      surroundings.out << fmt::format(
          "Made {} for {}: {} channels, {} setups, {} sensors, {} standards, {} people.\n", record_,
          site.site.name, site.channels.size(), setups, site.sensors.size(), site.standards.size(),
          site.people.size());
    }
    return kDone;
  }

 private:
  std::string record_, site_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> newRecordCommand() {
  return std::make_unique<NewRecord>();
}

}  // namespace spanwright
