// SPDX-License-Identifier: GPL-3.0-or-later
//
// Issuing certificates.
#pragma once

#include "core/certificate/certificate.h"
#include "core/store/store.h"

namespace spanwright {

/// Allots the certificate's number (once) and returns what it says. InputError when the calibration is
/// unknown or must not be certified, with the reasons.
Certificate issueCertificate(Store& store, CalibrationId calibration);
/// What the certificate would say, without a number; nothing is stored.
Certificate previewCertificate(const Store& store, CalibrationId calibration);

}  // namespace spanwright
