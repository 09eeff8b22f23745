// SPDX-License-Identifier: GPL-3.0-or-later
//
// backup and restore: the same copy, made and checked the same way, in either direction.
#include "core/store/backup.h"

#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"

namespace spanwright {

namespace {

class CopyCommand : public Command {
 public:
  CopyCommand(std::string name, std::string description, std::string from, std::string to)
      : name_(std::move(name)),
        description_(std::move(description)),
        from_(std::move(from)),
        to_(std::move(to)) {}
  std::string name() const override { return name_; }
  std::string description() const override { return description_; }
  bool writes() const override { return true; }
  void declare(CLI::App& app) override {
    app.add_option(from_, source_, from_ == "RECORD" ? "the record file; it may be in use" : "the backup")
        ->required();
    app.add_option(to_, target_, "the file to make; it must not be there yet")->required();
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Progress bar = progressBar(surroundings, "Copying and checking");
    const RecordCopy copy = copyRecord(source_, target_, bar);
    const bool clean = copy.check.problems.empty();
    if (json_) {
      printJson(surroundings, {{"file", target_},
                               {"bytes", copy.bytes},
                               {"sha256", copy.sha256},
                               {"calibrations", copy.calibrations},
                               {"readings", copy.readings},
                               {"entries", copy.check.entries},
                               {"head", headText(copy.check.head)},
                               {"verified", clean},
                               {"problems", std::ssize(copy.check.problems)}});
    } else {
      surroundings.out << fmt::format(
          "{}: {} calibrations, {} readings, {} bytes.\nThe journal ends at {}\nSHA-256 of the file: "
          "{}\n{}\n",
          target_, copy.calibrations, copy.readings, copy.bytes, headText(copy.check.head), copy.sha256,
          clean ? "Read back and recomputed: nothing is amiss."
                : fmt::format(
                      "It was copied as it is, and {} things in it are not as its journal says; see verify.",
                      copy.check.problems.size()));
    }
    return clean ? kDone : kFound;
  }

 private:
  std::string name_, description_, from_, to_, source_, target_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> backupCommand() {
  return std::make_unique<CopyCommand>("backup", "make a checked copy of a record while it is in use",
                                       "RECORD", "FILE");
}
std::unique_ptr<Command> restoreCommand() {
  return std::make_unique<CopyCommand>("restore", "make a record again from a backup, checked", "BACKUP",
                                       "RECORD");
}

}  // namespace spanwright
