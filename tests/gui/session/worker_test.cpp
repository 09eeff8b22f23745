// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/worker.h"

#include <QSignalSpy>
#include <QThread>
#include <atomic>

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

class Sessions : public GuiTest {};

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
