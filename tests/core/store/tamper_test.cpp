// SPDX-License-Identifier: GPL-3.0-or-later
//
// Everything that can be done to a record's rows with an SQL tool is found; the counts are printed.
#include "tamper.h"

#include <fmt/format.h>

#include <iostream>

#include "core/store/covered.h"
#include "core/store/verify.h"
#include "full_record.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

class Tamper : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder_ = new test::Folder;
    const test::FixedClock clock("2026-11-20T10:00:00", "2026-11-20T09:00:00");
    full_ = test::makeFullRecord(*folder_ / "whole.record", clock);
    // A copy by file needs everything in the file.
    Connection(*folder_ / "whole.record", Connection::Access::readWrite)
        .execute("PRAGMA wal_checkpoint(TRUNCATE)");
  }
  static void TearDownTestSuite() { delete folder_; }

  static fs::path whole() { return *folder_ / "whole.record"; }

  /// The problems in a copy to which this was done.
  static RecordCheck after(const std::function<void(Connection&)>& work,
                           const std::vector<JournalHead>& known = {}) {
    const fs::path copy = *folder_ / "copy.record";
    for (const char* suffix : {"", "-wal", "-shm"}) {
      fs::remove(copy.string() + suffix);
    }
    fs::copy_file(whole(), copy);
    test::behindTheJournal(copy, work);
    return verifyRecord(copy, known);
  }

  static std::string said(const RecordCheck& check) {
    std::string all;
    for (const RecordProblem& problem : check.problems) {
      all += problem.what + '\n';
    }
    return all;
  }

  static inline test::Folder* folder_ = nullptr;
  static inline test::FullRecord full_;
};

TEST_F(Tamper, NothingIsFoundWhereNothingWasDone) {
  const RecordCheck check = after([](Connection&) {});
  EXPECT_TRUE(check.problems.empty()) << said(check);
  EXPECT_EQ(check.signatures, 8);
  EXPECT_GT(check.units, 30);
}

/// The columns of a table's primary key, and the same for falling order.
std::pair<std::string, std::string> primaryKey(Connection& connection, std::string_view table) {
  std::string keys, falling;
  Query row = connection.query("SELECT name FROM pragma_table_info($1) WHERE pk > 0 ORDER BY pk");
  row.bind(table);
  while (row.step()) {
    keys += (keys.empty() ? "" : ", ") + row.text(0);
    falling += (falling.empty() ? "" : ", ") + row.text(0) + " DESC";
  }
  return {keys, falling};
}

/// Another value of the same type; far enough away that no row of the table has it as its key.
std::string otherValue(const std::string& column, const std::string& type, bool nullable) {
  if (type == "INTEGER") {
    return fmt::format("coalesce({}, 0) + 1000000", column);
  }
  if (type == "REAL") {
    return fmt::format("coalesce({0} * (1 + 4.5e-16) + 5e-324, 1.5)", column);  // the next number there is
  }
  if (type == "BLOB") {
    return fmt::format("CAST(coalesce({0}, x'') || x'01' AS BLOB)", column);
  }
  return nullable ? fmt::format("CASE WHEN {0} IS NULL THEN 'x' END", column)
                  : fmt::format("{0} || ' '", column);
}

