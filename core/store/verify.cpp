// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/verify.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/record/problem.h"
#include "core/store/migrations/migrations.h"
#include "core/store/record_file.h"
#include "core/store/signatures.h"
#include "core/store/unit_digest.h"
#include "core/store/unit_names.h"

namespace spanwright {
namespace {

class Verifier {
 public:
  Verifier(Connection& connection, const CheckProgress& progress)
      : connection_(connection), progress_(progress) {}

  RecordCheck check(const std::vector<JournalHead>& known) {
    site_ = connection_.text("SELECT code FROM site");
    checkTables();
    checkReferences();
    checkChain(known);
    checkUnits();
    for (std::string& found : signatureProblems(connection_, site_, report_.signatures)) {
      problem(0, std::move(found));
    }
    advance(1.0);
    return std::move(report_);
  }

 private:
  void problem(std::int64_t entry, std::string what) { report_.problems.push_back({entry, std::move(what)}); }

  void advance(double share) {
    if (progress_ && !progress_(std::min(share, 1.0))) {
      throw InputError("cancelled", "start again to check the whole record");
    }
  }

  /// The triggers are what refuses changes; a record without one of them has been worked on.
  void checkTables() {
    Connection anew = Connection::temporary();
    migrate(anew);
    const auto made = schemaOf(anew);
    const auto found = schemaOf(connection_);
    for (const auto& [name, sql] : made) {
      const auto here = found.find(name);
      if (here == found.end()) {
        problem(0, fmt::format("the {} {} is missing from the record's file", name.first, name.second));
      } else if (here->second != sql) {
        problem(0, fmt::format("the {} {} is not as this program makes it", name.first, name.second));
      }
    }
    for (const auto& [name, sql] : found) {
      if (!made.contains(name)) {
        problem(0, fmt::format("the record's file holds a {} {} that this program did not make", name.first,
                               name.second));
      }
    }
  }

  using Schema = std::map<std::pair<std::string, std::string>, std::string>;
  static Schema schemaOf(Connection& connection) {
    Schema schema;
    Query row = connection.query(
        "SELECT type, name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'");
    row.bind();
    while (row.step()) {
      schema.emplace(std::pair(row.text(0), row.text(1)), row.text(2));
    }
    return schema;
  }

  void checkReferences() {
    Query orphan = connection_.query("PRAGMA foreign_key_check");
    orphan.bind();
    std::set<std::string> said;
    while (orphan.step()) {
      auto what =
          fmt::format("a row of {} refers to one of {} that is not there", orphan.text(0), orphan.text(2));
      if (said.insert(what).second) {
        problem(0, std::move(what));
      }
    }
    // A unit's further rows are only looked for below its first; one without it would not be seen.
    for (const CoveredUnit& unit : coveredUnits()) {
      for (const CoveredTable& table : unit.tables) {
        checkSites(table);
      }
    }
  }

  /// Rows of another site than the record's would be looked at by nobody.
  void checkSites(const CoveredTable& table) {
    const std::string column = table.table == "site" ? "code" : "site";
    Query count =
        connection_.query(fmt::format("SELECT count(*) FROM {0} WHERE {1} <> $1", table.table, column));
    if (count.bind(site_).step() && count.integer(0) > 0) {
      problem(0, fmt::format("{} rows of {} belong to another site than {}", count.integer(0), table.table,
                             site_));
    }
  }

  void checkChain(const std::vector<JournalHead>& known) {
    static const std::vector<std::string> kColumns =
        columnNames("site, entry, at_utc, person, act, unit, unit_key, digest, row_digests, detail");
    Query row = connection_.query(
        "SELECT site, entry, at_utc, person, act, unit, unit_key, digest, row_digests, detail, hash FROM "
        "journal "
        "WHERE site = $1 ORDER BY entry");
    row.bind(site_);
    total_ = std::max<std::int64_t>(1, connection_.integer("SELECT count(*) FROM journal"));
    Digest last;
    std::int64_t number = 0;
    while (row.step()) {
      const std::int64_t entry = row.integer(1);
      if (entry != number + 1) {
        problem(entry, entry == number + 2 ? fmt::format("entry {} of the journal is missing", number + 1)
                                           : fmt::format("entries {} to {} of the journal are missing",
                                                         number + 1, entry - 1));
      }
      number = entry;
      const auto stored = digestOf(row.bytesView(10));
      const Digest computed = sha256(last, sha256(rowText("journal", kColumns, row)));
      if (!stored || *stored != computed) {
        problem(entry, fmt::format("entry {} of the journal (\"{}\" {} {}) was changed, or the one before it",
                                   entry, row.text(4), row.text(5), row.text(6)));
      }
      if (row.textView(4) == acts::kClockBack) {
        report_.notes.push_back(
            fmt::format("before entry {} the machine's clock went back {}", entry + 1, row.text(9)));
      }
      last = stored ? *stored : computed;  // one changed entry is one problem, not all that follow
      checkKnown(known, entry, last);
      ++report_.entries;
      if (entry % 1000 == 0) {
        advance(0.2 * static_cast<double>(report_.entries) / static_cast<double>(total_));
      }
    }
    report_.head = {number, last};
    if (number == 0) {
      problem(0, "the journal is empty");
    }
    for (const JournalHead& head : known) {
      if (head.entry > number) {
        problem(head.entry,
                fmt::format("the journal ends at entry {}, but entry {} is known from outside: its end "
                            "was cut off",
                            number, head.entry));
      }
    }
  }

