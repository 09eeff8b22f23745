// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/worker.h"

#include <QSignalSpy>
#include <QTest>
#include <QThread>
#include <atomic>

#include "core/store/sqlite_connection.h"
#include "gui/session/session.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

TEST(Workers, WorkInAnotherThreadAndAnswerInThisOne) {
  Worker worker;
  QThread* inside = nullptr;
  QThread* answered = nullptr;
  worker.post("work", [&](const Progress&) {
    inside = QThread::currentThread();
    return Worker::Then([&] { answered = QThread::currentThread(); });
  });
  EXPECT_FALSE(worker.idle());
  worker.waitUntilIdle();
  EXPECT_NE(inside, QThread::currentThread());
  EXPECT_EQ(answered, QThread::currentThread());
}

TEST(Workers, StopWhenCancelledAndKeepQuietAboutIt) {
  Worker worker;
  QSignalSpy failed(&worker, &Worker::failed);
  std::atomic<bool> started = false;
  bool answered = false;
  worker.post("long work", [&](const Progress& progress) -> Worker::Then {
    started = true;
    while (progress(0.5)) {
      QThread::msleep(1);
    }
    return [&] { answered = true; };
  });
  worker.post("waiting work", [&](const Progress&) -> Worker::Then { return [&] { answered = true; }; });
  while (!started) {
    QThread::msleep(1);
  }
  worker.cancel();
  worker.waitUntilIdle();
  EXPECT_FALSE(answered);
  EXPECT_EQ(failed.count(), 0);
}

TEST(Workers, TellTroubleInOneSentence) {
  Worker worker;
  QSignalSpy failed(&worker, &Worker::failed);
  worker.post("work", [](const Progress&) -> Worker::Then { throw StorageError("the disk is full"); });
  worker.waitUntilIdle();
  ASSERT_EQ(failed.count(), 1);
  EXPECT_EQ(failed.front().front().toString().toStdString(), "The disk is full.");
}

TEST(Workers, DoNotLetWhatAPersonWaitsForWaitForTheWholeSite) {
  Worker worker;
  std::atomic<bool> go = false;
  bool siteDone = false, soonDone = false, fileDone = false;
  worker.post(
      "report",
      [&](const Progress& progress) -> Worker::Then {
        while (progress(0.5)) {
          QThread::msleep(1);
        }
        return [&] { siteDone = true; };
      },
      Worker::Lane::site);
  worker.post(
      "check",
      [&](const Progress& progress) -> Worker::Then {
        while (!go) {
          QThread::msleep(1);
        }
        const bool wanted = progress(-1.0);
        return [&, wanted] { fileDone = wanted; };
      },
      Worker::Lane::file);
  worker.post("question", [&](const Progress&) -> Worker::Then { return [&] { soonDone = true; }; });
  QSignalSpy quiet(&worker, &Worker::becameQuiet);
  ASSERT_TRUE(QTest::qWaitFor([&] { return soonDone; }));
  EXPECT_EQ(quiet.count(), 1);
  EXPECT_FALSE(worker.idle());
  worker.cancel();
  go = true;
  worker.waitUntilIdle();
  EXPECT_FALSE(siteDone);
  EXPECT_TRUE(fileDone) << "the check of a file is not cancelled along with the rest";
}

class Sessions : public GuiTest {};

TEST_F(Sessions, DamageFoundAfterOpeningIsSaidAndNothingIsWrittenAnyMore) {
  makeRecord({visitTo("TT-1", "2025-11-20T09:00:00", 0.1)});
  Connection(recordFile().toStdString(), Connection::Access::readWrite)
      .execute("PRAGMA foreign_keys = OFF; DROP TRIGGER calibration_not_deleted; DELETE FROM calibration");
  Session session(clock_);
  QSignalSpy troubled(&session, &Session::troubled);
  session.open(recordFile());
  session.worker().waitUntilIdle();
  ASSERT_TRUE(session.isOpen());
  ASSERT_EQ(troubled.count(), 1);
  EXPECT_TRUE(troubled.front().front().toString().contains("is damaged")) << "it says so";
  Draft draft;
  draft.channel = "TT-1";
  EXPECT_THROW(session.store().saveDraft(draft), StorageError);
}

TEST_F(Sessions, FindChannelsOfARegisterThatAnotherProgramChanged) {
  Register site = smallSite();
  SensorRange range;
  range.process = {0.0, 100.0, Unit::celsius};
  range.output = Span{4.0, 20.0, Unit::milliampere};
  site.sensors.push_back({"TX-0815", "Invented", "head transmitter", "", range});
  makeRecord({}, site);
  Session session(clock_);
  session.open(recordFile());
  session.worker().waitUntilIdle();
  EXPECT_EQ(session.find("tx-0815", 5).matched, 0U);
  Store other = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
  other.addFitting("PT-2", {"TX-0815", *parseMoment("2026-01-01T08:00"), {}});
  session.refresh();
  session.worker().waitUntilIdle();
  EXPECT_EQ(session.find("tx-0815", 5).matched, 1U);
}

TEST_F(Sessions, AreToldTheDueListAndDriftAfterOpening) {
  makeRecord({visitTo("TT-1", "2025-11-20T09:00:00", 0.1)});
  Session session(clock_);
  QSignalSpy opened(&session, &Session::opened);
  session.open(recordFile());
  session.worker().waitUntilIdle();
  EXPECT_EQ(opened.count(), 1);
  EXPECT_EQ(session.due().size(), 3U);
  EXPECT_EQ(session.due("TT-1").size(), 1U);
  EXPECT_TRUE(session.driftKnown());
}

TEST_F(Sessions, AFileThatIsNoRecordIsOneSentence) {
  Session session(clock_);
  QFile file(recordFile());
  ASSERT_TRUE(file.open(QIODevice::WriteOnly));
  file.write("not a record at all, only text");
  file.close();
  QSignalSpy troubled(&session, &Session::troubled);
  session.open(recordFile());
  session.worker().waitUntilIdle();
  ASSERT_EQ(troubled.count(), 1);
  EXPECT_FALSE(session.isOpen());
}

TEST_F(Sessions, MakeARecordFromASiteFileAndImportItsHistoryOnce) {
  Session session(clock_);
  QSignalSpy troubled(&session, &Session::troubled);
  const QString tiny = QStringLiteral(SPANWRIGHT_SOURCE_DIR "/sample_sites/tiny/");
  session.create(tiny + "tiny.toml", recordFile());
  session.worker().waitUntilIdle();
  ASSERT_EQ(troubled.count(), 0) << troubled.front().front().toString().toStdString();
  ASSERT_TRUE(session.isOpen());
  std::int64_t added = 0;
  std::int64_t known = 0;
  QObject::connect(&session, &Session::imported, &session, [&](const ImportOutcome& outcome, bool) {
    added = outcome.calibrations;
    known = outcome.alreadyKnown;
  });
  const auto import = [&](bool dryRun) {
    session.importHistory(tiny + "history.map.toml", {tiny + "history.csv"}, false, dryRun);
    session.worker().waitUntilIdle();
  };
  import(true);
  EXPECT_GT(added, 0);
  EXPECT_EQ(session.store().calibrationCount(), 0) << "looking writes nothing";
  const std::int64_t proposed = added;
  import(false);
  EXPECT_EQ(session.store().calibrationCount(), proposed);
  import(false);
  EXPECT_EQ(added, 0);
  EXPECT_EQ(known, proposed);
}

}  // namespace
}  // namespace spanwright
