// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite_connection.h"

#include <atomic>
#include <fstream>
#include <thread>

#include "samples.h"

namespace spanwright {
namespace {

using Access = Connection::Access;
using std::chrono::milliseconds;

class ConnectionTest : public testing::Test {
 protected:
  ConnectionTest() { connection.execute("CREATE TABLE t (a INTEGER, b REAL, c TEXT) STRICT"); }
  const test::Folder folder;
  const std::filesystem::path file = folder / "a.db";
  Connection connection{file, Access::create, milliseconds(50)};
};

TEST_F(ConnectionTest, ValuesComeBackAsTheyWent) {
  const std::string zero("a\0b", 3);
  connection.query("INSERT INTO t VALUES ($1, $2, $3)").run(std::int64_t{1} << 62, 0.1, zero);
  connection.query("INSERT INTO t VALUES ($1, $2, $3)").run(nullptr, std::optional<double>(), "");
  Query row = connection.query("SELECT a, b, c FROM t ORDER BY rowid");
  row.bind();
  ASSERT_TRUE(row.step());
  EXPECT_EQ(row.integer(0), std::int64_t{1} << 62);
  EXPECT_EQ(row.real(1), 0.1);
  EXPECT_EQ(row.text(2), zero);
  EXPECT_NE(test::refusal([&] { row.smallInteger(0); }).find("damaged"), std::string::npos);
  ASSERT_TRUE(row.step());
  EXPECT_TRUE(row.isNull(0));
  EXPECT_EQ(row.optionalReal(1), std::nullopt);
  EXPECT_FALSE(row.isNull(2));  // an empty text is not NULL
  EXPECT_EQ(row.text(2), "");
  EXPECT_FALSE(row.step());
}

TEST_F(ConnectionTest, TheSameStatementTwiceAtATime) {
  connection.execute("INSERT INTO t (a) VALUES (1), (2), (3)");
  const char* const sql = "SELECT a FROM t ORDER BY a";
  Query outer = connection.query(sql);
  outer.bind();
  int pairs = 0;
  while (outer.step()) {
    Query inner = connection.query(sql);
    inner.bind();
    while (inner.step()) {
      ++pairs;
    }
  }
  EXPECT_EQ(pairs, 9);
}

TEST_F(ConnectionTest, ScopesUndoWhatIsNotCommitted) {
  const auto count = [this] { return connection.integer("SELECT count(*) FROM t"); };
  {
    const WriteScope scope(connection);
    connection.execute("INSERT INTO t (a) VALUES (1)");
  }
  EXPECT_EQ(count(), 0);
  {
    WriteScope whole(connection);
    connection.execute("INSERT INTO t (a) VALUES (1)");
    {
      const WriteScope part(connection);
      connection.execute("INSERT INTO t (a) VALUES (2)");
    }
    {
      WriteScope part(connection);
      connection.execute("INSERT INTO t (a) VALUES (3)");
      part.commit();
    }
    whole.commit();
  }
  EXPECT_EQ(count(), 2);
  EXPECT_FALSE(connection.inTransaction());
}

TEST_F(ConnectionTest, BusyIsSaidAfterWaiting) {
  Connection other(file, Access::readWrite, milliseconds(200));
  WriteScope mine(connection);
  const auto begin = std::chrono::steady_clock::now();
  const std::string said = test::refusal([&] { const WriteScope theirs(other); });
  EXPECT_GE(std::chrono::steady_clock::now() - begin, milliseconds(190));
  EXPECT_NE(said.find("another program is writing"), std::string::npos) << said;
  test::expectSentence(said, file);
}

TEST_F(ConnectionTest, ALongWaitIsToldOnceAndItsEndAsWell) {
  Connection other(file, Access::readWrite);
  std::vector<bool> told;
  other.onWaiting([&told](bool waiting) { told.push_back(waiting); });
  const auto writeWhileHeldFor = [&](milliseconds held) {
    std::atomic<bool> holds = false;
    std::jthread holder([&] {
      Connection third(file, Access::readWrite);
      const WriteScope theirs(third);
      holds = true;
      std::this_thread::sleep_for(held);
    });
    while (!holds) {
      std::this_thread::yield();
    }
    WriteScope mine(other);
    other.execute("INSERT INTO t (a) VALUES (1)");
    mine.commit();
    holder.join();
  };
  writeWhileHeldFor(milliseconds(100));
  EXPECT_TRUE(told.empty());
  writeWhileHeldFor(Connection::kQuietWait + milliseconds(400));
  EXPECT_EQ(told, (std::vector{true, false}));
  other.onWaiting([](bool) { throw std::runtime_error("nobody may hear this"); });
  EXPECT_NO_THROW(writeWhileHeldFor(Connection::kQuietWait + milliseconds(200)));
  EXPECT_EQ(connection.integer("SELECT count(*) FROM t"), 3);
}

TEST_F(ConnectionTest, AWaitInVainIsToldAndSaid) {
  Connection other(file, Access::readWrite, Connection::kQuietWait + milliseconds(200));
  std::vector<bool> told;
  other.onWaiting([&told](bool waiting) { told.push_back(waiting); });
  const WriteScope mine(connection);
  test::refusal([&] { const WriteScope theirs(other); });
  EXPECT_EQ(told, (std::vector{true, false}));
}

TEST_F(ConnectionTest, FullDiskIsSaidAndEndsTheTransaction) {
  connection.execute("PRAGMA max_page_count = 4");
  WriteScope scope(connection);
  const std::string said = test::refusal(
      [&] { connection.query("INSERT INTO t (c) VALUES ($1)").run(std::string(100'000, 'x')); });
  EXPECT_NE(said.find("disk is full"), std::string::npos) << said;
  test::expectSentence(said, file);
}

TEST_F(ConnectionTest, ALongStatementIsStoppedWhenAskedTo) {
  Connection counting = Connection::temporary();
  const auto count = [&counting] {
    return counting.integer(
        "WITH RECURSIVE c (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM c LIMIT 200000) SELECT count(*) FROM "
        "c");
  };
  int asked = 0;
  counting.stopUnless([&asked] { return ++asked < 3; });
  EXPECT_EQ(test::inputRefusal(count).find("cancelled"), 0U);
  EXPECT_EQ(asked, 3);
  counting.stopUnless({});
  EXPECT_EQ(count(), 200000) << "and it goes on being of use";
}

TEST_F(ConnectionTest, ReadOnlyRefusesToWrite) {
  for (const Access access : {Access::readOnly, Access::frozen}) {
    Connection reading(file, access);
    EXPECT_EQ(reading.integer("SELECT count(*) FROM t"), 0);
    const std::string said = test::refusal([&] { reading.execute("INSERT INTO t (a) VALUES (1)"); });
    EXPECT_NE(said.find("read-only"), std::string::npos) << said;
    test::expectSentence(said, file);
  }
}

TEST_F(ConnectionTest, FrozenFindsFilesWithOddNames) {
  const auto odd = folder / "50% ?odd#n\xC3\xA4me &.db";
  { Connection(odd, Access::create).execute("CREATE TABLE here (a)"); }
  Connection reading(odd, Access::frozen);
  EXPECT_EQ(reading.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'here'"), 1);
}

TEST_F(ConnectionTest, WhatCannotBeOpenedIsSaid) {
  const auto missing = folder / "missing.db";
  std::string said =
      test::refusal([&] { Connection(missing, Access::readWrite).integer("SELECT 1 FROM t"); });
  EXPECT_NE(said.find("is not there"), std::string::npos) << said;
  test::expectSentence(said, missing);
  const auto noise = folder / "noise.db";
  std::ofstream(noise) << std::string(5000, 'n');
  said = test::refusal([&] { Connection(noise, Access::readWrite).integer("SELECT 1 FROM t"); });
  EXPECT_NE(said.find("is not a record of this program"), std::string::npos) << said;
  test::expectSentence(said, noise);
}

TEST_F(ConnectionTest, ConstraintsSpeakInTheirOwnWords) {
  connection.execute("CREATE TRIGGER never BEFORE DELETE ON t BEGIN SELECT RAISE(ABORT, 'a row stays'); END");
  connection.execute("INSERT INTO t (a) VALUES (1)");
  const std::string said = test::refusal([&] { connection.execute("DELETE FROM t"); });
  EXPECT_EQ(said, '"' + file.string() + "\" refused the change: a row stays; nothing was changed.");
}

TEST(InsertInto, CountsItsColumns) {
  EXPECT_EQ(insertInto("t", "a"), "INSERT INTO t (a) VALUES ($1)");
  EXPECT_EQ(insertInto("t", "a, b, c"), "INSERT INTO t (a, b, c) VALUES ($1, $2, $3)");
}

}  // namespace
}  // namespace spanwright
