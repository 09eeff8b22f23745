// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/history_import.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <unistd.h>

#include <filesystem>
#include <random>

#include "core/tasks/staged_history.h"
#include "tests/core/tasks/visit_site.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

const Moment kNow = moment("2026-11-25T12:00");

class HistoryImportTest : public testing::Test {
 protected:
  HistoryImportTest()
      : folder_(std::filesystem::path(testing::TempDir()) / fmt::format("spanwright-import-{}", getpid())),
        store_((std::filesystem::remove_all(folder_), std::filesystem::create_directories(folder_),
                Store::create(folder_ / "site.db", visitSite()))) {}
  ~HistoryImportTest() override {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }

  /// One of the three points of TT-110 (plan AI-3): reads what it should, shifted by `off`.
  static HistoryRow row(const std::string& when, int percent, int line, double off = 0.0) {
    HistoryRow made;
    made.channel = "TT-110";
    made.performed = moment(when);
    made.key = std::to_string(percent);
    made.direction = Direction::up;
    made.typed.indicatedText = fmt::format("{:.1f}", 1.5 * percent + off);
    made.person = "mtolland";
    made.standards = {"LC-2201"};
    made.line = line;
    made.indicatedColumn = 7;
    made.appliedColumn = 6;
    return made;
  }
  /// Adds a visit of three rows that begins in `line`.
  static void addVisit(HistoryImport& import, const std::string& when, int line, double off = 0.0) {
    for (int i = 0; i < 3; ++i) {
      import.add(row(when, 50 * i, line + i, off));
    }
  }
  ImportOutcome take(const std::vector<HistoryRow>& rows, bool keepGood = false, bool dryRun = false) {
    HistoryImport import(store_, kNow, DecimalSign::point);
    import.beginFile("/some/where/history.csv");
    import.headings({"Tag", "Date", "Phase", "Point", "Way", "Applied", "Reading"});
    for (const auto& each : rows) {
      import.add(each);
    }
    return import.finish(keepGood, dryRun);
  }
  static std::vector<HistoryRow> visit(const std::string& when, int line) {
    return {row(when, 0, line), row(when, 50, line + 1), row(when, 100, line + 2)};
  }
  static std::string said(const ImportOutcome& outcome) {
    std::string all;
    for (const auto& one : outcome.rejected) {
      all += fmt::format("{}:{} {}: {} [{}]\n", one.where.line, one.where.column, one.where.columnName,
                         one.reason, fmt::join(one.lines, " "));
    }
    return all;
  }

  std::filesystem::path folder_;
  Store store_;
};

TEST_F(HistoryImportTest, GroupsRowsIntoVisitsWhateverTheirOrder) {
  HistoryImport import(store_, kNow, DecimalSign::point);
  import.beginFile("/some/where/history.csv");
  import.add(row("2025-03-01T08:00", 50, 2));
  import.add(row("2026-03-01T08:00", 0, 3));
  import.add(row("2025-03-01T08:00", 0, 4));
  const ImportOutcome outcome = import.finish(false, false);
  EXPECT_EQ(said(outcome), "");
  EXPECT_EQ(outcome.calibrations, 2);
  EXPECT_EQ(outcome.readings, 3);
  const auto history = store_.history("TT-110");
  ASSERT_THAT(history, SizeIs(2));
  ASSERT_THAT(history[0].asFound, SizeIs(2));
  EXPECT_EQ(history[0].asFound[1].indicatedText, "75.0");
  EXPECT_EQ(history[0].source, "history.csv");
  EXPECT_EQ(history[0].person, "mtolland");
  ASSERT_THAT(history[0].standards, SizeIs(1));
  EXPECT_EQ(history[0].standards[0].certificate, "C-2");
  EXPECT_EQ(store_.stagedCount(), 0);
}

