// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/handed_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <stdexcept>

#include "core/certificate/certificate_data.h"
#include "core/record/problem.h"
#include "core/tasks/issue.h"

namespace spanwright {
namespace {

CertificateClaim claimIn(std::string_view data, const std::string& where) {
  try {
    return certificateClaim(data);
  } catch (const std::runtime_error& error) {
    throw InputError(error.what(), "name a certificate as this program issued it", {where, 0, 0, {}});
  }
}

void compareAnchor(const Store& store, const CertificateClaim& claim, const IssuedCertificate& issued,
                   HandedOutCheck& check) {
  if (issued.journal.entry != claim.anchor.journalEntry ||
      hex(issued.journal.hash) != claim.anchor.journalHash) {
    check.problems.push_back(fmt::format(
        "the certificate names entry {} of the journal with hash {}; the record issued it by entry {} with "
        "hash {}",
        claim.anchor.journalEntry, claim.anchor.journalHash, issued.journal.entry, hex(issued.journal.hash)));
  }
  if (const std::string now = hex(store.calibrationDigest(claim.anchor.calibration));
      now != claim.anchor.recordDigest) {
    check.problems.push_back(
        fmt::format("the readings of calibration {} are not those the certificate was issued on: their "
                    "digest is {} instead of {}",
                    claim.anchor.calibration, now, claim.anchor.recordDigest));
  }
}

}  // namespace

JournalHead headOfCertificate(std::string_view data, const std::string& where) {
  const CertificateClaim claim = claimIn(data, where);
  const auto hash = parseDigest(claim.anchor.journalHash);
  if (claim.anchor.journalEntry < 1 || !hash) {
    throw InputError("the certificate names no entry of a journal: it is a preview",
                     "name one that was issued", {where, 0, 0, {}});
  }
  return {claim.anchor.journalEntry, *hash};
}

HandedOutCheck checkHandedOut(const Store& store, std::string_view data) {
  const CertificateClaim claim = claimIn(data, {});
  HandedOutCheck check{claim.number, claim.revision, claim.anchor.calibration, {}, {}, {}};
  const auto newest = store.issuedCertificate(claim.anchor.calibration);
  if (!newest || newest->number != claim.number) {
    check.problems.push_back(fmt::format("the record issued no certificate {} for calibration {}",
                                         claim.number, claim.anchor.calibration));
    return check;
  }
  const auto issued = store.issuedRevision(claim.anchor.calibration, claim.revision);
  if (!issued) {
    check.problems.push_back(fmt::format("the record knows certificate {} up to revision {}, not revision {}",
                                         claim.number, newest->revision, claim.revision));
    return check;
  }
  compareAnchor(store, claim, *issued, check);
  check.certificate = certificateAsIssued(store, *issued);
  for (const std::string& difference : certificateDifferences(data, certificateData(*check.certificate))) {
    check.problems.push_back("the certificate does not say what the record says: " + difference);
  }
  if (newest->revision > claim.revision) {
    check.notes.push_back(
        fmt::format("revision {} of certificate {} has been issued since", newest->revision, claim.number));
  }
  if (const LifeState state = store.state(claim.anchor.calibration); !counts(state)) {
    check.notes.push_back(fmt::format("calibration {} is {}", claim.anchor.calibration, text(state)));
  }
  return check;
}

RecordAndCertificate verifyWithCertificate(const std::filesystem::path& record,
                                           std::vector<JournalHead> known, std::string_view data,
                                           const std::string& where, const CheckProgress& progress) {
  RecordAndCertificate both;
  known.push_back(headOfCertificate(data, where));
  both.entry = known.back().entry;
  both.record = verifyRecord(record, known, progress);
  const auto problem = [&both](std::int64_t entry, std::string what) {
    both.record.problems.push_back({entry, std::move(what)});
  };
  try {
    const Store store = Store::open(record, Store::Mode::readOnly);
    HandedOutCheck handedOut = checkHandedOut(store, data);
    auto& notes = both.record.notes;
    notes.insert(notes.end(), handedOut.notes.begin(), handedOut.notes.end());
    for (std::string& what : handedOut.problems) {
      problem(both.entry, std::move(what));
    }
    both.certificate = std::move(handedOut.certificate);
  } catch (const StorageError& damaged) {
    problem(0, fmt::format("the certificate could not be compared: {}", damaged.what()));
  } catch (const InputError& gone) {
    problem(0, fmt::format("the certificate could not be compared: {}", gone.what()));
  }
  return both;
}

void addPrintDifferences(RecordAndCertificate& to, const std::vector<std::string>& differences) {
  for (const std::string& difference : differences) {
    to.record.problems.push_back({to.entry, "what is printed is not what the record says: " + difference});
  }
}

std::vector<std::string> differentWords(const std::map<std::string, int>& handedOut,
                                        const std::map<std::string, int>& drawn, bool exact) {
  std::vector<std::string> found;
  std::set<std::string> words;
  for (const auto* side : {&handedOut, &drawn}) {
    for (const auto& [word, count] : *side) {
      words.insert(word);
    }
  }
  const auto count = [](const std::map<std::string, int>& side, const std::string& word) {
    const auto at = side.find(word);
    return at == side.end() ? 0 : at->second;
  };
  for (const std::string& word : words) {
    const int theirs = count(handedOut, word), ours = count(drawn, word);
    if (exact ? theirs != ours : (theirs == 0) != (ours == 0)) {
      found.push_back(fmt::format("\"{}\" {} times instead of {}", word, theirs, ours));
    }
  }
  return found;
}

}  // namespace spanwright
