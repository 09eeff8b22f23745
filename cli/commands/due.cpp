// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <map>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/store/store.h"
#include "core/tasks/plan.h"
#include "core/tasks/status.h"

namespace spanwright {

namespace {

class DueCommand : public Command {
 public:
  std::string name() const override { return "due"; }
  std::string description() const override { return "what is due, most pressing first"; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--on", on_, "as of this day (default: today)");
    app.add_option("--within", within_, "only what is due within so many days, or is unproven")
        ->check(CLI::NonNegativeNumber);
    app.add_option("--ics", ics_, "also write the due days as a calendar (iCalendar)");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Date day = dayOf(on_, surroundings);
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    std::vector<DueItem> items = dueList(store, day);
    if (within_ >= 0) {
      const Date last = day + boost::gregorian::days(within_);
      std::erase_if(items, [&](const DueItem& item) { return item.due.dueOn && *item.due.dueOn > last; });
    }
    if (!ics_.empty()) {
      const Register& site = store.site();
      writeWhole(ics_, calendarText(dueEvents(items, site), site.site.name + ": due calibrations",
                                    surroundings.clock.utcNow()));
    }
    json_ ? printItemsJson(surroundings, items) : printItems(surroundings, items, day);
    return kDone;
  }

 private:
  static void printItemsJson(const Surroundings& surroundings, const std::vector<DueItem>& items) {
    Json list = Json::array();
    for (const DueItem& item : items) {
      list.push_back({{"channel", item.channel},
                      {"place", item.place},
                      {"subject", text(item.subject)},
                      {"state", text(item.due.state)},
                      {"due_on", orNull(item.due.dueOn)},
                      {"proven_on", orNull(item.due.provenOn)},
                      {"interval_days", item.intervalDays},
                      {"reason", item.reason}});
    }
    printJson(surroundings, list);
  }

  static void printItems(const Surroundings& surroundings, const std::vector<DueItem>& items, Date day) {
    Table table({{"channel"}, {"subject"}, {"state"}, {"due"}, {"place"}, {"why"}});
    std::map<DueState, int> counts;
    for (const DueItem& item : items) {
      ++counts[item.due.state];
      table.add({item.channel, std::string(text(item.subject)), std::string(text(item.due.state)),
                 item.due.dueOn ? formatDate(*item.due.dueOn) : "", item.place, item.reason});
    }
    if (items.empty()) {
      surroundings.out << fmt::format("Nothing is due as of {}.\n", formatDate(day));
      return;
    }
    table.print(surroundings.out);
    surroundings.out << fmt::format("As of {}:", formatDate(day));
    const char* separator = " ";
    for (const auto& [state, count] : counts) {
      surroundings.out << fmt::format("{}{} {}", separator, count, text(state));
      separator = ", ";
    }
    surroundings.out << ".\n";
  }

  std::string record_, on_, ics_;
  int within_ = -1;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> dueCommand() {
  return std::make_unique<DueCommand>();
}

}  // namespace spanwright
