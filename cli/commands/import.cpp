// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "core/store/store.h"
#include "core/tasks/history_import.h"
#include "importers/csv_history.h"
#include "importers/csv_rejects.h"

namespace spanwright {

namespace {

class Import : public Command {
 public:
  std::string name() const override { return "import"; }
  std::string description() const override { return "read calibration histories from CSV files"; }
  bool writes() const override { return true; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("DATA", data_, "the CSV files")->required()->expected(1, -1);
    app.add_option("--map", map_, "how the columns are to be read (TOML)")->required();
    app.add_flag("--dry-run", dryRun_, "say what would happen, write nothing");
    auto* keep = app.add_flag("--keep-good", keepGood_, "take the good visits although others are refused");
    app.add_option("--rejects", rejects_, "with --keep-good: write what was refused to this CSV file")
        ->needs(keep);
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const auto mapping = readCsvMapping(map_);
    Store store = openRecord(record_, dryRun_ ? Store::Mode::readOnly : Store::Mode::readWrite, surroundings);
    HistoryImport history(store, surroundings.clock.localNow(), decimalSign(*mapping));
    CsvRejects rejects;
    if (!rejects_.empty()) {
      history.onRejection([&rejects](const Rejection& rejection) { rejects.add(rejection); });
    }
    for (const std::string& file : data_) {
      readCsvHistory(file, *mapping, store.site(), history, progressBar(surroundings, "reading"));
    }
    const ImportOutcome outcome = history.finish(keepGood_, dryRun_, progressBar(surroundings, "checking"));
    if (!rejects.empty()) {
      rejects.write(rejects_, data_, *mapping);
    }
    json_ ? printOutcomeJson(surroundings, outcome) : printOutcome(surroundings, outcome);
    if (outcome.mistakes == 0) {
      return kDone;
    }
    return keepGood_ ? kFound : kRefused;
  }

 private:
  static void printOutcomeJson(const Surroundings& surroundings, const ImportOutcome& outcome) {
    Json rejected = Json::array();
    for (const Rejection& rejection : outcome.rejected) {
      rejected.push_back({{"file", rejection.where.file},
                          {"line", rejection.where.line},
                          {"column", rejection.where.column},
                          {"heading", rejection.where.columnName},
                          {"reason", rejection.reason}});
    }
    printJson(surroundings, {{"calibrations", outcome.calibrations},
                             {"readings", outcome.readings},
                             {"already_known", outcome.alreadyKnown},
                             {"mistakes", outcome.mistakes},
                             {"rejected_lines", outcome.rejectedLines},
                             {"rejected", rejected}});
  }

  void printOutcome(const Surroundings& surroundings, const ImportOutcome& outcome) const {
    // A wrong mapping makes every row a mistake; the first ones tell.
    constexpr std::size_t kShown = 40;
    const std::size_t shown = std::min(kShown, outcome.rejected.size());
    for (std::size_t i = 0; i < shown; ++i) {
      surroundings.err << sentence(Problem{outcome.rejected[i].where, outcome.rejected[i].reason, ""})
                       << '\n';
    }
    if (outcome.mistakes > static_cast<std::int64_t>(shown)) {
      surroundings.err << fmt::format("... and {} more.\n",
                                      outcome.mistakes - static_cast<std::int64_t>(shown));
    }
    if (outcome.mistakes > 0 && !keepGood_) {
      surroundings.out << fmt::format(
          "{} mistakes in {} lines, so nothing was written; mend them, or give --keep-good to take the "
          "rest.\n",
          outcome.mistakes, outcome.rejectedLines);
      return;
    }
    surroundings.out << fmt::format("{}{} calibrations with {} readings; {} calibrations were already known",
                                    dryRun_ ? "Would take in " : "Took in ", outcome.calibrations,
                                    outcome.readings, outcome.alreadyKnown);
    if (outcome.mistakes > 0) {
      surroundings.out << fmt::format("; {} mistakes in {} lines were left out{}", outcome.mistakes,
                                      outcome.rejectedLines, rejects_.empty() ? "" : ", see " + rejects_);
    }
    surroundings.out << ".\n";
  }

  std::string record_, map_, rejects_;
  std::vector<std::string> data_;
  bool dryRun_ = false, keepGood_ = false, json_ = false;
};

}  // namespace

std::unique_ptr<Command> importCommand() {
  return std::make_unique<Import>();
}

}  // namespace spanwright