TEST_F(Tamper, EveryColumnOfEveryCoveredTable) {
  struct Target {
    std::string table, column, type;
    bool nullable;
    std::string keys, last;  ///< of the primary key; the same, falling
  };
  std::vector<Target> targets;
  {
    Connection connection(whole(), Connection::Access::readOnly);
    for (const CoveredUnit& unit : coveredUnits()) {
      for (const CoveredTable& table : unit.tables) {
        const auto [keys, last] = primaryKey(connection, table.table);
        Query row = connection.query("SELECT name, type, \"notnull\" FROM pragma_table_info($1)");
        row.bind(table.table);
        while (row.step()) {
          if (row.text(0) != "register_revision") {
            targets.push_back(
                {std::string(table.table), row.text(0), row.text(1), row.integer(2) == 0, keys, last});
          }
        }
      }
    }
  }
  int found = 0;
  for (const Target& t : targets) {
    const RecordCheck check = after([&](Connection& connection) {
      connection.execute(
          fmt::format("UPDATE {0} SET {1} = {2} WHERE ({3}) IN (SELECT {3} FROM {0} ORDER BY {4} LIMIT 1)",
                      t.table, t.column, otherValue(t.column, t.type, t.nullable), t.keys, t.last));
    });
    EXPECT_FALSE(check.problems.empty()) << t.table << "." << t.column;
    found += check.problems.empty() ? 0 : 1;
  }
  std::cout << fmt::format("columns changed: {}, found: {}\n", targets.size(), found);
  EXPECT_EQ(found, std::ssize(targets));
}

TEST_F(Tamper, TheRowThatWasChangedIsNamed) {
  const std::string id = std::to_string(full_.calibrations[4]);
  const RecordCheck check = after([&](Connection& connection) {
    connection.execute(
        "UPDATE reading SET indicated = 37.45 WHERE phase = 'as found' AND sequence = 3 AND calibration = " +
        id);
  });
  ASSERT_EQ(check.problems.size(), 1U) << said(check);
  EXPECT_NE(
      check.problems[0].what.find(
          "calibration " + id + " (AI-001, 2026-02-01T08:00:00): the row \"reading as found 3\" was changed"),
      std::string::npos)
      << check.problems[0].what;
  EXPECT_GT(check.problems[0].entry, 0);
}

TEST_F(Tamper, AReferenceJunctionGivenAfterwardsIsFound) {
  const std::string id = std::to_string(full_.calibrations[4]);
  const RecordCheck check = after([&](Connection& connection) {
    connection.execute("UPDATE calibration SET reference_junction = 23.4 WHERE id = " + id);
  });
  ASSERT_EQ(check.problems.size(), 1U) << said(check);
  EXPECT_NE(check.problems[0].what.find("calibration " + id), std::string::npos) << said(check);
}

TEST_F(Tamper, RowsDeletedInsertedAndReordered) {
  int tried = 0;
  const auto expectFound = [&](const std::string& sql, std::string_view words) {
    const RecordCheck check = after([&](Connection& connection) { connection.execute(sql); });
    ++tried;
    EXPECT_NE(said(check).find(words), std::string::npos) << sql << "\n" << said(check);
  };
  for (const CoveredUnit& unit : coveredUnits()) {
    for (const CoveredTable& table : unit.tables) {
      Connection connection(whole(), Connection::Access::readOnly);
      const std::string keys = primaryKey(connection, table.table).first;
      expectFound(
          fmt::format("DELETE FROM {0} WHERE ({1}) IN (SELECT {1} FROM {0} LIMIT 1)", table.table, keys),
          table.table == "site" ? "" : "removed");
    }
  }
  const std::string last = std::to_string(full_.calibrations.back());
  expectFound(
      "INSERT INTO calibration SELECT site, id + 1, channel, subject, setup_version, sensor, plan, "
      "plan_revision, "
      "performed, person, temperature, humidity, conditions_note, cautions_confirmed, adjusted, repaired, "
      "adjustment, found_verdict, left_verdict, remarks, source, recorded_utc, 0, NULL FROM calibration "
      "WHERE id "
      "= " +
          last,
      "was added without the journal knowing");
  expectFound(
      "INSERT INTO place SELECT site, 99, 'Elsewhere', 'Elsewhere', NULL, 9 FROM site s JOIN place ON id = 1",
      "was added without the journal knowing");
  expectFound(
      "INSERT INTO reading SELECT site, calibration, phase, sequence + 100, role, percent, direction, run, "
      "alarm, "
      "label, nominal_applied, applied, applied_unit, applied_text, indicated, indicated_unit, "
      "indicated_text, "
      "skip_reason, expected, limit_low, limit_high, uncertainty, coverage, verdict, within_one_step, "
      "floored "
      "FROM reading WHERE sequence = 2 AND phase = 'as found' AND calibration = " +
          last,
      "\"reading as found 102\" was added");
  expectFound(
      "UPDATE reading SET sequence = 3 - sequence + 100 WHERE sequence IN (1, 2) AND calibration = " + last +
          ";"
          "UPDATE reading SET sequence = sequence - 100 WHERE sequence > 100",
      "\"reading as found 1\" was changed");
  expectFound("UPDATE reading SET calibration = 99 WHERE calibration = " + last, "belong to no calibration");
  std::cout << "deletions, insertions and reorderings tried: " << tried << '\n';
}

