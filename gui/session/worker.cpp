// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/worker.h"

#include <sys/resource.h>

#include <QEventLoop>
#include <algorithm>

#include "gui/words/words.h"

namespace spanwright {

namespace {

/// What takes minutes leaves the processor to the window and to what a person waits for. On Linux this is
/// about the calling thread alone; Qt's own priorities do nothing there.
void stepBack() {
  constexpr int kNice = 10;
  ::setpriority(PRIO_PROCESS, 0, kNice);
}

}  // namespace

Worker::Worker(QObject* parent) : QObject(parent) {
  for (Running& lane : lanes_) {
    lane.inside.moveToThread(&lane.thread);
    lane.thread.start();
    if (&lane != &at(Lane::soon)) {
      QMetaObject::invokeMethod(&lane.inside, &stepBack);
    }
  }
}

Worker::~Worker() {
  for (Running& lane : lanes_) {
    ++lane.generation;
  }
  for (Running& lane : lanes_) {
    QMetaObject::invokeMethod(
        &lane.inside, [&lane] { lane.store.reset(); }, Qt::BlockingQueuedConnection);
    lane.thread.quit();
    lane.thread.wait();
  }
}

void Worker::setFile(const std::filesystem::path& file) {
  for (Running& lane : lanes_) {
    ++lane.generation;
    QMetaObject::invokeMethod(&lane.inside, [&lane, file] {
      lane.store.reset();
      lane.file = file;
    });
  }
}

void Worker::cancel() {
  cancel(Lane::soon);
  cancel(Lane::like);
  cancel(Lane::site);
}

void Worker::cancel(Lane lane) {
  ++at(lane).generation;
}

bool Worker::idle() const {
  return std::all_of(lanes_.begin(), lanes_.end(), [](const Running& lane) { return lane.pending == 0; });
}

void Worker::post(const QString& what, Work work, Lane lane) {
  ++at(lane).pending;
  emit progressed(what, -1.0);
  QMetaObject::invokeMethod(
      &at(lane).inside, [this, lane, what, work = std::move(work), generation = at(lane).generation.load()] {
        run(lane, what, generation, work);
      });
}

void Worker::postWithStore(const QString& what, StoreWork work, Lane lane) {
  post(
      what,
      [this, lane, work = std::move(work)](const Progress& progress) {
        Running& mine = at(lane);
        if (!mine.store) {
          mine.store = std::make_unique<Store>(
              Store::open(mine.file, Store::Mode::readOnly, systemClock(), Store::Check::head));
        } else {
          mine.store->refresh();
        }
        return work(*mine.store, progress);
      },
      lane);
}

void Worker::run(Lane lane, const QString& what, int generation, const Work& work) {
  Then then;
  QString trouble;
  const Running& mine = at(lane);
  if (generation == mine.generation) {
    try {
      then = work([this, &mine, what, generation](double fraction) {
        if (fraction >= 0.0) {
          emit progressed(what, fraction);
        }
        return generation == mine.generation;
      });
    } catch (const std::exception& error) {
      trouble = asSentence(QString::fromUtf8(error.what()));
    }
  }
  QMetaObject::invokeMethod(
      this, [this, lane, generation, then, trouble] { finish(lane, generation, then, trouble); });
}

void Worker::finish(Lane lane, int generation, const Then& then, const QString& trouble) {
  --at(lane).pending;
  if (generation == at(lane).generation) {
    if (!trouble.isEmpty()) {
      emit failed(trouble);
    } else if (then) {
      then();
    }
  }
  if (lane == Lane::soon && idle(lane)) {
    emit becameQuiet();
  }
  if (idle()) {
    emit becameIdle();
  }
}

void Worker::waitUntilIdle() {
  while (!idle()) {
    QEventLoop loop;
    connect(this, &Worker::becameIdle, &loop, &QEventLoop::quit);
    loop.exec();
  }
}

}  // namespace spanwright