TEST_F(HistoryImportTest, KeepsWhatEachRowSaysOfTheVisit) {
  auto rows = visit("2026-03-01T08:00", 2);
  rows[0].remarks = "dry";
  rows[1].remarks = "dry";
  rows[2].remarks = "noisy";
  rows[0].temperature = 21.0;
  rows[2].temperature = 22.5;
  rows[1].humidity = 40.0;
  rows[2].adjusted = true;
  rows[2].adjustmentText = "zero trimmed";
  auto left = row("2026-03-01T08:00", 0, 5);
  left.phase = Phase::asLeft;
  rows.push_back(left);
  const ImportOutcome outcome = take(rows);
  EXPECT_EQ(said(outcome), "");
  const auto history = store_.history("TT-110");
  ASSERT_THAT(history, SizeIs(1));
  EXPECT_EQ(history[0].remarks, "dry; noisy");
  EXPECT_EQ(history[0].conditions.temperature, 21.0);
  EXPECT_EQ(history[0].conditions.humidity, 40.0);
  EXPECT_EQ(history[0].conditions.note, "temperature from 21 to 22.5 degC during the visit");
  EXPECT_TRUE(history[0].adjustment.adjusted);
  EXPECT_EQ(history[0].adjustment.text, "zero trimmed");
  EXPECT_THAT(history[0].asLeft, SizeIs(1));
}

TEST_F(HistoryImportTest, TheSameTwiceAddsNothing) {
  const auto rows = visit("2026-03-01T08:00", 2);
  EXPECT_EQ(take(rows).calibrations, 1);
  const ImportOutcome again = take(rows);
  EXPECT_EQ(said(again), "");
  EXPECT_EQ(again.calibrations, 0);
  EXPECT_EQ(again.alreadyKnown, 1);
  EXPECT_EQ(store_.calibrationCount(), 1);
}

TEST_F(HistoryImportTest, TheSameInTwoFilesOfOneImportIsTakenOnce) {
  for (const bool dryRun : {true, false}) {
    HistoryImport import(store_, kNow, DecimalSign::point);
    import.beginFile("a.csv");
    addVisit(import, "2026-03-01T08:00", 2);
    import.beginFile("b.csv");
    addVisit(import, "2026-03-01T08:00", 2);
    const ImportOutcome outcome = import.finish(false, dryRun);
    EXPECT_EQ(said(outcome), "");
    EXPECT_EQ(outcome.calibrations, 1);
    EXPECT_EQ(outcome.alreadyKnown, 1);
    EXPECT_EQ(store_.calibrationCount(), dryRun ? 0 : 1);
  }
}

TEST_F(HistoryImportTest, OtherContentAtTheSameMomentIsRefused) {
  take(visit("2026-03-01T08:00", 2));
  auto rows = visit("2026-03-01T08:00", 2);
  rows[1].typed.indicatedText = "75.1";
  const ImportOutcome outcome = take(rows);
  EXPECT_THAT(said(outcome),
              HasSubstr("2:0 : 2026-03-01T08:00:00 of TT-110 is already in the record with other content"));
  EXPECT_THAT(said(outcome), HasSubstr("[2 3 4]"));
  EXPECT_EQ(store_.history("TT-110")[0].asFound[1].indicatedText, "75.0");
}

TEST_F(HistoryImportTest, AReadingThatStandsTwiceIsRefusedNamingTheFirst) {
  auto rows = visit("2026-03-01T08:00", 2);
  rows.push_back(row("2026-03-01T08:00", 50, 9, 0.1));
  const ImportOutcome outcome = take(rows);
  EXPECT_EQ(said(outcome),
            "9:7 Reading: the same reading stands in line 3 already; leave one of them out [2 3 4 9]\n");
  EXPECT_EQ(store_.calibrationCount(), 0);
}

