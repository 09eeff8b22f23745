// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/covered.h"

#include <map>
#include <set>

#include "full_record.h"

namespace spanwright {
namespace {

/// Not covered, and why.
const std::map<std::string, std::string> kNotCovered{
    {"journal", "is the chain itself"},      {"draft", "may change and go"},
    {"draft_standard", "may change and go"}, {"draft_value", "may change and go"},
    {"counter", "only numbers drafts"},
};

TEST(Covered, EveryColumnOfEveryTable) {
  const test::Folder folder;
  const test::FixedClock clock("2026-11-20T10:00:00", "2026-11-20T09:00:00");
  test::makeFullRecord(folder / "site.record", clock);
  Connection connection(folder / "site.record", Connection::Access::readOnly);
  std::map<std::string, std::set<std::string>> covered;
  for (const CoveredUnit& unit : coveredUnits()) {
    for (const CoveredTable& table : unit.tables) {
      for (const std::string& column : columnNames(table.columns)) {
        covered[std::string(table.table)].insert(column);
      }
    }
  }
  covered["site"].insert("register_revision");  // counts changes for other programs, says nothing
  Query row = connection.query(
      "SELECT s.name, c.name FROM sqlite_schema s JOIN pragma_table_info(s.name) c WHERE s.type = 'table'");
  row.bind();
  int columns = 0;
  while (row.step()) {
    if (kNotCovered.contains(row.text(0))) {
      continue;
    }
    EXPECT_TRUE(covered[row.text(0)].contains(row.text(1))) << row.text(0) << "." << row.text(1);
    ++columns;
  }
  EXPECT_GT(columns, 150);
}

TEST(Covered, TheFullSampleHasARowInEveryTable) {
  const test::Folder folder;
  const test::FixedClock clock("2026-11-20T10:00:00", "2026-11-20T09:00:00");
  test::makeFullRecord(folder / "site.record", clock);
  Connection connection(folder / "site.record", Connection::Access::readOnly);
  for (const CoveredUnit& unit : coveredUnits()) {
    for (const CoveredTable& table : unit.tables) {
      EXPECT_GT(connection.integer("SELECT count(*) FROM " + std::string(table.table)), 0) << table.table;
    }
  }
}

// The form of DEVELOPERS.md and covered.h, written out by hand: it can never change for records that exist.
TEST(Covered, TheFormOfARowIsTheDocumentedOne) {
  Connection connection = Connection::temporary();
  Query row = connection.query("SELECT NULL, -7, 0.1, 2.0, 'µ:\n', x'00ff', ''");
  row.bind().step();
  const std::vector<std::string> columns{"a", "b", "c", "d", "e", "f", "g"};
  const std::string expected =
      std::string("t\na:n\nb:i-7\nc:r0.1\nd:r2\ne:t4:µ:\n\nf:b2:") + '\0' + "\xff\ng:t0:\n";
  EXPECT_EQ(rowText("t", columns, row), expected);
}

TEST(Covered, KeysAreWrittenAndReadBack) {
  for (const auto& numbers : {std::vector<std::int64_t>{}, {5}, {5, 6}, {-1, 0, 7}}) {
    EXPECT_EQ(parseKeyText(keyText({"x", numbers})), numbers);
  }
  for (const char* bad : {"a", "1/", "/1", "1//2", "1/2/3/4", "1 "}) {
    EXPECT_FALSE(parseKeyText(bad)) << bad;
  }
}

}  // namespace
}  // namespace spanwright
