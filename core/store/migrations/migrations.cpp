// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/migrations/migrations.h"

#include <fmt/format.h>

#include <array>
#include <set>

#include "core/store/journal.h"
#include "core/units/time.h"

namespace spanwright {
namespace {

/// Enters into the journal what was in an older record. A new record has nothing yet.
void cover(Connection& connection, const std::set<std::string_view>& units) {
  const std::string site = connection.text("SELECT code FROM site");
  if (units.empty() || site.empty()) {
    return;
  }
  Journal journal(connection, site);
  const auto chosen = [&](std::string_view unit) { return units.contains("*") || units.contains(unit); };
  journal.cover(acts::kTakenOver, chosen, "", systemClock().utcNow());
}

}  // namespace

std::span<const Migration> migrations() {
  static const std::array kSteps{Migration{1, migration::kVersion1},
                                 Migration{2, migration::kVersion2, {"*"}},
                                 Migration{3, migration::kVersion3, {"plan"}},
                                 Migration{4, migration::kVersion4, {"site", "person", "interval"}}};
  return kSteps;
}

void migrate(Connection& connection, std::span<const Migration> steps) {
  WriteScope scope(connection);
  // Read inside the transaction: another program may have taken the same steps while this one waited.
  const std::int64_t taken = connection.integer("PRAGMA user_version");
  std::set<std::string_view> units;
  for (const Migration& step : steps) {
    if (step.version > taken) {
      connection.execute(step.sql);
      connection.execute(fmt::format("PRAGMA user_version = {}", step.version));
      units.insert(step.covers.begin(), step.covers.end());
    }
  }
  cover(connection, units);
  scope.commit();
}

}  // namespace spanwright