TEST_F(HistoryImportTest, RepeatsOfThePlanAreNoReadingsTwice) {
  std::vector<HistoryRow> rows;
  for (int i = 0; i < 7; ++i) {  // plan AI-REP: 0 and 100, three times
    auto each = row("2026-03-01T08:00", i % 2 == 0 ? 0 : 100, 2 + i);
    each.channel = "TT-102";
    rows.push_back(each);
  }
  EXPECT_THAT(said(take(rows)), HasSubstr("8:7 Reading: the same reading stands in line 2 already"));
  rows.pop_back();
  const ImportOutcome outcome = take(rows);
  EXPECT_EQ(said(outcome), "");
  EXPECT_EQ(outcome.readings, 6);
}

TEST_F(HistoryImportTest, AllOrNothingUnlessTheGoodIsKept) {
  auto rows = visit("2026-03-01T08:00", 2);
  auto bad = visit("2026-03-02T08:00", 5);
  bad[1].typed.indicatedText = "7500";
  bad[2].typed.appliedText = "4.000 mA";
  rows.insert(rows.end(), bad.begin(), bad.end());
  const ImportOutcome nothing = take(rows);
  EXPECT_EQ(nothing.calibrations, 0);
  EXPECT_EQ(nothing.readings, 0);
  EXPECT_EQ(store_.calibrationCount(), 0);
  const ImportOutcome good = take(rows, true);
  EXPECT_EQ(good.calibrations, 1);
  EXPECT_EQ(good.readings, 3);
  EXPECT_EQ(store_.calibrationCount(), 1);
  for (const ImportOutcome* outcome : {&nothing, &good}) {
    ASSERT_THAT(outcome->rejected, SizeIs(2)) << said(*outcome);
    EXPECT_EQ(outcome->rejected[0].where.columnName, "Reading");
    EXPECT_EQ(outcome->rejected[1].where.columnName, "Applied");
    EXPECT_THAT(outcome->rejected[0].lines, ElementsAre(5, 6));
    EXPECT_THAT(outcome->rejected[1].lines, ElementsAre(7));
    EXPECT_EQ(outcome->rejectedLines, 3);
  }
}

TEST_F(HistoryImportTest, AVisitIsNotKeptWithoutARowTheImporterRefused) {
  HistoryImport import(store_, kNow, DecimalSign::point);
  import.beginFile("history.csv");
  addVisit(import, "2026-03-01T08:00", 2);
  import.add(row("2026-03-02T08:00", 0, 5));
  Rejection refused;
  refused.where = {"history.csv", 6, 7, "Reading"};
  refused.reason = "\"7,,5\" is not a number";
  refused.lines = {6};
  refused.visit = VisitKey{"TT-110", Subject::channel, moment("2026-03-02T08:00")};
  import.reject(refused);
  import.add(row("2026-03-02T08:00", 100, 7));
  const ImportOutcome outcome = import.finish(true, false);
  EXPECT_EQ(outcome.calibrations, 1);
  EXPECT_EQ(said(outcome),
            "5:0 : refused together with line 6 of the same visit [5 7]\n"
            "6:7 Reading: \"7,,5\" is not a number [6]\n");
  EXPECT_THAT(store_.history("TT-110"), SizeIs(1));
}

TEST_F(HistoryImportTest, RowsMustAgreeOnWhoMadeTheVisit) {
  auto rows = visit("2026-03-01T08:00", 2);
  rows[2].person = "pplan";
  EXPECT_THAT(said(take(rows)),
              HasSubstr("4:0 : the line names pplan for a visit that line 2 says mtolland made"));
}

/// TE-501, a type K input of 0..400 degC, fed with mV through copper leads to terminals at 23 degC.
std::vector<HistoryRow> junctionRows(const char* when) {
  std::vector<HistoryRow> rows;
  const std::pair<const char*, const char*> fed[] = {
      {"-0.919 mV", "0.1"}, {"7.219 mV", "200.2"}, {"15.478 mV", "400.1"}};
  for (const auto& [applied, reading] : fed) {
    HistoryRow row;
    row.channel = "TE-501";
    row.performed = moment(when);
    row.typed = {applied, reading, ""};
    row.person = "mtolland";
    row.standards = {"VM-7"};
    row.line = static_cast<int>(rows.size()) + 2;
    rows.push_back(row);
  }
  return rows;
}

