// SPDX-License-Identifier: GPL-3.0-or-later
//
// Long work off the window's thread, in lanes, so that what a person waits for does not wait for what takes
// minutes on a large record. Each lane is a thread with a read-only Store of its own on the same file: a
// Store is for one thread. These do not check the file: whoever opened it has done so or is about to.
#pragma once

#include <QObject>
#include <QThread>
#include <array>
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

  enum class Lane {
    soon,  ///< what a person waits for, in the order asked
    like,  ///< reports on a channel that read those of channels like it
    site,  ///< reports over the whole site
    file   ///< the check of the file after opening, which only another file or the end stops
  };

  explicit Worker(QObject* parent = nullptr);
  ~Worker() override;

  /// The record that later StoreWork reads; what is still waiting for another one is dropped.
  void setFile(const std::filesystem::path& file);
  /// `what` is shown to people: "Looking at drift over the whole site".
  void post(const QString& what, Work work, Lane lane = Lane::soon);
  void postWithStore(const QString& what, StoreWork work, Lane lane = Lane::soon);
  /// What runs is asked to stop, what waits is dropped; their Then is not called. All but the check of the
  /// file.
  void cancel();
  void cancel(Lane lane);
  bool idle() const;
  bool idle(Lane lane) const { return at(lane).pending == 0; }
  /// Runs the event loop until nothing is under way; for pictures and tests.
  void waitUntilIdle();

 signals:
  /// fraction < 0: not known.
  void progressed(const QString& what, double fraction);
  void becameIdle();
  /// Nothing that a person waits for is under way any more.
  void becameQuiet();
  void failed(const QString& sentence);

 private:
  struct Running {
    QThread thread;
    QObject inside;                // lives in the thread; calls to it run there
    std::unique_ptr<Store> store;  // touched in the thread only
    std::filesystem::path file;    // touched in the thread only
    std::atomic<int> generation{0};
    int pending = 0;
  };
  Running& at(Lane lane) { return lanes_[static_cast<std::size_t>(lane)]; }
  const Running& at(Lane lane) const { return lanes_[static_cast<std::size_t>(lane)]; }
  void run(Lane lane, const QString& what, int generation, const Work& work);
  void finish(Lane lane, int generation, const Then& then, const QString& trouble);

  std::array<Running, 4> lanes_;
};

}  // namespace spanwright
