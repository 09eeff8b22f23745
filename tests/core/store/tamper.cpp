// SPDX-License-Identifier: GPL-3.0-or-later
#include "tamper.h"

#include <gtest/gtest.h>

#include <vector>

#include "core/store/journal.h"

namespace spanwright::test {

void behindTheJournal(const std::filesystem::path& file, const std::function<void(Connection&)>& work) {
  Connection connection(file, Connection::Access::readWrite);
  connection.execute("PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON");
  std::vector<std::pair<std::string, std::string>> triggers;
  {
    Query row = connection.query("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' ORDER BY rowid");
    row.bind();
    while (row.step()) {
      triggers.emplace_back(row.text(0), row.text(1));
    }
  }
  for (const auto& [name, sql] : triggers) {
    connection.execute("DROP TRIGGER " + name);
  }
  work(connection);
  for (const auto& [name, sql] : triggers) {
    connection.execute(sql);
  }
}

void rewriteConsistently(Connection& connection, std::int64_t entry) {
  const std::string site = connection.text("SELECT code FROM site");
  std::vector<JournalEntry> entries;
  forEachEntry(connection, site, 1, [&](const JournalEntry& e) {
    entries.push_back(e);
    return true;
  });
  Digest last;
  for (JournalEntry& e : entries) {
    if (e.entry == entry) {
      const auto unit = unitDigest(connection, site, {e.unit, *parseKeyText(e.unitKey)});
      ASSERT_TRUE(unit) << e.unit << " " << e.unitKey;
      e.digest = unit->digest;
      e.rowDigests = unit->rows;
    }
    if (e.entry >= entry) {
      e.hash = sha256(last, contentDigest(site, e));
      connection.query("UPDATE journal SET digest = $1, row_digests = $2, hash = $3 WHERE entry = $4")
          .run(e.digest ? std::optional(Bytes{e.digest->view()}) : std::nullopt,
               e.digest ? std::optional(Bytes{e.rowDigests}) : std::nullopt, Bytes{e.hash.view()}, e.entry);
    }
    last = e.hash;
  }
}

}  // namespace spanwright::test
