// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/store/faults/worker.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <sstream>
#include <stdexcept>
#include <utility>

extern char** environ;

namespace spanwright::test {

Worker::Worker(const std::string& kind, const std::filesystem::path& file, int first, int count) {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) {
    throw std::runtime_error("no pipe");
  }
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
  std::vector<std::string> words{SPANWRIGHT_FAULT_WORKER, kind, file.string(), std::to_string(first),
                                 std::to_string(count)};
  std::vector<char*> arguments;
  arguments.reserve(words.size() + 1);
  for (std::string& word : words) {
    arguments.push_back(word.data());
  }
  arguments.push_back(nullptr);
  const int failed = ::posix_spawn(&id_, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  ::close(ends[1]);
  output_ = ends[0];
  if (failed != 0) {
    ::close(output_);
    throw std::runtime_error("the working program could not be started");
  }
}

Worker::Worker(Worker&& other) noexcept
    : id_(std::exchange(other.id_, -1)), output_(std::exchange(other.output_, -1)) {}

Worker::~Worker() {
  if (id_ > 0) {
    kill();
    wait();
  }
}

void Worker::kill() const {
  ::kill(id_, SIGKILL);
}

Worker::End Worker::wait() {
  std::string said;
  std::array<char, 4096> buffer{};
  for (ssize_t got = 0; (got = ::read(output_, buffer.data(), buffer.size())) > 0;) {
    said.append(buffer.data(), static_cast<std::size_t>(got));
  }
  ::close(output_);
  int status = 0;
  ::waitpid(id_, &status, 0);
  id_ = -1;
  End end;
  end.killed = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
  end.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  std::istringstream lines(said);
  for (std::string line; std::getline(lines, line);) {
    end.lines.push_back(line);
  }
  return end;
}

}  // namespace spanwright::test
