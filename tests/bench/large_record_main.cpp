// SPDX-License-Identifier: GPL-3.0-or-later
//
// Makes the large record that bench_desktop looks at, once; for measuring other programs on it too.
//
//   bench_large_record FOLDER [CHANNELS CALIBRATIONS]
#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/bench/large_record.h"

namespace {

using namespace spanwright;  // NOLINT(google-build-using-namespace)

template <typename Number>
bool read(const std::string& text, Number& into) {
  const auto end = std::from_chars(text.data(), text.data() + text.size(), into);
  return end.ec == std::errc() && end.ptr == text.data() + text.size() && into > 0;
}

}  // namespace

int main(int count, char** words) {
  const std::vector<std::string> given(words + 1, words + count);
  LargeRecord size;
  if ((given.size() != 1 && given.size() != 3) ||
      (given.size() == 3 && !(read(given[1], size.channels) && read(given[2], size.calibrations)))) {
    std::fputs("bench_large_record FOLDER [CHANNELS CALIBRATIONS]\n", stderr);
    return 2;
  }
  try {
    const std::filesystem::path file = largeRecordIn(given[0], size);
    fmt::print("{}: {:.0f} MB\n", file.string(), static_cast<double>(std::filesystem::file_size(file)) / 1e6);
    return 0;
  } catch (const std::exception& trouble) {
    fmt::print(stderr, "{}\n", trouble.what());
    return 1;
  }
}