TEST_F(HistoryImportTest, ARowMayGiveItsVisitsReferenceJunction) {
  auto rows = junctionRows("2026-03-01T08:00");
  rows[1].referenceJunction = 23.0;
  EXPECT_EQ(said(take(rows)), "");
  const auto history = store_.history("TE-501");
  ASSERT_THAT(history, SizeIs(1));
  EXPECT_EQ(history[0].conditions.referenceJunction, 23.0);
  ASSERT_THAT(history[0].asFound, SizeIs(3));
  EXPECT_NEAR(history[0].asFound[1].applied, 200.0, 0.02);  // see junction_test
  EXPECT_EQ(history[0].foundVerdict, Verdict::pass);
  // The same rows without it are another visit.
  rows[1].referenceJunction = std::nullopt;
  rows[0].referenceJunction = 22.9;
  EXPECT_THAT(said(take(rows)), HasSubstr("already in the record with other content"));
}

TEST_F(HistoryImportTest, RowsMustAgreeOnTheReferenceJunction) {
  auto rows = junctionRows("2026-03-01T08:00");
  rows[0].referenceJunction = rows[1].referenceJunction = 23.0;
  rows[2].referenceJunction = 23.5;
  EXPECT_THAT(said(take(rows)),
              HasSubstr("4:0 : the line gives a reference junction of 23.5 degC for a visit "
                        "that line 2 gives one of 23 degC"));
  auto current = visit("2026-03-01T08:00", 2);
  current[0].referenceJunction = 23.0;
  EXPECT_THAT(said(take(current)), HasSubstr("a reference junction is given, but no mV of a couple"));
}

TEST_F(HistoryImportTest, ADryRunStoresNothingAndNeedsNoWritableRecord) {
  EXPECT_EQ(take(visit("2026-03-01T08:00", 2), false, true).calibrations, 1);
  EXPECT_EQ(store_.calibrationCount(), 0);
  Store reading = Store::open(folder_ / "site.db", Store::Mode::readOnly);
  HistoryImport import(reading, kNow, DecimalSign::point);
  import.beginFile("history.csv");
  addVisit(import, "2026-03-01T08:00", 2);
  EXPECT_EQ(import.finish(false, true).readings, 3);
}

TEST_F(HistoryImportTest, CancellingLeavesTheRecordAsItWas) {
  HistoryImport import(store_, kNow, DecimalSign::point);
  import.beginFile("history.csv");
  const Moment first = moment("2025-03-01T00:00");
  for (int i = 0; i < 1000; ++i) {
    addVisit(import, formatMoment(first + boost::posix_time::minutes(i)), 2 + 3 * i);
  }
  EXPECT_THROW(import.finish(false, false, [](double done) { return done < 0.5; }), InputError);
  EXPECT_EQ(store_.calibrationCount(), 0);
}

TEST_F(HistoryImportTest, EveryRejectionIsToldThoughOnlySomeAreKept) {
  HistoryImport import(store_, kNow, DecimalSign::point);
  std::size_t told = 0;
  import.onRejection([&told](const Rejection&) { ++told;
});
import.beginFile("history.csv");
const std::size_t many = HistoryImport::kKeptRejections + 500;
for (std::size_t i = 0; i < many; ++i) {
  import.reject({{"history.csv", static_cast<int>(i) + 2, 1, "Tag"}, "unknown", { static_cast<int>(i) + 2 }});
}
const ImportOutcome outcome = import.finish(true, false);
EXPECT_EQ(told, many);
EXPECT_EQ(outcome.mistakes, static_cast<std::int64_t>(many));
EXPECT_EQ(outcome.rejectedLines, static_cast<std::int64_t>(many));
EXPECT_THAT(outcome.rejected, SizeIs(HistoryImport::kKeptRejections));
}  // namespace

