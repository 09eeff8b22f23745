// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/migrations/migrations.h"

#include <array>
#include <fstream>

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

/// The kept record of version 1, made again from its text.
void makeKeptRecord(const std::filesystem::path& file) {
  std::ifstream text(SPANWRIGHT_SOURCE_DIR "/tests/core/store/records/version_1.sql");
  const std::string sql{std::istreambuf_iterator<char>(text), {}};
  Connection(file, Connection::Access::create).execute(sql);
}

std::string tables(Connection& connection) {
  return connection.text(
      "SELECT group_concat(sql, char(10)) FROM (SELECT sql FROM sqlite_schema ORDER BY type, name)");
}

TEST_F(Migrations, AKeptRecordOfVersionOneOpensWhole) {
  const auto kept = folder / "kept.record";
  const auto made = folder / "made.record";
  makeKeptRecord(kept);
  test::makeSampleRecord(made);
  const Store old = Store::open(kept);
  const Store now = Store::open(made);
  EXPECT_EQ(test::everything(old.site()), test::everything(now.site()));
  ASSERT_EQ(old.calibrationCount(), 2);
  for (const CalibrationId id : {1, 2}) {
    EXPECT_EQ(test::everything(*old.calibration(id)), test::everything(*now.calibration(id)));
  }
  EXPECT_EQ(test::everything(*old.draft(1)), test::everything(*now.draft(1)));
  EXPECT_EQ(old.issuedCertificate(2)->number, "LARK-2026-0001");
}

// Somebody who edits a released step instead of adding one makes two kinds of version 1.
TEST_F(Migrations, VersionOneIsFrozen) {
  const auto kept = folder / "kept.record";
  makeKeptRecord(kept);
  Connection old(kept, Connection::Access::readWrite);
  Connection fresh(folder / "fresh.record", Connection::Access::create);
  migrate(fresh, std::span(kTwoSteps).first(1));
  EXPECT_EQ(tables(fresh), tables(old));
  EXPECT_FALSE(tables(old).empty());
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
