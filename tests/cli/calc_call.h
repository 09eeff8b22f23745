// SPDX-License-Identifier: GPL-3.0-or-later
//
// Calls the bench calculator as a script would, in-process.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "cli/command.h"

namespace spanwright::test {

struct CalcAnswer {
  int status = 0;
  std::string out, err;
};

inline CalcAnswer calc(const std::vector<std::string>& words) {
  std::ostringstream out, err;
  std::vector<const char*> argv{"spanwright", "calc"};
  for (const std::string& word : words) {
    argv.push_back(word.c_str());
  }
  CalcAnswer answer;
  answer.status =
      run(static_cast<int>(argv.size()), argv.data(), Surroundings{out, err, false, systemClock()});
  answer.out = out.str();
  answer.err = err.str();
  return answer;
}

/// The document of a calculation that must be done; parsing fails when anything else stands on standard
/// output.
inline nlohmann::json calcDocument(std::vector<std::string> words) {
  words.emplace_back("--json");
  const CalcAnswer answer = calc(words);
  EXPECT_EQ(answer.status, kDone) << answer.err;
  return nlohmann::json::parse(answer.out);
}

/// Refused with this status: one or more sentences, and nothing on standard output.
inline void expectRefusal(const std::vector<std::string>& words, int status, const std::string& names) {
  const CalcAnswer answer = calc(words);
  std::string call;
  for (const std::string& word : words) {
    call += word + " ";
  }
  EXPECT_EQ(answer.status, status) << call << answer.err;
  EXPECT_TRUE(answer.out.empty()) << call << answer.out;
  EXPECT_NE(answer.err.find(names), std::string::npos) << call << "says: " << answer.err;
}

/// A table of published values about signals.
inline std::string signalReference(const std::string& name) {
  return SPANWRIGHT_REFERENCE_DIR "/signals/" + name;
}

/// A data file for one test.
inline std::string calcFile(const std::string& name, const std::string& text) {
  const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
  const auto folder = std::filesystem::path(SPANWRIGHT_BUILD_DIR) / "tests" / "cli" /
                      (std::string("calc_") + info->test_suite_name() + "_" + info->name());
  std::filesystem::create_directories(folder);
  const auto file = folder / name;
  std::ofstream(file, std::ios::binary) << text;
  return file.string();
}

}  // namespace spanwright::test
