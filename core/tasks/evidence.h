// SPDX-License-Identifier: GPL-3.0-or-later
//
// A bundle of evidence for a reviewer who has not the record: calibrations with all they rest on, in files
// that can be checked by themselves (bundle_check.h). What is in it and how it is checked by hand is told by
// its own README.txt (bundle_words.h).
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/certificate/certificate.h"
#include "core/record/proposal.h"
#include "core/store/store.h"

namespace spanwright {

/// What is asked for: a channel, a period or both; or a round alone.
struct EvidenceScope {
  std::string channel;           ///< tag; empty: all
  std::int64_t round = 0;        ///< what was done of it; 0: none
  std::optional<Date> from, to;  ///< first and last day on which they were performed
};
/// "channel FT-8, from 2026-01-01"
std::string describe(const EvidenceScope& scope);

/// Draws a certificate into the file of this name.
using DrawCertificate = std::function<void(const Certificate&, const std::filesystem::path&)>;

struct EvidenceMade {
  std::vector<CalibrationId> calibrations;  ///< asked for, by the day they were performed
  std::vector<CalibrationId> also;          ///< that they correct, or that took their place
  std::vector<CalibrationId> notIssued;     ///< of both, without a certificate
  std::size_t certificates = 0;
  std::size_t attachments = 0;
  std::size_t units = 0;          ///< parts of the record
  std::int64_t entries = 0;       ///< of the journal, to its head
  std::int64_t entriesShown = 0;  ///< in full
  std::size_t gaps = 0;           ///< that traces found
  std::size_t files = 0;
  std::uintmax_t bytes = 0;
  JournalHead head;
  Digest sums;  ///< of SHA256SUMS: whoever is told it by another way can trust every file
};

/// Makes the bundle at `place`: a folder, or a zip when the name ends in ".zip"; whole or not at all, and
/// read back and checked before it gets its name. With an empty `draw` it has the certificates' data only.
/// Writes nothing into the record. InputError when nothing is there that was asked for. StorageError when
/// something is at `place`, it cannot be written, or the record is not what its journal says.
EvidenceMade makeEvidence(Store& store, const EvidenceScope& scope, const std::filesystem::path& place,
                          const DrawCertificate& draw, const Progress& progress = {});

}  // namespace spanwright
