// SPDX-License-Identifier: GPL-3.0-or-later
//
// Issuing certificates.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/certificate/certificate.h"
#include "core/store/store.h"

namespace spanwright {

/// Allots the certificate's number (once) and returns what it says; issued again, it says the same under the
/// same number and date, unless something was signed since: then it is the number's next revision. InputError
/// when the calibration is unknown or must not be certified, with the reasons.
Certificate issueCertificate(Store& store, CalibrationId calibration);
/// What issuing now would make it say, with its number once one was allotted; nothing is stored. InputError
/// when the calibration is unknown or its channel is not in the register.
Certificate previewCertificate(const Store& store, CalibrationId calibration);
/// Was the calibration signed, sent back, withdrawn or superseded after this revision? Issuing then makes the
/// next.
bool signedSince(const Store& store, const IssuedCertificate& issued);
/// What this revision said when it was issued, as the record tells it now.
Certificate certificateAsIssued(const Store& store, const IssuedCertificate& issued);
/// What keeps the calibration from being certified, each with its clause; empty when it may be. InputError
/// when the calibration is unknown.
std::vector<std::string> issueFaults(const Store& store, CalibrationId calibration);

/// When the subject is due after this calibration, by the interval then in force; nothing when it did not
/// pass or has no routine. InputError when the calibration is unknown.
std::optional<Date> dueAfterCalibration(const Store& store, CalibrationId calibration);

}  // namespace spanwright
