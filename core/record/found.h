// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was found at a standard's own recalibration, before it was adjusted.
#pragma once

#include <string>
#include <vector>

#include "core/record/register.h"

namespace spanwright {

/// A coverage factor of a finding lies between these, both allowed.
inline constexpr double kLeastFactor = 1.0;
inline constexpr double kLargestFactor = 10.0;

struct FoundErrors {
  Date foundOn;
  std::string certificate;  ///< number of the certificate that says so; may be empty
  std::string lastGood;     ///< number of the last good certificate where a person decided it; else empty
  std::string remark;
  double coverageFactor = 2.0;  ///< of the uncertainties
  /// Errors as on a certificate: the standard's indication (or output) minus the true value. An uncertainty
  /// of 0 was not stated. Resolutions play no part.
  std::vector<CertificateRange> ranges;
};

}  // namespace spanwright
