// SPDX-License-Identifier: GPL-3.0-or-later
//
// Drafts as rows. Private to the store.
#pragma once

#include <optional>
#include <vector>

#include "core/store/register_rows.h"
#include "core/store/store.h"

namespace spanwright {

/// Inserts (id 0) or replaces the header and the standards; the values stay. InputError when the draft is
/// gone.
std::int64_t writeDraft(Connection& connection, std::string_view site, const Keys& keys, const Draft& draft);
/// InputError when the draft is gone.
void writeDraftValue(Connection& connection, std::string_view site, std::int64_t draft,
                     const DraftValue& value);
/// All, or the one with `id`; oldest first.
std::vector<Draft> readDrafts(Connection& connection, std::string_view site, std::optional<std::int64_t> id);
void deleteDraft(Connection& connection, std::string_view site, std::int64_t id);

}  // namespace spanwright
