// SPDX-License-Identifier: GPL-3.0-or-later
//
// Is a certificate somebody holds what the record says?
#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/certificate/certificate.h"
#include "core/store/journal.h"
#include "core/store/store.h"

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

/// Words on one print and not on the other, or more often, each with both counts; empty when they carry the
/// same. With `exact` false only whether a word is there counts: page breaks repeat headings.
std::vector<std::string> differentWords(const std::map<std::string, int>& handedOut,
                                        const std::map<std::string, int>& drawn, bool exact);

}  // namespace spanwright
