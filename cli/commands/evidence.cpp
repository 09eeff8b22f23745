// SPDX-License-Identifier: GPL-3.0-or-later
//
// evidence and verify-bundle: what is handed to a reviewer, and its check.
#include "core/tasks/evidence.h"

#include <fmt/format.h>

#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "core/record/problem.h"
#include "core/tasks/bundle_check.h"
#ifdef SPANWRIGHT_WITH_GUI
#include "cli/drawing.h"
#include "gui/certificate/draw.h"
#endif

namespace spanwright {

namespace {

std::optional<Date> dayFrom(const char* option, const std::string& text) {
  if (text.empty()) {
    return std::nullopt;
  }
  const auto day = parseDate(text);
  if (!day) {
    throw CLI::ValidationError(option, fmt::format("\"{}\" is not a date; write it as 2026-03-01", text));
  }
  return day;
}

class Evidence : public Command {
 public:
  std::string name() const override { return "evidence"; }
  std::string description() const override {
    return "a bundle for a reviewer: calibrations with all they rest on, verifiable alone";
  }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--out", place_, "folder to make, or a zip when the name ends in .zip; not there yet")
        ->required();
    app.add_option("--channel", scope_.channel, "calibrations of this channel (tag)");
    app.add_option("--round", scope_.round, "what was done of this round")->check(CLI::PositiveNumber);
    app.add_option("--from", from_, "performed on this day or later");
    app.add_option("--until", until_, "performed on this day or before");
    app.add_flag("--json", json_, "print one JSON document");
    app.callback([this] {
      scope_.from = dayFrom("--from", from_);
      scope_.to = dayFrom("--until", until_);
      const bool others = !scope_.channel.empty() || scope_.from || scope_.to;
      if ((scope_.round != 0) == others) {
        throw CLI::ValidationError("evidence",
                                   "say what it is for: --channel, --from and --until, or --round alone");
      }
    });
  }
  int execute(const Surroundings& surroundings) override {
    Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    const EvidenceMade made =
        makeEvidence(store, scope_, place_, drawing(), progressBar(surroundings, "Gathering"));
    json_ ? printJson(surroundings, document(made)) : print(surroundings.out, made);
    return kDone;
  }

 private:
#ifdef SPANWRIGHT_WITH_GUI
  static constexpr bool kDraws = true;
  static DrawCertificate drawing() {
    return [session = std::make_shared<DrawingSession>()](const Certificate& certificate,
                                                          const std::filesystem::path& file) {
      writeCertificatePdf(certificate, QString::fromStdString(file.string()));
    };
  }
#else
  static constexpr bool kDraws = false;
  static DrawCertificate drawing() {
    return {};
  }
#endif

  Json document(const EvidenceMade& made) const {
    return {{"bundle", place_},
            {"scope", describe(scope_)},
            {"calibrations", made.calibrations},
            {"also", made.also},
            {"certificates", made.certificates},
            {"certificates_drawn", kDraws},
            {"not_issued", made.notIssued},
            {"attachments", made.attachments},
            {"units", made.units},
            {"entries", made.entries},
            {"entries_shown", made.entriesShown},
            {"gaps", made.gaps},
            {"files", made.files},
            {"bytes", made.bytes},
            {"head", headText(made.head)},
            {"sums_sha256", hex(made.sums)}};
  }

  void print(std::ostream& out, const EvidenceMade& made) const {
    out << fmt::format("{}: {}.\n{} calibrations", place_, describe(scope_), made.calibrations.size());
    out << (made.also.empty()
                ? ""
                : fmt::format(", {} more that they correct or that took their place", made.also.size()));
    out << fmt::format(
        "; {} certificates, {} attachments, {} parts of the record, {} of {} entries of the "
        "journal in full.\n",
        made.certificates, made.attachments, made.units, made.entriesShown, made.entries);
    if (!made.notIssued.empty()) {
      out << fmt::format("No certificate was issued for {}.\n", fmt::join(made.notIssued, ", "));
    }
    if (!kDraws) {
      out << "This program was built without drawing: certificates are in it as data, without PDFs.\n";
    }
    if (made.gaps > 0) {
      out << fmt::format("Traces found {} gaps; the summary names them.\n", made.gaps);
    }
    out << fmt::format(
        "{} files, {} bytes, read back and checked.\nThe journal ends at {}\nSHA-256 of SHA256SUMS, to be "
        "told "
        "to the reviewer by another way: {}\n",
        made.files, made.bytes, headText(made.head), hex(made.sums));
  }

  std::string record_, place_, from_, until_;
  EvidenceScope scope_;
  bool json_ = false;
};

class VerifyBundle : public Command {
 public:
  std::string name() const override { return "verify-bundle"; }
  std::string description() const override {
    return "check a bundle of evidence by itself: digests, journal, signatures, certificates";
  }
  void declare(CLI::App& app) override {
    app.add_option("BUNDLE", place_, "the folder or zip")->required();
    app.add_option(
        "--head", heads_,
        "an entry and hash of the journal known from elsewhere, as \"journal --head\" prints them; "
        "may be given again");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const std::vector<JournalHead> known = headsOf(heads_);
    const BundleCheck check = checkBundle(place_, known, progressBar(surroundings, "Checking"));
    json_ ? printJson(surroundings, document(check)) : print(surroundings.out, check);
    return check.problems.empty() ? kDone : kFound;
  }

 private:
  static Json document(const BundleCheck& check) {
    Json problems = Json::array();
    for (const BundleProblem& problem : check.problems) {
      problems.push_back({{"file", problem.file}, {"what", problem.what}});
    }
    return {{"site", check.site},
            {"scope", check.scope},
            {"files", check.files},
            {"units", check.units},
            {"rows", check.rows},
            {"entries", check.entries},
            {"entries_shown", check.entriesShown},
            {"signatures", check.signatures},
            {"certificates", check.certificates},
            {"head", headText(check.head)},
            {"sums_sha256", hex(check.sums)},
            {"problems", problems}};
  }

  static void print(std::ostream& out, const BundleCheck& check) {
    out << fmt::format(
        "Site {}, {}: {} files, {} parts of the record with {} rows, {} entries of the journal ({} in full), "
        "{} "
        "signatures and {} certificates checked.\nThe journal ends at {}\nSHA-256 of SHA256SUMS: {}\n",
        check.site, check.scope, check.files, check.units, check.rows, check.entries, check.entriesShown,
        check.signatures, check.certificates, headText(check.head), hex(check.sums));
    for (const BundleProblem& problem : check.problems) {
      out << fmt::format("Found, {}: {}.\n", problem.file, problem.what);
    }
    out << (check.problems.empty()
                ? "It holds by itself. README.txt says what that shows and what it does not.\n"
                : fmt::format("{} things do not hold; do not rely on this bundle, ask for it again.\n",
                              check.problems.size()));
  }

  std::string place_;
  std::vector<std::string> heads_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> evidenceCommand() {
  return std::make_unique<Evidence>();
}

std::unique_ptr<Command> verifyBundleCommand() {
  return std::make_unique<VerifyBundle>();
}

}  // namespace spanwright
