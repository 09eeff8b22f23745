// SPDX-License-Identifier: GPL-3.0-or-later
//
// A program that works on a record and says on standard output, line by line, which saves were acknowledged.
// The tests start it, several at once, and kill it.
#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <exception>
#include <string>
#include <string_view>

#include "tests/core/store/faults/work.h"

namespace spanwright::test {
namespace {

/// At once, in one piece, past any buffer that a kill would take along.
void tell(const std::string& line) {
  const std::string whole = line + "\n";
  if (::write(STDOUT_FILENO, whole.data(), whole.size()) != static_cast<ssize_t>(whole.size())) {
    std::_Exit(4);
  }
}

/// Saves of every kind, numbered from `first`.
void workRounds(const char* file, int first, int count) {
  Store store = openRecord(file);
  for (int number = first; number < first + count; ++number) {
    doSave(store, numbered(number));
    tell(std::to_string(number));
  }
}

/// Visits, each told with the number the record gave it and the milliseconds it took.
void enterVisits(const char* file, int first, int count) {
  Store store = openRecord(file);
  for (int number = first; number < first + count; ++number) {
    const auto begin = std::chrono::steady_clock::now();
    const auto id = enterLooseVisit(store, number);
    const auto took = std::chrono::steady_clock::now() - begin;
    tell(fmt::format("{} {} {}", number, id,
                     std::chrono::duration_cast<std::chrono::milliseconds>(took).count()));
  }
}

}  // namespace
}  // namespace spanwright::test

int main(int argc, char** argv) {
  using namespace spanwright::test;
  if (argc != 5) {
    return 2;
  }
  const int first = std::atoi(argv[3]);  // NOLINT(cert-err34-c): given by the tests
  const int count = std::atoi(argv[4]);  // NOLINT(cert-err34-c)
  try {
    std::string_view(argv[1]) == "rounds" ? workRounds(argv[2], first, count)
                                          : enterVisits(argv[2], first, count);
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
}
