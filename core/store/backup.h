// SPDX-License-Identifier: GPL-3.0-or-later
//
// A whole copy of a record, while it may be in use: for keeping, and back again.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "core/store/verify.h"

namespace spanwright {

struct RecordCopy {
  std::int64_t calibrations = 0;
  std::int64_t readings = 0;
  std::uintmax_t bytes = 0;
  std::string sha256;  ///< of the file, hexadecimal
  RecordCheck check;   ///< of the copy
};

/// Copies the record as it is at this moment, while other programs may go on reading and writing it, to a
/// file that must not be there yet; recomputes the copy's journal from its rows (verifyRecord) before it gets
/// its name. What is found then is in `check`: a copy of a record that was worked on is made all the same.
/// StorageError when the record cannot be read or the copy not be written; nothing is left behind then.
RecordCopy copyRecord(const std::filesystem::path& record, const std::filesystem::path& copy,
                      const CheckProgress& progress = {});

}  // namespace spanwright
