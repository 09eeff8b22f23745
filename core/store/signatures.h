// SPDX-License-Identifier: GPL-3.0-or-later
//
// Are the signatures in a record what they claim to be? Private to the store and its checking.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/store/sqlite_connection.h"

namespace spanwright {

/// Checks every signature against the key of the person it names and against what the signed rows say now;
/// counts them in `checked`. A sentence's worth for each that does not hold.
std::vector<std::string> signatureProblems(Connection& connection, std::string_view site,
                                           std::int64_t& checked);

}  // namespace spanwright
