// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/session/worker.h"

#include <QEventLoop>

#include "gui/words/words.h"

namespace spanwright {

Worker::Worker(QObject* parent) : QObject(parent) {
  inside_.moveToThread(&thread_);
  thread_.start();
}

Worker::~Worker() {
  cancel();
  QMetaObject::invokeMethod(
      &inside_, [this] { store_.reset(); }, Qt::BlockingQueuedConnection);
  thread_.quit();
  thread_.wait();
}

void Worker::setFile(const std::filesystem::path& file) {
  cancel();
  QMetaObject::invokeMethod(&inside_, [this, file] {
    store_.reset();
    file_ = file;
  });
}

void Worker::cancel() {
  ++generation_;
}

void Worker::post(const QString& what, Work work) {
  ++pending_;
  emit progressed(what, -1.0);
  QMetaObject::invokeMethod(&inside_, [this, what, work = std::move(work), generation = generation_.load()] {
    run(what, generation, work);
  });
}

void Worker::postWithStore(const QString& what, StoreWork work) {
  post(what, [this, work = std::move(work)](const Progress& progress) {
    if (!store_) {
      store_ = std::make_unique<Store>(Store::open(file_, Store::Mode::readOnly));
    } else {
      store_->refresh();
    }
    return work(*store_, progress);
  });
}

void Worker::run(const QString& what, int generation, const Work& work) {
  Then then;
  QString trouble;
  if (generation == generation_) {
    try {
      then = work([this, what, generation](double fraction) {
        emit progressed(what, fraction);
        return generation == generation_;
      });
    } catch (const std::exception& error) {
      trouble = asSentence(QString::fromUtf8(error.what()));
    }
  }
  QMetaObject::invokeMethod(this, [this, generation, then, trouble] { finish(generation, then, trouble); });
}

void Worker::finish(int generation, const Then& then, const QString& trouble) {
  --pending_;
  if (generation == generation_) {
    if (!trouble.isEmpty()) {
      emit failed(trouble);
    } else if (then) {
      then();
    }
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
