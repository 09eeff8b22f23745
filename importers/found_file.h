// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads what was found at a standard's recalibration (TOML). Format: sample_sites/README.md.
#pragma once

#include <filesystem>

#include "core/record/found.h"
#include "core/record/problem.h"

namespace spanwright {

/// Throws InputError with every mistake found, StorageError when unreadable.
FoundErrors readFoundFile(const std::filesystem::path& file);

}  // namespace spanwright
