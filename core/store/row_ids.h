// SPDX-License-Identifier: GPL-3.0-or-later
//
// Numbers of rows: each table counts its own within a site.
#pragma once

#include <fmt/format.h>

#include <cstdint>
#include <string_view>

#include "core/store/sqlite_connection.h"

namespace spanwright {

/// The number after the last one used; only within a transaction that writes.
inline std::int64_t nextId(Connection& connection, std::string_view table, std::string_view site) {
  Query next =
      connection.query(fmt::format("SELECT coalesce(max(id), 0) + 1 FROM {} WHERE site = $1", table));
  next.bind(site).step();
  return next.integer(0);
}

}  // namespace spanwright
