// SPDX-License-Identifier: GPL-3.0-or-later
//
// Starting the program that works on a record, and hearing what it says.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <string>
#include <vector>

namespace spanwright::test {

/// One run of fault_worker.
class Worker {
 public:
  /// `kind` "rounds" or "visits".
  Worker(const std::string& kind, const std::filesystem::path& file, int first, int count);
  Worker(Worker&& other) noexcept;
  Worker& operator=(Worker&&) = delete;
  ~Worker();

  void kill() const;
  struct End {
    bool killed = false;
    int status = 0;  ///< of one that was not killed
    std::vector<std::string> lines;
  };
  /// Waits until it has ended. What it said is there whole, a kill takes no line along.
  End wait();

 private:
  pid_t id_ = -1;
  int output_ = -1;
};

}  // namespace spanwright::test