TEST_F(Tamper, SignaturesSwapped) {
  const RecordCheck swapped = after([](Connection& connection) {
    connection.execute(
        "UPDATE life_event SET signature = (SELECT o.signature FROM life_event o WHERE o.id = 7 - "
        "life_event.id) "
        "WHERE id IN (3, 4)");
  });
  EXPECT_NE(said(swapped).find("does not hold"), std::string::npos) << said(swapped);
  // Swapped, with the journal rewritten so that it agrees: only the signatures tell, and they do.
  const RecordCheck consistent = after([](Connection& connection) {
    connection.execute("UPDATE life_event SET calibration = 3 WHERE id = 1");
    test::rewriteConsistently(
        connection, connection.integer("SELECT entry FROM journal WHERE unit = 'life' AND unit_key = '1'"));
  });
  EXPECT_NE(said(consistent).find("does not hold"), std::string::npos) << said(consistent);
}

TEST_F(Tamper, SignedReadingsWithTheJournalRewritten) {
  const RecordCheck check = after([&](Connection& connection) {
    connection.execute("UPDATE reading SET verdict = 'fail' WHERE calibration = 1 AND sequence = 1");
    test::rewriteConsistently(
        connection,
        connection.integer("SELECT entry FROM journal WHERE unit = 'calibration' AND unit_key = '1'"));
  });
  EXPECT_NE(said(check).find("was given to other readings than the record holds now"), std::string::npos)
      << said(check);
}

TEST_F(Tamper, EntriesOfTheJournal) {
  int tried = 0;
  const std::int64_t entries =
      Connection(whole(), Connection::Access::readOnly).integer("SELECT count(*) FROM journal");
  for (const char* change :
       {"at_utc = '2020-01-01T00:00:00Z'", "at_utc = 'nonsense'", "person = person || 'x'", "act = 'added '",
        "unit = 'sensor'", "unit_key = '77'", "digest = zeroblob(32)", "digest = NULL",
        "row_digests = zeroblob(8)", "detail = 'x'", "hash = zeroblob(32)", "hash = x'01'"}) {
    for (const std::int64_t entry : {std::int64_t{2}, entries / 2, entries}) {
      const RecordCheck check = after([&](Connection& connection) {
        connection.execute(fmt::format("UPDATE journal SET {} WHERE entry = {}", change, entry));
      });
      ++tried;
      EXPECT_NE(said(check).find(fmt::format("entry {} of the journal", entry)), std::string::npos)
          << change << " in " << entry << "\n"
          << said(check);
    }
  }
  for (std::int64_t entry = entries; entry > 0; entry -= 4) {  // every one takes a minute under sanitizers
    const RecordCheck check = after([&](Connection& connection) {
      connection.execute(fmt::format("DELETE FROM journal WHERE entry = {}", entry));
    });
    ++tried;
    EXPECT_FALSE(check.problems.empty()) << "entry " << entry << " deleted";
  }
  const RecordCheck swapped = after([&](Connection& connection) {
    connection.execute(
        "UPDATE journal SET entry = 11 - entry + 1000 WHERE entry IN (5, 6); "
        "UPDATE journal SET entry = entry - 1000 WHERE entry > 1000");
  });
  EXPECT_NE(said(swapped).find("entry 5 of the journal"), std::string::npos) << said(swapped);
  std::cout << "entries of the journal changed, deleted or swapped: " << tried + 1 << '\n';
}

