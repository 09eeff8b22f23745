// SPDX-License-Identifier: GPL-3.0-or-later
//
// Long work off the window's thread. One thread with its own read-only Store on the same file: a Store is for
// one thread, and checking the file's integrity once is enough.
#pragma once

#include <QObject>
#include <QThread>
#include <atomic>
#include <filesystem>
#include <functional>
#include <memory>

#include "core/record/proposal.h"
#include "core/store/store.h"

namespace spanwright {

class Worker : public QObject {
  Q_OBJECT
 public:
  /// Runs in the window's thread with what the work found.
  using Then = std::function<void()>;
  /// Runs in the worker's thread. `progress` answers false once cancelled.
  using Work = std::function<Then(const Progress& progress)>;
  using StoreWork = std::function<Then(Store& store, const Progress& progress)>;

  explicit Worker(QObject* parent = nullptr);
  ~Worker() override;

  /// The record that later StoreWork reads; what is still waiting for another one is dropped.
  void setFile(const std::filesystem::path& file);
  /// `what` is shown to people: "Looking at drift over the whole site".
  void post(const QString& what, Work work);
  void postWithStore(const QString& what, StoreWork work);
  /// What runs is asked to stop, what waits is dropped; their Then is not called.
  void cancel();
  bool idle() const { return pending_ == 0; }
  /// Runs the event loop until nothing is under way; for pictures and tests.
  void waitUntilIdle();

 signals:
  /// fraction < 0: not known.
  void progressed(const QString& what, double fraction);
  void becameIdle();
  void failed(const QString& sentence);

 private:
  void run(const QString& what, int generation, const Work& work);
  void finish(int generation, const Then& then, const QString& trouble);

  QThread thread_;
  QObject inside_;                // lives in thread_; calls to it run there
  std::unique_ptr<Store> store_;  // touched in thread_ only
  std::filesystem::path file_;    // touched in thread_ only
  std::atomic<int> generation_{0};
  int pending_ = 0;
};

}  // namespace spanwright
