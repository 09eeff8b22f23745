// SPDX-License-Identifier: GPL-3.0-or-later
//
// A record as large as a big site's after ten years, invented, written through the store's own calls: every
// calibration has its standards, its judged readings and its entry in the journal.
#pragma once

#include <cstdint>
#include <filesystem>

#include "core/record/register.h"
#include "core/units/time.h"

namespace spanwright {

struct LargeRecord {
  int channels = 100'000;
  std::int64_t calibrations = 2'000'000;
};

/// The day on which everything is looked at; the last calibrations lie shortly before it.
Date largeRecordDay();

/// Its register: places of a hundred channels each, analog, thermocouple, RTD and threshold inputs, every
/// fifth channel with a transmitter that has a routine of its own.
Register largeSite(int channels);

/// The record of this size in the folder: the one made there before, or one made now, two readings a
/// calibration; says on the terminal how long that took.
std::filesystem::path largeRecordIn(const std::filesystem::path& folder, const LargeRecord& size);

}  // namespace spanwright
