// SPDX-License-Identifier: GPL-3.0-or-later
//
// The numbered invariants of core/store/migrations/version_1.cpp, tried with raw SQL on the file.
#include "core/store/sqlite_connection.h"
#include "samples.h"

namespace spanwright {
namespace {

class Invariants : public testing::Test {
 protected:
  Invariants() {
    Store store = Store::create(file, test::sampleRegister());
    store.add(test::plainCalibration("AI-001", "2026-01-01"));
    store.issueCertificate(1);
    connection = std::make_unique<Connection>(file, Connection::Access::readWrite);
    connection->execute("PRAGMA foreign_keys = OFF");  // the triggers must do it alone
  }

  /// Every statement is refused by a trigger that says "... never ..." or the like, and changes nothing.
  void expectRefused(const char* table, std::initializer_list<std::string> statements) {
    const std::string before = dump(table);
    for (const std::string& sql : statements) {
      const std::string said = test::refusal([&] { connection->execute(sql); });
      EXPECT_NE(said.find("refused the change: "), std::string::npos) << sql << "\n" << said;
      EXPECT_EQ(said.find("constraint"), std::string::npos) << sql << "\n" << said;
    }
    EXPECT_EQ(dump(table), before);
  }
  std::string dump(const std::string& table) {
    Query columns =
        connection->query("SELECT group_concat('quote(' || name || ')', '||') FROM pragma_table_info($1)");
    columns.bind(table).step();
    return connection->text("SELECT group_concat(" + columns.text(0) + ", char(10)) FROM " + table);
  }
  /// All rows written once more over themselves.
  static std::string replaced(const std::string& table) {
    return "INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table;
  }

  const test::Folder folder;
  const std::filesystem::path file = folder / "site.record";
  std::unique_ptr<Connection> connection;
};

TEST_F(Invariants, Invariant1_SetupsAreNeverChanged) {
  expectRefused(
      "channel_setup",
      {"UPDATE channel_setup SET parameters = '{}'",
       "UPDATE channel_setup SET remark = 'x' WHERE version = 1", "DELETE FROM channel_setup",
       "DELETE FROM channel_setup WHERE version = 7", replaced("channel_setup"),
       "INSERT OR REPLACE INTO channel_setup SELECT site, channel, version, in_force_from, kind, '{}', 0, '' "
       "FROM channel_setup WHERE version = 7"});
}

TEST_F(Invariants, Invariant2_CalibrationsAreNeverChanged) {
  expectRefused(
      "calibration",
      {"UPDATE calibration SET left_verdict = 'fail'", "UPDATE calibration SET remarks = 'x'",
       "UPDATE OR REPLACE calibration SET id = 2", "DELETE FROM calibration", replaced("calibration")});
}

TEST_F(Invariants, Invariant2_ReadingsAreNeverChangedOrAdded) {
  expectRefused("reading",
                {"UPDATE reading SET indicated = 0", "UPDATE reading SET calibration = 2",
                 "DELETE FROM reading", "DELETE FROM reading WHERE sequence = 5", replaced("reading"),
                 "INSERT INTO reading SELECT site, calibration, 'as left', sequence, role, percent, "
                 "direction, run, alarm, "
                 "label, nominal_applied, applied, applied_unit, applied_text, indicated, indicated_unit, "
                 "indicated_text, "
                 "skip_reason, expected, limit_low, limit_high, uncertainty, coverage, verdict, "
                 "within_one_step, floored "
                 "FROM reading"});
}

TEST_F(Invariants, Invariant2_UsedStandardsAreNeverChangedOrAdded) {
  expectRefused("calibration_standard", {"UPDATE calibration_standard SET certificate = 'x'",
                                         "DELETE FROM calibration_standard", replaced("calibration_standard"),
                                         "INSERT INTO calibration_standard VALUES ('LARK', 1, 2, 2, '')"});
}

TEST_F(Invariants, Invariant3_IssuedCertificatesKeepTheirNumber) {
  expectRefused("issued_certificate", {"UPDATE issued_certificate SET number = 'LARK-2020-0001'",
                                       "UPDATE issued_certificate SET calibration = 2",
                                       "UPDATE issued_certificate SET issued_utc = ''",
                                       "DELETE FROM issued_certificate", replaced("issued_certificate")});
}

TEST_F(Invariants, Invariant4_FittingsOnlyGainTheirEnd) {
  expectRefused("fitting", {"UPDATE fitting SET sensor = 3", "UPDATE fitting SET fitted_from = '2000-01-01'",
                            "DELETE FROM fitting", replaced("fitting")});
}

TEST_F(Invariants, Invariant5_StandardsCertificatesAreNeverChanged) {
  expectRefused("standard_certificate",
                {"UPDATE standard_certificate SET valid_until = '2099-01-01'",
                 "DELETE FROM standard_certificate", replaced("standard_certificate")});
  expectRefused("standard_range", {"UPDATE standard_range SET resolution = 1", "DELETE FROM standard_range",
                                   replaced("standard_range")});
  expectRefused("standard_point", {"UPDATE standard_point SET error = 0", "DELETE FROM standard_point",
                                   replaced("standard_point")});
}

TEST_F(Invariants, AReadingWithoutANumberOrAReasonIsRefused) {
  const std::string said = test::refusal([&] {
    connection->execute(
        "INSERT INTO reading SELECT site, 77, phase, sequence, role, percent, direction, run, alarm, label, "
        "nominal_applied, applied, applied_unit, applied_text, NULL, indicated_unit, indicated_text, '', "
        "expected, "
        "limit_low, limit_high, uncertainty, coverage, verdict, within_one_step, floored FROM reading");
  });
  EXPECT_NE(said.find("CHECK"), std::string::npos) << said;
}

TEST_F(Invariants, OtherToolsReadNamesAndNumbers) {
  Query row = connection->query(
      "SELECT channel, subject, performed, sequence, applied, applied_unit, indicated, indicated_unit, error "
      "FROM reading_list WHERE sequence = 3");
  ASSERT_TRUE(row.bind().step());
  EXPECT_EQ(row.text(0), "AI-001");
  EXPECT_EQ(row.text(2), "2026-01-01T00:00:00");
  EXPECT_EQ(row.real(4), 7.0);
  EXPECT_EQ(row.text(5), "mA");
  EXPECT_EQ(row.text(7), "degC");
  EXPECT_EQ(row.real(8), row.real(6) - 37.5);
  EXPECT_EQ(connection->text("SELECT person FROM calibration_list"), "zora");
}

}  // namespace
}  // namespace spanwright
