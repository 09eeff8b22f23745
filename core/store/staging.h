// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows of an import waiting to be grouped, in a private database that SQLite keeps in a temporary file:
// memory stays bounded whatever is staged. Private to the store.
#pragma once

#include <cstdint>
#include <functional>

#include "core/store/sqlite_connection.h"
#include "core/store/store.h"

namespace spanwright {

class Staging {
 public:
  Staging();
  void add(const StagedRow& row);
  void forEach(const std::function<bool(const StagedRow&)>& visit);
  std::int64_t count() const { return count_; }

 private:
  Connection connection_;
  std::int64_t count_ = 0;
};

}  // namespace spanwright
