// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/migrations/migrations.h"

#include <fmt/format.h>

#include <array>

namespace spanwright {

std::span<const Migration> migrations() {
  static const std::array kSteps{Migration{1, migration::kVersion1}, Migration{2, migration::kVersion2}};
  return kSteps;
}

void migrate(Connection& connection, std::span<const Migration> steps) {
  WriteScope scope(connection);
  // Read inside the transaction: another program may have taken the same steps while this one waited.
  const std::int64_t taken = connection.integer("PRAGMA user_version");
  for (const Migration& step : steps) {
    if (step.version > taken) {
      connection.execute(step.sql);
      connection.execute(fmt::format("PRAGMA user_version = {}", step.version));
    }
  }
  scope.commit();
}

}  // namespace spanwright
