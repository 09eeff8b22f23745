// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/store/store.h"

namespace spanwright {

namespace {

class JournalCommand : public Command {
 public:
  std::string name() const override { return "journal"; }
  std::string description() const override { return "what was done to the record, when and by whom"; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--from", from_, "first entry")->check(CLI::PositiveNumber);
    app.add_option("--last", last_, "only the last so many entries")->check(CLI::PositiveNumber);
    app.add_option("--person", person_, "only what this person did (login)");
    app.add_option("--act", act_, "only this kind of act, for instance signed or \"passphrase wrong\"");
    app.add_flag("--head", head_,
                 "only where the journal ends, to be kept elsewhere and given to verify later");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    if (head_) {
      const JournalHead head = store.journalHead();
      json_ ? printJson(surroundings,
                        {{"entry", head.entry}, {"hash", hex(head.hash)}, {"head", headText(head)}})
            : void(surroundings.out << headText(head) << '\n');
      return kDone;
    }
    std::deque<JournalEntry> entries;
    store.forEachEntry(from_, [&](const JournalEntry& entry) {
      if ((person_.empty() || entry.person == person_) && (act_.empty() || entry.act == act_)) {
        entries.push_back(entry);
        if (last_ > 0 && std::ssize(entries) > last_) {
          entries.pop_front();
        }
      }
      return true;
    });
    json_ ? printJson(surroundings, document(entries)) : print(surroundings.out, entries);
    return kDone;
  }

 private:
  static Json document(const std::deque<JournalEntry>& entries) {
    Json list = Json::array();
    for (const JournalEntry& e : entries) {
      list.push_back({{"entry", e.entry},
                      {"at", formatMoment(e.atUtc) + "Z"},
                      {"person", e.person},
                      {"act", e.act},
                      {"unit", e.unit},
                      {"key", e.unitKey},
                      {"detail", e.detail},
                      {"digest", e.digest ? Json(hex(*e.digest)) : Json(nullptr)},
                      {"hash", hex(e.hash)}});
    }
    return list;
  }

  static void print(std::ostream& out, const std::deque<JournalEntry>& entries) {
    constexpr std::size_t kMark = 12;  // digits of a hash that tell entries apart on paper
    Table table(
        {{"entry", Table::Align::right}, {"at (UTC)"}, {"person"}, {"act"}, {"what"}, {"detail"}, {"hash"}});
    for (const JournalEntry& e : entries) {
      table.add({std::to_string(e.entry), formatMoment(e.atUtc), e.person, e.act,
                 e.unitKey.empty() ? e.unit : fmt::format("{} {}", e.unit, e.unitKey), e.detail,
                 hex(e.hash).substr(0, kMark)});
    }
    table.print(out);
  }

  std::string record_, person_, act_;
  std::int64_t from_ = 1, last_ = 0;
  bool head_ = false, json_ = false;
};

}  // namespace

std::unique_ptr<Command> journalCommand() {
  return std::make_unique<JournalCommand>();
}

}  // namespace spanwright