TEST_F(Tamper, AFullConsistentRewriteIsFoundByACertificateIssuedBefore) {
  const auto rewrite = [&](Connection& connection) {
    // An unsigned calibration from before the certificate: no signature tells.
    connection.execute("UPDATE reading SET indicated = 37.45 WHERE calibration = 2 AND sequence = 1");
    test::rewriteConsistently(
        connection,
        connection.integer("SELECT entry FROM journal WHERE unit = 'calibration' AND unit_key = '2'"));
    connection.execute(
        "UPDATE life_event SET digest = (SELECT digest FROM journal WHERE unit = 'calibration' AND unit_key "
        "= "
        "'2') WHERE act = 'superseded'");
    test::rewriteConsistently(
        connection, connection.integer("SELECT j.entry FROM journal j JOIN life_event l ON j.unit_key = l.id "
                                       "WHERE j.unit = 'life' AND l.act = 'superseded'"));
  };
  const RecordCheck alone = after(rewrite);
  EXPECT_TRUE(alone.problems.empty()) << "the rewrite was meant to be without a flaw:\n" << said(alone);
  const RecordCheck held = after(rewrite, {full_.certificate.journal});
  ASSERT_EQ(held.problems.size(), 1U) << said(held);
  EXPECT_EQ(held.problems[0].entry, full_.certificate.journal.entry);
  EXPECT_NE(held.problems[0].what.find("was rewritten"), std::string::npos) << held.problems[0].what;
}

TEST_F(Tamper, ACutEndIsFoundByAHeadKeptElsewhere) {
  const JournalHead head = verifyRecord(whole()).head;
  const auto cut = [](Connection& connection) {
    // The last entry of all said that a person left; that person is put back.
    connection.execute(
        "DELETE FROM journal WHERE entry = (SELECT max(entry) FROM journal); "
        "UPDATE person SET left_on = NULL WHERE login = 'zora'");
  };
  EXPECT_TRUE(after(cut).problems.empty()) << said(after(cut));
  EXPECT_NE(said(after(cut, {head})).find("its end was cut off"), std::string::npos);
  EXPECT_TRUE(after([](Connection&) {}, {head, full_.certificate.journal}).problems.empty());
}

TEST_F(Tamper, TriggersTablesAndOrphans) {
  Connection connection(whole(), Connection::Access::readOnly);
  std::vector<std::string> triggers;
  {
    Query row = connection.query("SELECT name FROM sqlite_schema WHERE type = 'trigger'");
    row.bind();
    while (row.step()) {
      triggers.push_back(row.text(0));
    }
  }
  for (const std::string& trigger : triggers) {
    const fs::path copy = *folder_ / "untriggered.record";
    fs::remove(copy);
    fs::copy_file(whole(), copy);
    Connection(copy, Connection::Access::readWrite).execute("DROP TRIGGER " + trigger);
    EXPECT_NE(said(verifyRecord(copy)).find("the trigger " + trigger + " is missing"), std::string::npos);
  }
  std::cout << "triggers taken away: " << triggers.size() << '\n';
  EXPECT_GE(triggers.size(), 40U);
  EXPECT_NE(said(after([](Connection& c) {
              c.execute("CREATE TABLE more (a)");
            })).find("table more that this program did not make"),
            std::string::npos);
  EXPECT_NE(said(after([](Connection& c) {
              c.execute("INSERT INTO place SELECT 'ELSE', id, path, name, parent, walking_order FROM place");
            })).find("belong to another site"),
            std::string::npos);
}

}  // namespace
}  // namespace spanwright
