// SPDX-License-Identifier: GPL-3.0-or-later
//
// Is a certificate somebody holds what the record says?
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/certificate/certificate.h"
#include "core/store/journal.h"
#include "core/store/store.h"
#include "core/store/verify.h"

namespace spanwright {

/// The entry of the journal that a certificate's data names. InputError with `where` as the file when the
/// text is no such data, or is a preview's.
JournalHead headOfCertificate(std::string_view data, const std::string& where);

struct HandedOutCheck {
  std::string number;
  int revision = 1;
  CalibrationId calibration = 0;
  std::vector<std::string> problems;  ///< a sentence's worth each
  std::vector<std::string> notes;     ///< a newer revision, what could not be compared
  /// What the record says under this number and revision, for comparing what is drawn; nothing when it has
  /// none.
  std::optional<Certificate> certificate;
};
/// Compares the data with what the record gives for the same number and revision: the journal's entry, the
/// digest of the readings, every text. The journal itself is verifyRecord's.
HandedOutCheck checkHandedOut(const Store& store, std::string_view data);

/// A record checked together with a certificate somebody holds: where they do not agree is one more thing
/// wrong with the record.
struct RecordAndCertificate {
  RecordCheck record;
  std::int64_t entry = 0;  ///< of the journal, which the certificate names
  std::optional<Certificate>
      certificate;  ///< as the record tells it, to be drawn and compared with the print
};
/// verifyRecord with the certificate's head among those `known`, and checkHandedOut. `where` is the file the
/// data was read from. InputError when the data is none (headOfCertificate), StorageError as verifyRecord.
RecordAndCertificate verifyWithCertificate(const std::filesystem::path& record,
                                           std::vector<JournalHead> known, std::string_view data,
                                           const std::string& where, const CheckProgress& progress = {});
/// Adds what is printed on the certificate and is not what the record says (differentWords).
void addPrintDifferences(RecordAndCertificate& to, const std::vector<std::string>& differences);

/// Words on one print and not on the other, or more often, each with both counts; empty when they carry the
/// same. With `exact` false only whether a word is there counts: page breaks repeat headings.
std::vector<std::string> differentWords(const std::map<std::string, int>& handedOut,
                                        const std::map<std::string, int>& drawn, bool exact);

}  // namespace spanwright
