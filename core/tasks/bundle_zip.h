// SPDX-License-Identifier: GPL-3.0-or-later
//
// Zip files, by libzip.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/tasks/bundle_files.h"

namespace spanwright {

/// Packs these files of the folder into `zip`, which must not be there. StorageError.
void packZip(const std::filesystem::path& folder, const std::vector<std::string>& names,
             const std::filesystem::path& zip);
/// StorageError when it cannot be read as a zip.
std::unique_ptr<BundleReader> openZip(const std::filesystem::path& zip);

}  // namespace spanwright
