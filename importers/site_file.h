// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads a site description (TOML) into a register. Format: sample_sites/README.md and the samples beside it.
#pragma once

#include <filesystem>

#include "core/record/problem.h"
#include "core/record/register.h"

namespace spanwright {

/// Throws InputError with every mistake found (line, column, what was expected), StorageError when
/// unreadable.
Register readSiteFile(const std::filesystem::path& file);

}  // namespace spanwright
