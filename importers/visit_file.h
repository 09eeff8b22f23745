// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads one visit (TOML) as a proposal; the same rules as the desktop apply when it is entered.
#pragma once

#include <filesystem>

#include "core/record/problem.h"
#include "core/record/proposal.h"

namespace spanwright {

/// Throws InputError with every mistake found, StorageError when unreadable.
ProposedVisit readVisitFile(const std::filesystem::path& file);

}  // namespace spanwright