  void checkKnown(const std::vector<JournalHead>& known, std::int64_t entry, const Digest& hash) {
    for (const JournalHead& head : known) {
      if (head.entry == entry && head.hash != hash) {
        problem(entry,
                fmt::format("entry {} of the journal is not the one known from outside: the history up to it "
                            "was rewritten",
                            entry));
      }
    }
  }

  void checkUnits() {
    for (const CoveredUnit& unit : coveredUnits()) {
      forEachUnit(connection_, site_, unit, [&](const UnitKey& key) {
        checkUnit(key);
        return true;
      });
      checkRemoved(unit);
      checkStrays(unit);
    }
  }

  void checkUnit(const UnitKey& key) {
    Query last = connection_.query(
        "SELECT entry, digest, row_digests FROM journal WHERE site = $1 AND unit = $2 AND unit_key = $3 AND "
        "digest "
        "IS NOT NULL ORDER BY entry DESC LIMIT 1");
    const auto unit = unitDigest(connection_, site_, key);
    ++report_.units;
    report_.rows += unit ? std::ssize(unit->places) : 0;
    if (report_.units % 500 == 0) {
      advance(0.2 + 0.75 * static_cast<double>(report_.units) / static_cast<double>(total_));
    }
    if (!last.bind(site_, key.unit, keyText(key)).step()) {
      problem(0, fmt::format("{} was added without the journal knowing", nameOf(key)));
      return;
    }
    if (unit && unit->digest.view() == last.bytesView(1)) {
      return;
    }
    const std::int64_t entry = last.integer(0);
    const std::string rows = last.bytes(2);
    explain(key, entry, rows, unit);
  }

  void explain(const UnitKey& key, std::int64_t entry, const std::string& rows,
               const std::optional<UnitDigest>& unit) {
    const auto changes = rowChanges(rows, unit);
    for (const std::string& change : changes) {
      problem(entry, fmt::format("{}: {} since entry {}", nameOf(key), change, entry));
    }
    if (changes.empty()) {
      problem(entry, fmt::format("{} is not what entry {} says", nameOf(key), entry));
    }
  }

  /// Units the journal knows of which no row is left.
  void checkRemoved(const CoveredUnit& unit) {
    Query keys = connection_.query(
        "SELECT DISTINCT unit_key FROM journal WHERE site = $1 AND unit = $2 AND digest IS NOT NULL");
    keys.bind(site_, unit.name);
    const CoveredTable& root = unit.tables.front();
    const auto columns = columnNames(root.keys);
    std::string sql =
        fmt::format("SELECT 1 FROM {} WHERE {} = $1", root.table, root.table == "site" ? "code" : "site");
    for (std::size_t i = 0; i < columns.size(); ++i) {
      sql += fmt::format(" AND {} = ${}", columns[i], i + 2);
    }
    while (keys.step()) {
      const auto numbers = parseKeyText(keys.textView(0));
      if (!numbers || numbers->size() != columns.size()) {
        problem(0, fmt::format("the journal names a {} \"{}\" that cannot be", unit.name, keys.text(0)));
        continue;
      }
      Query row = connection_.query(sql);
      bindUnit(row, site_, *numbers);
      if (!row.step()) {
        const UnitKey key{std::string(unit.name), *numbers};
        const auto entries = entryNumber(key);
        problem(entries, fmt::format("{} was removed since entry {}", nameOf(key), entries));
      }
    }
  }

  std::int64_t entryNumber(const UnitKey& key) {
    Query row = connection_.query(
        "SELECT max(entry) FROM journal WHERE site = $1 AND unit = $2 AND unit_key = $3 AND digest IS NOT "
        "NULL");
    return row.bind(site_, key.unit, keyText(key)).step() ? row.integer(0) : 0;
  }

  /// Rows of a unit's further tables whose root row is not there.
  void checkStrays(const CoveredUnit& unit) {
    const CoveredTable& root = unit.tables.front();
    const auto rootKeys = columnNames(root.keys);
    for (std::size_t t = 1; t < unit.tables.size(); ++t) {
      const CoveredTable& table = unit.tables[t];
      const auto keys = columnNames(table.keys);
      std::string match = fmt::format("r.{} = t.site", root.table == "site" ? "code" : "site");
      for (std::size_t i = 0; i < keys.size(); ++i) {
        match += fmt::format(" AND r.{} = t.{}", rootKeys[i], keys[i]);
      }
      const std::int64_t count = connection_.integer(
          fmt::format("SELECT count(*) FROM {} t WHERE NOT EXISTS (SELECT 1 FROM {} r WHERE {})", table.table,
                      root.table, match));
      if (count > 0) {
        problem(0, fmt::format("{} rows of {} belong to no {}", count, table.table, unit.name));
      }
    }
  }

  std::string nameOf(const UnitKey& key) { return unitName(connection_, site_, key); }

  Connection& connection_;
  const CheckProgress& progress_;
  std::string site_;
  std::int64_t total_ = 1;
  RecordCheck report_;
};

}  // namespace

RecordCheck verifyRecord(const std::filesystem::path& file, const std::vector<JournalHead>& known,
                         const CheckProgress& progress) {
  const auto connection = openForChecking(file);
  // Everything as it was at one moment, while others may go on writing.
  connection->execute("BEGIN");
  connection->integer("SELECT count(*) FROM site");
  return Verifier(*connection, progress).check(known);
}

void checkWholeFile(const std::filesystem::path& file, std::function<bool()> goOn) {
  checkRecordFile(file, std::move(goOn));
}

}  // namespace spanwright
