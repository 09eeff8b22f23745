// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "core/certificate/certificate_data.h"
#include "core/record/problem.h"
#include "core/store/store.h"
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
    std::vector<JournalHead> known;
    for (const std::string& text : heads_) {
      const auto head = parseHead(text);
      if (!head) {
        throw InputError(fmt::format("\"{}\" is no head of a journal", text),
                         "write the number of the entry, a colon and its hash of 64 digits");
      }
      known.push_back(*head);
    }
    HandedOutCertificate held;
    if (!certificate_.empty()) {
      held = readCertificateFile(certificate_, kCertificateDataName);
      known.push_back(headOfCertificate(held.data, certificate_));
    }
    const Progress bar = progressBar(surroundings, "Checking");
    RecordCheck check = verifyRecord(record_, known, bar);
    if (!certificate_.empty()) {
      compare(held, check);
    }
    json_ ? printJson(surroundings, document(check)) : print(surroundings.out, check);
    return check.problems.empty() ? kDone : kFound;
  }

 private:
  /// What is wrong with the certificate goes to what is wrong with the record: the two do not agree.
  void compare(const HandedOutCertificate& held, RecordCheck& check) const {
    try {
      const Store store = Store::open(record_, Store::Mode::readOnly);
      HandedOutCheck handedOut = checkHandedOut(store, held.data);
      check.notes.insert(check.notes.end(), handedOut.notes.begin(), handedOut.notes.end());
      const std::int64_t entry = known(held).entry;
      for (std::string& what : handedOut.problems) {
        check.problems.push_back({entry, std::move(what)});
      }
      comparePrint(held, handedOut, check);
    } catch (const StorageError& damaged) {
      check.problems.push_back({0, fmt::format("the certificate could not be compared: {}", damaged.what())});
    } catch (const InputError& gone) {
      check.problems.push_back({0, fmt::format("the certificate could not be compared: {}", gone.what())});
    }
  }

  JournalHead known(const HandedOutCertificate& held) const {
    return headOfCertificate(held.data, certificate_);
  }

  void comparePrint([[maybe_unused]] const HandedOutCertificate& held,
                    [[maybe_unused]] const HandedOutCheck& handedOut,
                    [[maybe_unused]] RecordCheck& check) const {
    if (held.pages == 0 || !handedOut.certificate) {
      return;
    }
#ifdef SPANWRIGHT_WITH_GUI
    for (const std::string& difference : printDifferences(held, *handedOut.certificate)) {
      check.problems.push_back(
          {known(held).entry, "what is printed is not what the record says: " + difference});
    }
#else
    check.notes.push_back(
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