TEST_F(HistoryImportTest, TooManyRowsOfOneMomentAreOneRefusalWithAllLines) {
  HistoryImport import(store_, kNow, DecimalSign::point);
  import.beginFile("history.csv");
  const int many = static_cast<int>(HistoryImport::kMostRowsOfVisit) + 10;
  for (int i = 0; i < many; ++i) {
    import.add(row("2026-03-01T00:00", 50, 2 + i));
  }
  const ImportOutcome outcome = import.finish(true, false);
  ASSERT_THAT(outcome.rejected, SizeIs(1));
  EXPECT_THAT(outcome.rejected[0].reason, HasSubstr("give each visit its own date and time"));
  EXPECT_THAT(outcome.rejected[0].lines, SizeIs(static_cast<std::size_t>(many)));
}

TEST(StagedHistory, UnpacksWhatWasPacked) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  const auto below = [&random](int most) { return std::uniform_int_distribution<int>(0, most - 1)(random); };
  const auto text = [&] {
    static const std::vector<std::string> kPieces{"", ":", "12:", "\x1f", "\xC2\xB0", "a", "\n", "!", "7"};
    std::string made;
    for (int parts = below(6); parts > 0; --parts) {
      made += kPieces[static_cast<std::size_t>(below(static_cast<int>(kPieces.size())))];
    }
    return made;
  };
  for (int i = 0; i < 2000; ++i) {
    HistoryRow row;
    row.channel = "T" + text();
    row.subject = static_cast<Subject>(below(3));
    row.performed = moment("2001-01-01") + boost::posix_time::seconds(below(700'000'000));
    row.phase = static_cast<Phase>(below(2));
    row.direction = static_cast<Direction>(below(3));
    row.key = text();
    row.typed = {text(), text(), text()};
    row.person = text();
    row.adjusted = below(2) == 1;
    row.adjustmentText = text();
    row.remarks = text();
    row.line = below(1'000'000);
    row.indicatedColumn = below(40);
    row.appliedColumn = below(40);
    if (below(2) == 1) {
      row.temperature = below(100'000) / 7.0;
    }
    if (below(2) == 1) {
      row.referenceJunction = below(1000) / 7.0;
    }
    for (int standards = below(3); standards > 0; --standards) {
      row.standards.push_back(text());
    }
    const auto source = static_cast<std::size_t>(below(9));
    const Unpacked back = unpackRow(visitKey(row.channel, row.subject, row.performed), packRow(row, source));
    EXPECT_FALSE(back.mark);
    EXPECT_EQ(back.source, source);
    EXPECT_EQ(back.row.channel, row.channel);
    EXPECT_EQ(back.row.subject, row.subject);
    EXPECT_EQ(back.row.performed, row.performed);
    EXPECT_EQ(back.row.phase, row.phase);
    EXPECT_EQ(back.row.direction, row.direction);
    EXPECT_EQ(back.row.key, row.key);
    EXPECT_EQ(back.row.typed.appliedText, row.typed.appliedText);
    EXPECT_EQ(back.row.typed.indicatedText, row.typed.indicatedText);
    EXPECT_EQ(back.row.typed.skipReason, row.typed.skipReason);
    EXPECT_EQ(back.row.person, row.person);
    EXPECT_EQ(back.row.adjusted, row.adjusted);
    EXPECT_EQ(back.row.adjustmentText, row.adjustmentText);
    EXPECT_EQ(back.row.remarks, row.remarks);
    EXPECT_EQ(back.row.line, row.line);
    EXPECT_EQ(back.row.indicatedColumn, row.indicatedColumn);
    EXPECT_EQ(back.row.appliedColumn, row.appliedColumn);
    EXPECT_EQ(back.row.temperature, row.temperature);
    EXPECT_EQ(back.row.humidity, std::nullopt);
    EXPECT_EQ(back.row.referenceJunction, row.referenceJunction);
    EXPECT_EQ(back.row.standards, row.standards);
  }
}

}  // namespace spanwright::test
}  // namespace spanwright::test
