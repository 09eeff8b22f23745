// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/migrations/migrations.h"

#include <array>

#include "samples.h"

namespace spanwright {
namespace {

const std::array kTwoSteps{Migration{1, migration::kVersion1},
                           Migration{2, "ALTER TABLE person ADD COLUMN badge TEXT NOT NULL DEFAULT ''"}};

class Migrations : public testing::Test {
 protected:
  Migrations() {
    Store store = Store::create(file, test::sampleRegister());
    store.add(test::plainCalibration("AI-001", "2026-01-01"));
  }
  Connection raw() { return Connection(file, Connection::Access::readWrite); }
  const test::Folder folder;
  const std::filesystem::path file = folder / "site.record";
};

TEST(MigrationSteps, AreNumberedFromOneWithoutGaps) {
  int version = 0;
  for (const Migration& step : migrations()) {
    EXPECT_EQ(step.version, ++version);
  }
  EXPECT_GE(version, 1);
}

TEST_F(Migrations, ANewerRecordIsRefusedUnchanged) {
  raw().execute("PRAGMA user_version = 2");
  for (const auto mode : {Store::Mode::readOnly, Store::Mode::readWrite}) {
    const std::string said = test::refusal([&] { Store::open(file, mode); });
    EXPECT_NE(
        said.find("newer version of this program (record version 2, known up to 1); update this program"),
        std::string::npos)
        << said;
    test::expectSentence(said, file);
  }
  EXPECT_EQ(raw().integer("PRAGMA user_version"), 2);
}

TEST_F(Migrations, AStepKeepsWhatIsThere) {
  {
    Connection connection = raw();
    migrate(connection, kTwoSteps);
    EXPECT_EQ(connection.integer("PRAGMA user_version"), 2);
    EXPECT_EQ(connection.integer("SELECT count(*) FROM person WHERE badge = ''"), 2);
    migrate(connection, kTwoSteps);  // taken once
    connection.execute("PRAGMA user_version = 1");
  }
  EXPECT_EQ(Store::open(file).calibration(1)->asFound.size(), 5U);
}

TEST_F(Migrations, AFailingStepLeavesTheRecordAsItWas) {
  const std::array failing{kTwoSteps[0], kTwoSteps[1],
                           Migration{3, "CREATE TABLE extra (a) ; INSERT INTO missing VALUES (1)"}};
  Connection connection = raw();
  test::refusal([&] { migrate(connection, failing); });
  EXPECT_EQ(connection.integer("PRAGMA user_version"), 1);
  EXPECT_EQ(connection.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'extra'"), 0);
  EXPECT_EQ(connection.integer("SELECT count(*) FROM pragma_table_info('person') WHERE name = 'badge'"), 0);
}

// A record as it was written by the first version: its tables are frozen, so this count changes only when
// somebody edited a released step instead of adding one.
TEST_F(Migrations, VersionOneIsFrozen) {
  Connection connection = raw();
  EXPECT_EQ(connection.integer(
                "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'"),
            23);
  EXPECT_EQ(
      connection.text("SELECT group_concat(name) FROM pragma_table_info('reading')"),
      "site,calibration,phase,sequence,role,percent,direction,run,alarm,label,nominal_applied,applied,"
      "applied_unit,applied_text,indicated,indicated_unit,indicated_text,skip_reason,expected,limit_low,"
      "limit_high,uncertainty,coverage,verdict,within_one_step,floored");
}

TEST_F(Migrations, EveryKeyBeginsWithTheSite) {
  Connection connection = raw();
  Query tables = connection.query(
      "SELECT t.name, (SELECT c.name FROM pragma_table_info(t.name) c WHERE c.pk = 1) FROM sqlite_schema t "
      "WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' AND t.name <> 'site'");
  tables.bind();
  int seen = 0;
  while (tables.step()) {
    EXPECT_EQ(tables.text(1), "site") << tables.text(0);
    ++seen;
  }
  EXPECT_GT(seen, 15);
}

}  // namespace
}  // namespace spanwright
