// SPDX-License-Identifier: GPL-3.0-or-later
//
// An invented record with something in every table that the journal covers.
#pragma once

#include "samples.h"

namespace spanwright::test {

/// Cheap to try, for tests only.
inline constexpr KeyCost kCheapKey{1, 8192};

/// Signs the act with this key and stores it; returns the event's number.
std::int64_t signAct(Store& store, CalibrationId calibration, LifeAct act, const std::string& person,
                     std::int64_t key, const SecretKey& secret, const std::string& reason = {});

struct FullRecord {
  std::vector<CalibrationId> calibrations;
  IssuedCertificate certificate;  ///< issued before the last entries were made
};
/// Two calibrations signed by two people, a correction, a certificate, keys with a changed passphrase, a
/// standard taken out of service, an attachment, an open round, a new setup, a new fitting, and more
/// calibrations without signatures.
FullRecord makeFullRecord(const std::filesystem::path& file, const Clock& clock);

}  // namespace spanwright::test
