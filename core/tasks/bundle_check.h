// SPDX-License-Identifier: GPL-3.0-or-later
//
// Does a bundle of evidence hold, by itself? Needs no record.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "core/record/proposal.h"
#include "core/store/journal.h"
#include "core/tasks/bundle_files.h"

namespace spanwright {

struct BundleProblem {
  std::string file;  ///< of the bundle
  std::string what;  ///< a sentence's worth
};

struct BundleCheck {
  std::string site, scope;  ///< as the bundle says
  Digest sums;              ///< of SHA256SUMS
  std::size_t files = 0;
  std::size_t units = 0;  ///< parts of the record, digested
  std::size_t rows = 0;
  std::int64_t entries = 0;  ///< of the journal
  std::int64_t entriesShown = 0;
  std::size_t signatures = 0;
  std::size_t certificates = 0;
  JournalHead head;
  std::vector<BundleProblem> problems;
};

/// Reads every file and recomputes
/// - its digest against SHA256SUMS, and that no file is missing or too many;
/// - each part of the record from its rows against the journal's last entry about it that is shown, and that
///   what the rows refer to is there;
/// - the journal's chain from the first entry to its head;
/// - each signature against the person's public key and the digest of what was signed;
/// - each certificate's data against the entry that issued it, and the digest of the calibration it names;
/// - `known` heads, kept from elsewhere, against the chain.
/// StorageError when there is no folder or zip that can be read at all.
BundleCheck checkBundle(BundleReader& bundle, const std::vector<JournalHead>& known = {},
                        const Progress& progress = {});
BundleCheck checkBundle(const std::filesystem::path& place, const std::vector<JournalHead>& known = {},
                        const Progress& progress = {});

}  // namespace spanwright
