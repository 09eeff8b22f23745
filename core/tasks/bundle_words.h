// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a bundle says to the person who opens it.
#pragma once

#include <string>
#include <vector>

#include "core/tasks/evidence.h"
#include "core/tasks/trace.h"

namespace spanwright {

/// Names of the files that are there once.
inline constexpr std::string_view kReadmeFile = "README.txt";
inline constexpr std::string_view kSummaryFile = "summary.html";
inline constexpr std::string_view kManifestFile = "bundle.json";
inline constexpr std::string_view kJournalFile = "journal.jsonl";
/// What the manifest calls itself, as "form".
inline constexpr std::string_view kBundleForm = "spanwright evidence 1";

/// What the words need beside what was made.
struct BundleFacts {
  std::string siteCode, siteName, siteNote;
  std::string scope;
  Moment madeUtc;
  bool drawn = false;  ///< certificates are there as PDF too
};

/// What this is, how it is checked with and without the program, the form of the digests, what it is not.
std::string bundleReadme(const BundleFacts& facts, const EvidenceMade& made);
/// The manifest: what the checking program holds the rest against.
std::string bundleManifest(const BundleFacts& facts, const EvidenceMade& made);

/// One calibration on the summary.
struct BundleCalibration {
  CalibrationTrace trace;
  LifeState state = LifeState::recorded;
  struct Signed {
    LifeEvent event;
    std::string name, keyMark;
  };
  std::vector<Signed> life;
  bool also = false;  ///< not asked for, but corrected by one that was, or in its place
};
/// The page a person reads first: HTML by itself, without scripts; every text of the record escaped.
std::string bundleSummary(const BundleFacts& facts, const EvidenceMade& made,
                          const std::vector<BundleCalibration>& calibrations);

}  // namespace spanwright
