// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/migrations/migrations.h"

#include <fmt/format.h>

#include <fstream>
#include <vector>

#include "core/store/verify.h"
#include "samples.h"

namespace spanwright {
namespace {

/// All steps there are and one more.
std::vector<Migration> oneMore() {
  std::vector<Migration> steps(migrations().begin(), migrations().end());
  steps.push_back({steps.back().version + 1, "ALTER TABLE person ADD COLUMN badge TEXT NOT NULL DEFAULT ''"});
  return steps;
}
int newest() {
  return migrations().back().version;
}

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
  raw().execute(fmt::format("PRAGMA user_version = {}", newest() + 1));
  for (const auto mode : {Store::Mode::readOnly, Store::Mode::readWrite}) {
    const std::string said = test::refusal([&] { Store::open(file, mode); });
    EXPECT_NE(said.find(fmt::format(
                  "newer version of this program (record version {}, known up to {}); update this program",
                  newest() + 1, newest())),
              std::string::npos)
        << said;
    test::expectSentence(said, file);
  }
  EXPECT_EQ(raw().integer("PRAGMA user_version"), newest() + 1);
}

TEST_F(Migrations, AStepKeepsWhatIsThere) {
  {
    Connection connection = raw();
    migrate(connection, oneMore());
    EXPECT_EQ(connection.integer("PRAGMA user_version"), newest() + 1);
    EXPECT_EQ(connection.integer("SELECT count(*) FROM person WHERE badge = ''"), 2);
    migrate(connection, oneMore());  // taken once
    connection.execute(fmt::format("PRAGMA user_version = {}", newest()));
  }
  EXPECT_EQ(Store::open(file).calibration(1)->asFound.size(), 5U);
}

TEST_F(Migrations, AFailingStepLeavesTheRecordAsItWas) {
  std::vector<Migration> failing = oneMore();
  failing.push_back({newest() + 2, "CREATE TABLE extra (a) ; INSERT INTO missing VALUES (1)"});
  Connection connection = raw();
  test::refusal([&] { migrate(connection, failing); });
  EXPECT_EQ(connection.integer("PRAGMA user_version"), newest());
  EXPECT_EQ(connection.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'extra'"), 0);
  EXPECT_EQ(connection.integer("SELECT count(*) FROM pragma_table_info('person') WHERE name = 'badge'"), 0);
}

/// The kept record of that version, made again from its text.
void makeKeptRecord(const std::filesystem::path& file, int version = 1) {
  std::ifstream text(fmt::format(SPANWRIGHT_SOURCE_DIR "/tests/core/store/records/version_{}.sql", version));
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
  Register then = now.site();  // less what version 1 did not have
  then.calendar.earlyDays = 30;
  then.people[0].hoursPerWeek.reset();
  then.people[0].away.clear();
  then.intervals[1].minimumDays = then.intervals[1].maximumDays = 0;
  then.intervals[1].lengthen = then.intervals[1].shorten = 0.0;
  EXPECT_EQ(test::everything(old.site()), test::everything(then));
  ASSERT_EQ(old.calibrationCount(), 2);
  for (const CalibrationId id : {1, 2}) {
    EXPECT_EQ(test::everything(*old.calibration(id)), test::everything(*now.calibration(id)));
  }
  EXPECT_EQ(test::everything(*old.draft(1)), test::everything(*now.draft(1)));
  EXPECT_EQ(old.issuedCertificate(2)->number, "LARK-2026-0001");
  EXPECT_EQ(old.issuedCertificate(2)->issuedUtc, now.issuedCertificate(2)->issuedUtc);
  EXPECT_EQ(old.issuedCertificate(2)->revisedUtc, now.issuedCertificate(2)->revisedUtc);
}

TEST_F(Migrations, AnOlderRecordComesUnderTheJournal) {
  const auto kept = folder / "kept.record";
  makeKeptRecord(kept);
  EXPECT_NE(test::refusal([&] { verifyRecord(kept); }).find("open it once for writing"), std::string::npos);
  Store::open(kept);
  const RecordCheck check = verifyRecord(kept);
  EXPECT_TRUE(check.problems.empty()) << check.problems.front().what;
  EXPECT_GT(check.units, 20);
  Store store = Store::open(kept);
  store.forEachEntry(2, [](const JournalEntry& entry) {
    EXPECT_EQ(entry.act, acts::kTakenOver) << entry.entry;
    return true;
  });
  store.add(test::plainCalibration("AI-001", "2026-02-01"));
  EXPECT_TRUE(verifyRecord(kept).problems.empty());
}

// The mV in them stay what they were, emf referred to 0 degC; a visit entered from then on can say otherwise.
TEST_F(Migrations, VisitsOfVersionOneHaveNoReferenceJunction) {
  const auto kept = folder / "kept.record";
  makeKeptRecord(kept);
  EXPECT_EQ(
      Connection(kept, Connection::Access::readOnly)
          .integer("SELECT count(*) FROM pragma_table_info('calibration') WHERE name = 'reference_junction'"),
      0);
  Store store = Store::open(kept);
  for (const CalibrationId id : {1, 2}) {
    EXPECT_EQ(store.calibration(id).value().conditions.referenceJunction, std::nullopt) << id;
  }
  EXPECT_EQ(store.draft(1).value().conditions.referenceJunction, std::nullopt);
  Calibration made = test::plainCalibration("AI-001", "2026-02-01");
  made.conditions.referenceJunction = 23.4;
  const CalibrationId id = store.add(made);
  EXPECT_EQ(store.calibration(id).value().conditions.referenceJunction, 23.4);
  EXPECT_TRUE(verifyRecord(kept).problems.empty());
}

// What version 1 did not have is not stated in its plans, and can be from then on.
TEST_F(Migrations, PlansOfVersionOneStateNothingOfJunctionAndLeads) {
  const auto kept = folder / "kept.record";
  makeKeptRecord(kept);
  EXPECT_EQ(Connection(kept, Connection::Access::readOnly).integer("PRAGMA user_version"), 1);
  const Register older = Store::open(kept).site();
  for (const Plan& plan : older.plans) {
    EXPECT_FALSE(plan.junctionUncertainty || plan.leadHalfWidth) << plan.code;
  }
  Connection now(kept, Connection::Access::readWrite);
  EXPECT_EQ(now.integer("PRAGMA user_version"), newest());
  now.execute("UPDATE plan SET junction_uncertainty = 0.4, lead_half_width = 0.05 WHERE id = 1");
  const Store stated = Store::open(kept);
  EXPECT_EQ(stated.site().plans.at(0).junctionUncertainty, 0.4);
  EXPECT_EQ(stated.site().plans.at(0).leadHalfWidth, 0.05);
}

// Nobody had accepted an interval or had hours, and the visits stay where the journal saw them.
TEST_F(Migrations, AKeptRecordOfVersionThreeTakesAcceptedIntervals) {
  const auto kept = folder / "kept.record";
  makeKeptRecord(kept, 3);
  EXPECT_EQ(Connection(kept, Connection::Access::readOnly).integer("PRAGMA user_version"), 3);
  {
    Store store = Store::open(kept);
    const Register& site = store.site();
    EXPECT_EQ(site.calendar.earlyDays, 30);
    EXPECT_FALSE(site.people.at(0).hoursPerWeek);
    EXPECT_TRUE(site.people.at(0).away.empty());
    EXPECT_EQ(site.intervals.at(0).kind, PolicyKind::fixed);
    EXPECT_EQ(site.intervals.at(0).maximumDays, 730);
    EXPECT_TRUE(site.channels.at(0).acceptedIntervals.empty());
    ASSERT_EQ(store.calibrationCount(), 1);
    EXPECT_EQ(store.calibration(1)->asFound.size(), 3U);
    std::vector<std::string> takenOver;
    store.forEachEntry(12, [&](const JournalEntry& entry) {
      EXPECT_EQ(entry.act, acts::kTakenOver) << entry.entry;
      takenOver.push_back(entry.unit);
      return true;
    });
    EXPECT_EQ(takenOver, (std::vector<std::string>{"site", "person", "interval"}));
    AcceptedInterval accepted;
    accepted.days = 200;
    accepted.fromDay = test::on("2026-11-25");
    accepted.policy = "yearly";
    accepted.person = "adale";
    accepted.atUtc = test::at("2026-11-25T12:00:00");
    accepted.reason = "tried";
    store.acceptInterval("PT-2", accepted);
  }
  EXPECT_EQ(Store::open(kept).site().channels.at(0).acceptedIntervals.at(0).days, 200);
  const RecordCheck check = verifyRecord(kept);
  EXPECT_TRUE(check.problems.empty()) << check.problems.front().what;
}

// Somebody who edits a released step instead of adding one makes two kinds of version 1.
TEST_F(Migrations, VersionOneIsFrozen) {
  const auto kept = folder / "kept.record";
  makeKeptRecord(kept);
  Connection old(kept, Connection::Access::readWrite);
  Connection fresh(folder / "fresh.record", Connection::Access::create);
  migrate(fresh, migrations().first(1));
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
