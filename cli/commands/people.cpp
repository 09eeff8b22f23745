// SPDX-License-Identifier: GPL-3.0-or-later
//
// people and passphrase: who may sign, and with what.
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/passphrase.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/tasks/signing.h"

namespace spanwright {

namespace {

class People : public Command {
 public:
  std::string name() const override { return "people"; }
  std::string description() const override {
    return "who works here, with roles and keys; or end somebody's time here";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    auto* leaves = app.add_option("--leaves", leaves_, "who leaves (login); what they signed stays valid");
    app.add_option("--on", on_, "from which day (today)")->needs(leaves);
    auto* by = app.add_option("--by", by_, "the administrator who enters it")->needs(leaves);
    leaves->needs(by);
    app.add_option("--passphrase-file", file_, "the administrator's passphrase, in a file");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const bool changes = !leaves_.empty();
    Store store = openRecord(record_, changes ? Store::Mode::readWrite : Store::Mode::readOnly, surroundings);
    if (changes) {
      setPersonLeft(store, leaves_, dayOf(on_, surroundings), signerFrom(store, by_, file_));
    }
    json_ ? printJson(surroundings, document(store)) : print(surroundings.out, store);
    return kDone;
  }

 private:
  static std::string roles(const Person& person) {
    std::string all;
    for (const Role role : person.roles) {
      all += (all.empty() ? "" : ", ") + std::string(text(role));
    }
    return all;
  }

  static Json document(const Store& store) {
    Json list = Json::array();
    for (const Person& person : store.site().people) {
      Json names = Json::array();
      for (const Role role : person.roles) {
        names.push_back(text(role));
      }
      const auto key = store.personKey(person.login);
      list.push_back({{"person", person.login},
                      {"name", person.name},
                      {"roles", names},
                      {"left_on", orNull(person.leftOn)},
                      {"key", key ? Json(keyMark(key->publicKey)) : Json(nullptr)},
                      {"must_change", key && key->lock.mustChange},
                      {"wrong_tries", store.passphraseTries(person.login).wrong}});
    }
    return list;
  }

  static void print(std::ostream& out, const Store& store) {
    Table table(
        {{"person"}, {"name"}, {"roles"}, {"key"}, {"wrong passphrases", Table::Align::right}, {"left on"}});
    for (const Person& person : store.site().people) {
      const auto key = store.personKey(person.login);
      const int wrong = store.passphraseTries(person.login).wrong;
      table.add({person.login, person.name, roles(person),
                 !key ? "none yet" : keyMark(key->publicKey) + (key->lock.mustChange ? ", must change" : ""),
                 wrong == 0 ? "" : std::to_string(wrong), person.leftOn ? formatDate(*person.leftOn) : ""});
    }
    table.print(out);
  }

  std::string record_, leaves_, on_, by_, file_;
  bool json_ = false;
};

class Passphrase : public Command {
 public:
  std::string name() const override { return "passphrase"; }
  std::string description() const override {
    return "choose or change a passphrase, or give somebody a new one";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--person", person_, "whose passphrase (login)")->required();
    app.add_option(
        "--reset-by", administrator_,
        "an administrator, who gives the person a new key with a passphrase to be changed at once");
    app.add_option("--passphrase-file", file_,
                   "the passphrase in force (the administrator's for --reset-by), in a file");
    app.add_option("--new-passphrase-file", newFile_, "the new one, in a file");
  }
  int execute(const Surroundings& surroundings) override {
    Store store = openRecord(record_, Store::Mode::readWrite, surroundings);
    if (!administrator_.empty()) {
      const Signer by = signerFrom(store, administrator_, file_);
      resetPassphrase(store, person_, newOne(), by);
      surroundings.out << fmt::format("{} has a new key; its passphrase must be changed before it signs.\n",
                                      person_);
      return kDone;
    }
    const bool first = !store.personKey(person_);
    const std::string old =
        first ? "" : passphraseFrom(file_, fmt::format("Passphrase of {}: ", person_), false);
    changePassphrase(store, {person_, old}, newOne());
    surroundings.out << fmt::format("The passphrase of {} is {}.\n", person_, first ? "set" : "changed");
    return kDone;
  }

 private:
  std::string newOne() const {
    return passphraseFrom(
        newFile_, fmt::format("New passphrase of {}, at least {} characters: ", person_, kShortestPassphrase),
        true);
  }
  std::string record_, person_, administrator_, file_, newFile_;
};

}  // namespace

std::unique_ptr<Command> peopleCommand() {
  return std::make_unique<People>();
}
std::unique_ptr<Command> passphraseCommand() {
  return std::make_unique<Passphrase>();
}

}  // namespace spanwright
