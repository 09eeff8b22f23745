// SPDX-License-Identifier: GPL-3.0-or-later
//
// What became of calibrations, keys and decisions about standards, as rows. Private to the store.
#pragma once

#include <optional>
#include <vector>

#include "core/record/life.h"
#include "core/store/register_rows.h"
#include "core/store/store.h"

namespace spanwright {

/// Returns its id.
std::int64_t writeLifeEvent(Connection& connection, std::string_view site, const Keys& keys,
                            const LifeEvent& event);
std::vector<LifeEvent> readLife(Connection& connection, std::string_view site, CalibrationId calibration);

std::int64_t writePersonKey(Connection& connection, std::string_view site, std::int64_t person,
                            std::string_view publicKey, Moment nowUtc);
/// Returns its number among the locks of this key.
std::int64_t writeKeyLock(Connection& connection, std::string_view site, std::int64_t person,
                          std::int64_t key, const KeyLock& lock, Moment nowUtc);
std::optional<StoredKey> readPersonKey(Connection& connection, std::string_view site, std::int64_t person);

std::int64_t writeStandardEvent(Connection& connection, std::string_view site, const Keys& keys,
                                const StandardEvent& event);

}  // namespace spanwright
