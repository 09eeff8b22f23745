// SPDX-License-Identifier: GPL-3.0-or-later
//
// What people call a unit of the journal. Private to the store and its checking.
#pragma once

#include <string>

#include "core/store/covered.h"

namespace spanwright {

/// "calibration 17 (FT-8, 2026-03-01T08:00:00)"; without the part in brackets when the row is gone.
std::string unitName(Connection& connection, std::string_view site, const UnitKey& key);

/// Binds the site and the key's numbers to $1, $2 ... of a statement made for this kind.
void bindUnit(Query& query, std::string_view site, const std::vector<std::int64_t>& numbers);

}  // namespace spanwright
