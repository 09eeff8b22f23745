// SPDX-License-Identifier: GPL-3.0-or-later
//
// sign, send-back, withdraw: three acts on a calibration, each under a passphrase.
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/passphrase.h"
#include "core/store/store.h"
#include "core/tasks/signing.h"

namespace spanwright {

namespace {

class LifeCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("CALIBRATION", calibration_, "number of the calibration (see \"spanwright show\")")
        ->required();
    app.add_option("--person", person_, "who signs (login)")->required();
    declareAct(app);
    app.add_option("--passphrase-file", file_, "read the passphrase from the first line of this file");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    Store store = openRecord(record_, Store::Mode::readWrite, surroundings);
    const Signer signer = signerFrom(store, person_, file_);
    const LifeEvent event = signCalibration(store, calibration_, act(), signer, reason_);
    const std::string digest = hexOf(event.digest);
    const std::string key = keyMark(store.publicKey(person_, event.key));
    if (json_) {
      printJson(surroundings, {{"calibration", calibration_},
                               {"meaning", text(event.act)},
                               {"person", event.person},
                               {"at", formatMoment(event.atUtc) + "Z"},
                               {"reason", event.reason},
                               {"state", text(store.state(calibration_))},
                               {"key", key},
                               {"digest", digest},
                               {"journal_entry", store.journalHead().entry}});
      return kDone;
    }
    surroundings.out << fmt::format(
        "Calibration {} is {}: signed by {} at {} UTC with key {}, under the digest {}.\n", calibration_,
        text(event.act), event.person, formatMoment(event.atUtc), key, digest);
    return kDone;
  }

 protected:
  virtual void declareAct(CLI::App& app) = 0;
  virtual LifeAct act() const = 0;
  void declareReason(CLI::App& app) { app.add_option("--reason", reason_, "why")->required(); }

  std::string reason_;

 private:
  std::string record_, person_, file_;
  CalibrationId calibration_ = 0;
  bool json_ = false;
};

class Sign : public LifeCommand {
 public:
  std::string name() const override { return "sign"; }
  std::string description() const override { return "sign a calibration as performed, reviewed or approved"; }

 private:
  void declareAct(CLI::App& app) override {
    app.add_option("--meaning", meaning_, "performed, reviewed or approved")
        ->required()
        ->check(CLI::IsMember({"performed", "reviewed", "approved"}));
    app.add_option("--remark", reason_, "a remark, signed with it");
  }
  LifeAct act() const override { return *parseLifeAct(meaning_); }
  std::string meaning_;
};

class SendBack : public LifeCommand {
 public:
  std::string name() const override { return "send-back"; }
  std::string description() const override {
    return "send a calibration back to its technician, with a reason";
  }

 private:
  void declareAct(CLI::App& app) override { declareReason(app); }
  LifeAct act() const override { return LifeAct::sentBack; }
};

class Withdraw : public LifeCommand {
 public:
  std::string name() const override { return "withdraw"; }
  std::string description() const override {
    return "withdraw a calibration, with a reason; it stays visible";
  }

 private:
  void declareAct(CLI::App& app) override { declareReason(app); }
  LifeAct act() const override { return LifeAct::withdrawn; }
};

}  // namespace

std::unique_ptr<Command> signCommand() {
  return std::make_unique<Sign>();
}
std::unique_ptr<Command> sendBackCommand() {
  return std::make_unique<SendBack>();
}
std::unique_ptr<Command> withdrawCommand() {
  return std::make_unique<Withdraw>();
}

}  // namespace spanwright
