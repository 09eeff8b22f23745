// SPDX-License-Identifier: GPL-3.0-or-later
//
// Commands called in-process on a record of their own, made from a sample site.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "cli/command.h"

namespace spanwright::cli_test {

namespace fs = std::filesystem;
using Json = nlohmann::json;

class FixedClock : public Clock {
 public:
  Moment localNow() const override { return *parseMoment("2026-11-25T09:00"); }
  Moment utcNow() const override { return *parseMoment("2026-11-25T08:00"); }
};

struct Answer {
  int status = 0;
  std::string out, err;
};

class Commands : public ::testing::Test {
 protected:
  void SetUp() override {
    const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(SPANWRIGHT_BUILD_DIR) / "tests" / "cli" / (std::string("run_") + info->name());
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    record_ = (folder_ / "tiny.spanwright").string();
  }
  void TearDown() override {
    if (!HasFailure()) {
      fs::remove_all(folder_);
    }
  }

  static std::string sample(const std::string& name) {
    return (fs::path(SPANWRIGHT_SOURCE_DIR) / "sample_sites" / "tiny" / name).string();
  }
  static Answer call(std::vector<std::string> words) {
    std::ostringstream out, err;
    std::vector<const char*> argv{"spanwright"};
    for (const std::string& word : words) {
      argv.push_back(word.c_str());
    }
    const FixedClock clock;
    Answer answer;
    answer.status = run(static_cast<int>(argv.size()), argv.data(), Surroundings{out, err, false, clock});
    answer.out = out.str();
    answer.err = err.str();
    return answer;
  }
  // The document of a command that must succeed; parsing fails when anything else stands on standard output.
  static Json document(std::vector<std::string> words) {
    words.emplace_back("--json");
    const Answer answer = call(std::move(words));
    EXPECT_EQ(answer.status, kDone) << answer.err;
    return Json::parse(answer.out);
  }
  void make() { ASSERT_EQ(call({"new", record_, "--site", sample("tiny.toml")}).status, kDone); }
  void fill() {
    make();
    const Answer answer =
        call({"import", record_, sample("history.csv"), "--map", sample("history.map.toml")});
    ASSERT_EQ(answer.status, kDone) << answer.err;
  }
  std::string write(const std::string& name, const std::string& text) const {
    const fs::path file = folder_ / name;
    std::ofstream(file, std::ios::binary) << text;
    return file.string();
  }

  fs::path folder_;
  std::string record_;
};

inline void expectKeys(const Json& object, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) {
    EXPECT_TRUE(object.contains(key)) << key << " is missing in " << object.dump().substr(0, 300);
  }
}

}  // namespace spanwright::cli_test
