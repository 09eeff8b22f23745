// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/evidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>

#include "core/certificate/certificate_data.h"
#include "core/record/problem.h"
#include "core/tasks/bundle_check.h"
#include "core/tasks/bundle_files.h"
#include "core/tasks/bundle_words.h"
#include "core/tasks/evidence_units.h"
#include "core/tasks/issue.h"
#include "core/tasks/rounds.h"
#include "core/tasks/signing.h"

namespace spanwright {
namespace {

std::vector<CalibrationSummary> ofRound(const Store& store, std::int64_t id) {
  for (const Round& round : store.rounds()) {
    if (round.id != id) {
      continue;
    }
    std::vector<CalibrationSummary> found;
    for (const StopProgress& stop : roundProgress(store, round)) {
      for (CalibrationSummary& one : store.calibrations(stop.stop.channel)) {
        if (stop.calibration != 0 && one.id == stop.calibration) {
          found.push_back(std::move(one));
        }
      }
    }
    return found;
  }
  throw InputError(fmt::format("there is no round {} in the record", id),
                   "see \"rounds\" for those there are");
}

std::vector<CalibrationSummary> ofChannels(const Store& store, const EvidenceScope& scope) {
  if (!scope.channel.empty() && store.site().channel(scope.channel) == nullptr) {
    throw InputError(fmt::format("there is no channel \"{}\" in the record", scope.channel), "check the tag");
  }
  std::vector<CalibrationSummary> found;
  for (const Channel& channel : store.site().channels) {
    if (!scope.channel.empty() && channel.tag != scope.channel) {
      continue;
    }
    for (CalibrationSummary& one : store.calibrations(channel.tag)) {
      const Date day = one.performed.date();
      if ((!scope.from || *scope.from <= day) && (!scope.to || day <= *scope.to)) {
        found.push_back(std::move(one));
      }
    }
  }
  return found;
}

std::vector<CalibrationId> askedFor(const Store& store, const EvidenceScope& scope) {
  auto found = scope.round != 0 ? ofRound(store, scope.round) : ofChannels(store, scope);
  if (found.empty()) {
    throw InputError(fmt::format("the record has no calibration of {}", describe(scope)),
                     "ask for another channel, period or round");
  }
  std::sort(found.begin(), found.end(), [](const CalibrationSummary& a, const CalibrationSummary& b) {
    return std::pair(a.performed, a.id) < std::pair(b.performed, b.id);
  });
  std::vector<CalibrationId> ids;
  for (const CalibrationSummary& one : found) {
    ids.push_back(one.id);
  }
  return ids;
}

class Making {
 public:
  Making(const Store& store, const EvidenceScope& scope, BundleWriter& writer, const DrawCertificate& draw,
         const Progress& progress)
      : store_(store), scope_(scope), writer_(writer), draw_(draw), progress_(progress), units_(store) {}

  EvidenceMade make() {
    const SiteInfo& site = store_.site().site;
    facts_ = {site.code, site.name, site.note, describe(scope_), store_.clock().utcNow(), bool(draw_)};
    made_.calibrations = askedFor(store_, scope_);
    rows();
    attachments();
    certificates();
    journal();
    std::vector<BundleCalibration> calibrations = summaries();
    writer_.add(std::string(kSummaryFile), bundleSummary(facts_, made_, calibrations));
    writer_.add(std::string(kReadmeFile), bundleReadme(facts_, made_));
    writer_.add(std::string(kManifestFile), bundleManifest(facts_, made_));
    made_.sums = writer_.writeSums();
    made_.files = writer_.files();
    made_.bytes = writer_.bytes();
    return made_;
  }

 private:
  void advance(double share) const {
    if (progress_ && !progress_(share)) {
      throw InputError("cancelled", "start again to make the whole bundle");
    }
  }

  void rows() {
    std::vector<UnitKey> from{{"site", {}}};
    if (scope_.round != 0) {
      from.push_back({"round", {scope_.round}});
    }
    for (const CalibrationId id : made_.calibrations) {
      from.push_back({"calibration", {id}});
    }
    units_.gather(from, [&](const UnitKey& unit, BundleJson rows) {
      if (unit.unit == "attachment") {
        nameFile(unit.numbers.front(), rows);
      }
      writer_.add(unitFileName(unit), unitFileText(unit, rows));
    });
    made_.units = units_.count();
    for (const CalibrationId id : units_.calibrations()) {
      if (std::find(made_.calibrations.begin(), made_.calibrations.end(), id) == made_.calibrations.end()) {
        made_.also.push_back(id);
      }
    }
    advance(0.1);
  }

