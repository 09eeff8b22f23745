// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>
#include <utility>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "core/certificate/certificate_data.h"
#include "core/record/problem.h"
#include "core/store/verify.h"
#include "core/tasks/handed_out.h"
#include "importers/certificate_file.h"
#ifdef SPANWRIGHT_WITH_GUI
#include "cli/drawing.h"
#endif

namespace spanwright {

namespace {

class Verify : public Command {
 public:
  std::string name() const override { return "verify"; }
  std::string description() const override {
    return "recompute the journal from the rows and check every signature";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option(
        "--head", heads_,
        "an entry and hash kept from before, as \"journal --head\" prints them; may be given again");
    app.add_option("--certificate", certificate_,
                   "a certificate that was handed out (PDF or its data), to compare with the record");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const std::vector<JournalHead> known = headsOf(heads_);
    const Progress bar = progressBar(surroundings, "Checking");
    RecordCheck check;
    if (certificate_.empty()) {
      check = verifyRecord(record_, known, bar);
    } else {
      const HandedOutCertificate held = readCertificateFile(certificate_, kCertificateDataName);
      RecordAndCertificate both = verifyWithCertificate(record_, known, held.data, certificate_, bar);
      comparePrint(held, both);
      check = std::move(both.record);
    }
    json_ ? printJson(surroundings, document(check)) : print(surroundings.out, check);
    return check.problems.empty() ? kDone : kFound;
  }

 private:
  static void comparePrint(const HandedOutCertificate& held, RecordAndCertificate& both) {
    if (held.pages == 0 || !both.certificate) {
      return;
    }
#ifdef SPANWRIGHT_WITH_GUI
    addPrintDifferences(both, printDifferences(held, *both.certificate));
#else
    both.record.notes.push_back(
        "this program was built without drawing, so only the data inside the PDF was compared");
#endif
  }

  static Json document(const RecordCheck& check) {
    Json problems = Json::array();
    for (const RecordProblem& problem : check.problems) {
      problems.push_back(
          {{"entry", problem.entry == 0 ? Json(nullptr) : Json(problem.entry)}, {"what", problem.what}});
    }
    return {{"entries", check.entries}, {"head", headText(check.head)},   {"units", check.units},
            {"rows", check.rows},       {"signatures", check.signatures}, {"problems", problems},
            {"notes", check.notes}};
  }

  static void print(std::ostream& out, const RecordCheck& check) {
    out << fmt::format(
        "{} entries of the journal, {} things with {} rows and {} signatures checked.\nThe journal ends at "
        "{}\n",
        check.entries, check.units, check.rows, check.signatures, headText(check.head));
    for (const std::string& note : check.notes) {
      out << fmt::format("Note: {}.\n", note);
    }
    for (const RecordProblem& problem : check.problems) {
      out << (problem.entry == 0 ? fmt::format("Found: {}.\n", problem.what)
                                 : fmt::format("Found, entry {}: {}.\n", problem.entry, problem.what));
    }
    out << (check.problems.empty()
                ? "Nothing was changed behind the journal's back.\n"
                : fmt::format("{} things are not as the journal says; do not rely on this record "
                              "before a reviewer has looked at them.\n",
                              check.problems.size()));
  }

  std::string record_, certificate_;
  std::vector<std::string> heads_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> verifyCommand() {
  return std::make_unique<Verify>();
}

}  // namespace spanwright
