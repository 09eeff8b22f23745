// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files kept in the record: taken in, and written out again.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "core/store/store.h"

namespace spanwright {

/// Largest file taken: it is held in memory while it is digested.
inline constexpr std::uintmax_t kLargestAttachment = std::uintmax_t{100} << 20;

/// By the ending of the file's name, whatever its case; "application/octet-stream" for one not known.
std::string_view mediaTypeOf(std::string_view name);

/// Reads `file` and keeps it as `about` says (its name, media type, digest and size are filled in here).
/// Returns its number. InputError when the file cannot be read, is empty or too large, or `about` is about
/// nothing that is there.
std::int64_t attachFile(Store& store, const std::filesystem::path& file, Attachment about);

/// A name that every file system takes: "12-calibration_sheet.pdf". Letters, digits, '.', '-' and '_' of
/// ASCII stay.
std::string fileNameOf(const Attachment& attachment);

/// Writes the content into the folder, which is made when it is not there; returns the file. Its digest is
/// checked as it is read. StorageError when the file is there already or cannot be written.
std::filesystem::path writeAttachment(const Store& store, const Attachment& attachment,
                                      const std::filesystem::path& folder);

/// The same into a file of any name.
void saveAttachment(const Store& store, const Attachment& attachment, const std::filesystem::path& file);

}  // namespace spanwright