  void nameFile(std::int64_t id, BundleJson& rows) const {
    for (const Attachment& attachment : units_.attachments()) {
      if (attachment.id == id) {
        rows["attachment"][0]["content"]["file"] = attachmentFile(attachment);
      }
    }
  }

  void attachments() {
    for (const Attachment& attachment : units_.attachments()) {
      writer_.add(attachmentFile(attachment), store_.attachmentContent(attachment.id));
    }
    made_.attachments = units_.attachments().size();
  }

  void certificates() {
    double done = 0.0;
    for (const CalibrationId id : units_.calibrations()) {
      if (const auto issued = store_.issuedCertificate(id)) {
        const Certificate certificate = certificateAsIssued(store_, *issued);
        const std::string name = "certificates/" + issued->number;
        writer_.add(name + ".json", certificateData(certificate));
        if (draw_) {
          draw_(certificate, writer_.pathFor(name + ".pdf"));
          writer_.added(name + ".pdf");
        }
        ++made_.certificates;
      } else {
        made_.notIssued.push_back(id);
      }
      advance(0.1 + 0.5 * (done += 1.0) / static_cast<double>(units_.calibrations().size()));
    }
  }

  void journal() {
    const std::string name(kJournalFile);
    std::ofstream out(writer_.pathFor(name), std::ios::binary);
    store_.forEachEntry(1, [&](const JournalEntry& entry) {
      const auto numbers = parseKeyText(entry.unitKey);
      const bool shown = entry.unit.empty() || (numbers && units_.has({entry.unit, *numbers}));
      out << journalLine(facts_.siteCode, entry, shown) << '\n';
      made_.entriesShown += shown ? 1 : 0;
      made_.head = {entry.entry, entry.hash};
      return true;
    });
    out.close();
    if (!out) {
      throw StorageError("The bundle's journal cannot be written; make room or choose another place.");
    }
    made_.entries = made_.head.entry;
    writer_.added(name);
    advance(0.7);
  }

  std::vector<BundleCalibration> summaries() {
    std::vector<BundleCalibration> all;
    for (const auto* list : {&made_.calibrations, &made_.also}) {
      for (const CalibrationId id : *list) {
        BundleCalibration one{traceCalibration(store_, id), store_.state(id), {}, list == &made_.also};
        for (const Signature& signature : signatures(store_, id)) {
          one.life.push_back({signature.event, signature.name, signature.keyMark});
        }
        made_.gaps += one.trace.gaps.size();
        all.push_back(std::move(one));
      }
    }
    advance(0.8);
    return all;
  }

  const Store& store_;
  const EvidenceScope& scope_;
  BundleWriter& writer_;
  const DrawCertificate& draw_;
  const Progress& progress_;
  EvidenceUnits units_;
  BundleFacts facts_;
  EvidenceMade made_;
};

}  // namespace

std::string describe(const EvidenceScope& scope) {
  if (scope.round != 0) {
    return fmt::format("round {}", scope.round);
  }
  std::string words = scope.channel.empty() ? "all channels" : "channel " + scope.channel;
  words += scope.from ? ", from " + formatDate(*scope.from) : "";
  words += scope.to ? ", until " + formatDate(*scope.to) : "";
  return words;
}

EvidenceMade makeEvidence(Store& store, const EvidenceScope& scope, const std::filesystem::path& place,
                          const DrawCertificate& draw, const Progress& progress) {
  const Store::Snapshot snapshot(store);
  BundleWriter writer(place);
  EvidenceMade made = Making(store, scope, writer, draw, progress).make();
  // What is handed out must hold; a record that was changed behind its journal's back gives none that does.
  const BundleCheck check = checkBundle(writer.folder());
  if (!check.problems.empty()) {
    const BundleProblem& first = check.problems.front();
    throw StorageError(fmt::format(
        "{} gives no bundle that holds: {}: {} ({} more); run \"spanwright verify\" on the record.",
        store.file().string(), first.file, first.what, check.problems.size() - 1));
  }
  writer.finish();
  return made;
}

}  // namespace spanwright
