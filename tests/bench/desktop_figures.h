// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the measurements of the window have in common.
#pragma once

#include <fmt/format.h>

#include <QApplication>
#include <QElapsedTimer>
#include <QEvent>
#include <QWidget>
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

namespace spanwright {

class Stopwatch {
 public:
  Stopwatch() : cpuAtStart_(cpuNow()) { timer_.start(); }
  double ms() const { return static_cast<double>(timer_.nsecsElapsed()) / 1e6; }
  /// What this thread worked in that time; the rest it waited, on a busy machine for its turn.
  double cpu() const { return cpuNow() - cpuAtStart_; }

 private:
  static double cpuNow() {
    timespec now{};
    ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
  }
  double cpuAtStart_;
  QElapsedTimer timer_;
};

/// Lets everything happen that is waiting to: layouts, then painting.
inline void settle() {
  QApplication::processEvents();
  QApplication::sendPostedEvents();
  QApplication::processEvents();
}

struct Figures {
  std::vector<double> ms, cpu;
  void take(const Stopwatch& watch) {
    ms.push_back(watch.ms());
    cpu.push_back(watch.cpu());
  }
  double median() const { return at(ms, 0.5); }
  double high() const { return at(ms, 0.95); }
  double worst() const { return at(ms, 1.0); }
  double medianCpu() const { return at(cpu, 0.5); }

 private:
  static double at(std::vector<double> sorted, double share) {
    std::sort(sorted.begin(), sorted.end());
    return sorted.empty() ? 0.0
                          : sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
  }
};

inline void print(const std::string& what, const Figures& ours, double limit, const std::string& yardstick,
                  const Figures& plain) {
  fmt::print(
      "{:<46} median {:6.1f} ms (its own work {:6.1f}), 95 % {:6.1f}, worst {:6.1f}; limit {:.0f}   {} "
      "{:.1f} "
      "ms (work {:.1f}), ratio {:.2f}\n",
      what, ours.median(), ours.medianCpu(), ours.high(), ours.worst(), limit, yardstick, plain.median(),
      plain.medianCpu(), ours.median() / plain.median());
  std::fflush(stdout);
}

/// Counts what a widget paints.
class PaintCounter : public QObject {
 public:
  explicit PaintCounter(QWidget* of) { of->installEventFilter(this); }
  int count = 0;

 protected:
  bool eventFilter(QObject*, QEvent* event) override {
    count += event->type() == QEvent::Paint ? 1 : 0;
    return false;
  }
};

/// False when nothing was painted for a second.
inline bool untilPainted(const PaintCounter& counter) {
  const Stopwatch watch;
  while (counter.count == 0 && watch.ms() < 1000.0) {
    QApplication::processEvents();
  }
  return counter.count > 0;
}

/// A chart of 10,000 readings panned and zoomed.
void measureCharts();

}  // namespace spanwright
