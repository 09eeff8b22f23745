// SPDX-License-Identifier: GPL-3.0-or-later
//
// The signatures in a bundle.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "core/tasks/bundle_contents.h"

namespace spanwright {

/// Checks each signature against the public key in the bundle and, of a calibration, the digest of its rows;
/// counts them in `checked`. File and sentence for each that does not hold.
std::vector<std::pair<std::string, std::string>> bundleSignatureProblems(const BundleContents& contents,
                                                                         std::size_t& checked);

}  // namespace spanwright
