// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/staging.h"

namespace spanwright {

Staging::Staging() : connection_(Connection::temporary()) {
  // Nothing here survives a crash or needs undoing, so neither journal nor syncing; 8 MiB of pages, the rest
  // on disk.
  connection_.execute(
      "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA cache_size = -8192; PRAGMA temp_store = "
      "FILE;"
      "CREATE TABLE staged (key TEXT NOT NULL, position INTEGER NOT NULL, payload TEXT NOT NULL) STRICT;"
      "BEGIN");
}

void Staging::add(const StagedRow& row) {
  connection_.query("INSERT INTO staged (key, position, payload) VALUES ($1, $2, $3)")
      .run(row.key, row.order, row.payload);
  ++count_;
}

void Staging::forEach(const std::function<bool(const StagedRow&)>& visit) {
  // Sorted by SQLite's own external merge: one sequential pass, where an index would jump between pages.
  Query query = connection_.query("SELECT key, position, payload FROM staged ORDER BY key, position");
  query.bind();
  while (query.step()) {
    if (!visit({query.text(0), query.integer(1), query.text(2)})) {
      return;
    }
  }
}

}  // namespace spanwright
