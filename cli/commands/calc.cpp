// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/calc/calc.h"

#include "cli/commands/commands.h"

namespace spanwright {

namespace {

class Calc : public Command {
 public:
  std::string name() const override { return "calc"; }
  std::string description() const override { return "the bench calculator; needs no record"; }
  void declare(CLI::App& app) override {
    app.require_subcommand(1);
    for (const auto& calculation : calculations_) {
      CLI::App* subcommand = app.add_subcommand(calculation->name(), calculation->description());
      subcommand->add_flag("--json", json_, "print one JSON document");
      calculation->declare(*subcommand);
      subcommands_.push_back(subcommand);
    }
  }
  int execute(const Surroundings& surroundings) override {
    for (std::size_t i = 0; i < calculations_.size(); ++i) {
      if (subcommands_[i]->parsed()) {
        return calculations_[i]->execute(surroundings, json_);
      }
    }
    return kUsage;
  }

 private:
  std::vector<std::unique_ptr<Calculation>> calculations_ = allCalculations();
  std::vector<CLI::App*> subcommands_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> calcCommand() {
  return std::make_unique<Calc>();
}

}  // namespace spanwright
