// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is checked in is what the generator writes, byte for byte.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <set>

#include "tests/sample_sites/sample.h"

namespace spanwright::test {
namespace {

std::string bytesOf(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::set<std::string> filesBelow(const std::filesystem::path& folder) {
  std::set<std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) {
      files.insert(std::filesystem::relative(entry.path(), folder).string());
    }
  }
  return files;
}

bool writtenByHand(const std::string& file) {
  return file.ends_with(".map.toml");
}

class Reproducible : public testing::TestWithParam<const char*> {};

TEST_P(Reproducible, EveryFileIsWhatTheGeneratorWrites) {
  const TemporaryFolder out;
  const std::string command = std::string("\"") + SAMPLE_GENERATOR + "\" \"" + out.path().string() + "\"";
  ASSERT_EQ(std::system(command.c_str()), 0);  // NOLINT(cert-env33-c): our own program
  const auto made = filesBelow(out.path() / GetParam());
  auto checkedIn = filesBelow(sampleFolder(GetParam()));
  std::erase_if(checkedIn, writtenByHand);
  EXPECT_EQ(made, checkedIn);
  EXPECT_GE(made.size(), 7U);
  for (const std::string& file : made) {
    const std::string now = bytesOf(out.path() / GetParam() / file);
    EXPECT_FALSE(now.empty()) << file;
    EXPECT_TRUE(now == bytesOf(sampleFolder(GetParam()) / file)) << file << " differs";
  }
}

INSTANTIATE_TEST_SUITE_P(Sites, Reproducible, testing::Values("larkmead", "tiny"));

TEST(Generator, SaysHowItIsCalled) {
  const std::string command = std::string("\"") + SAMPLE_GENERATOR + "\" 2>/dev/null";
  EXPECT_NE(std::system(command.c_str()), 0);  // NOLINT(cert-env33-c): our own program
}

}  // namespace
}  // namespace spanwright::test
