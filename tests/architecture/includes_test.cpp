// SPDX-License-Identifier: GPL-3.0-or-later
//
// The map of the rooms in DEVELOPERS.md, held against the includes as they are written.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

// room -> rooms it may include from, beside itself.
const std::map<std::string, std::set<std::string>> kMayUse{
    {"core/units", {}},
    {"core/signal", {"core/units"}},
    {"core/metrology", {"core/signal", "core/units"}},
    {"core/drift", {"core/metrology", "core/signal", "core/units"}},
    {"core/schedule", {"core/drift", "core/metrology", "core/signal", "core/units"}},
    {"core/record", {"core/metrology", "core/signal", "core/units"}},
    {"core/store", {"core/record", "core/metrology", "core/signal", "core/units"}},
    {"core/certificate", {"core/record", "core/metrology", "core/signal", "core/units"}},
    {"core/tasks",
     {"core/store", "core/certificate", "core/schedule", "core/drift", "core/record", "core/metrology",
      "core/signal", "core/units"}},
    {"importers", {"core/record", "core/metrology", "core/signal", "core/units"}},
    {"gui/certificate", {"core/certificate", "core/record", "core/metrology", "core/signal", "core/units"}},
    {"gui",
     {"gui/certificate", "importers", "core/tasks", "core/store", "core/certificate", "core/schedule",
      "core/drift", "core/record", "core/metrology", "core/signal", "core/units"}},
    {"cli",
     {"gui/certificate", "importers", "core/tasks", "core/store", "core/certificate", "core/schedule",
      "core/drift", "core/record", "core/metrology", "core/signal", "core/units"}},
};

// The longest room that `path` lies in.
std::string roomOf(const std::string& path) {
  std::string best;
  for (const auto& [room, unused] : kMayUse) {
    if (path.rfind(room + "/", 0) == 0 && room.size() > best.size()) {
      best = room;
    }
  }
  return best;
}

struct Include {
  std::string from, what;
  int line = 0;
  bool ours = false;
};

std::vector<Include> includesBelow(const std::string& top) {
  const fs::path root = SPANWRIGHT_SOURCE_DIR;
  const std::regex form(R"(^\s*#\s*include\s+(["<])([^">]+)[">])");
  std::vector<Include> found;
  for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
    const std::string extension = entry.path().extension().string();
    if (extension != ".h" && extension != ".cpp") {
      continue;
    }
    std::ifstream file(entry.path());
    std::string line;
    std::smatch match;
    for (int number = 1; std::getline(file, line); ++number) {
      if (std::regex_search(line, match, form)) {
        found.push_back(
            {fs::relative(entry.path(), root).generic_string(), match[2].str(), number, match[1] == "\""});
      }
    }
  }
  return found;
}

TEST(Rooms, IncludeOnlyWhatTheMapAllows) {
  std::size_t checked = 0;
  for (const std::string top : {"core", "importers", "gui", "cli"}) {
    for (const Include& include : includesBelow(top)) {
      if (!include.ours) {
        continue;
      }
      const std::string from = roomOf(include.from), to = roomOf(include.what);
      ASSERT_NE(from, "") << include.from << " lies in no room of the map";
      EXPECT_NE(to, "") << include.from << ":" << include.line << ": write \"" << include.what
                        << "\" from the root";
      EXPECT_TRUE(from == to || kMayUse.at(from).contains(to))
          << include.from << ":" << include.line << ": " << from << " may not use " << to;
      ++checked;
    }
  }
  EXPECT_GT(checked, 100U);
}

TEST(Rooms, CoreAndImportersKnowNoQt) {
  for (const std::string top : {"core", "importers"}) {
    for (const Include& include : includesBelow(top)) {
      const bool qt =
          include.what.rfind("Qt", 0) == 0 ||
          (include.what.size() > 1 && include.what[0] == 'Q' && std::isupper(include.what[1]) != 0);
      EXPECT_FALSE(qt) << include.from << ":" << include.line << ": " << include.what;
    }
  }
}

TEST(Rooms, OnlyTheStoreNamesTheDatabase) {
  for (const std::string top : {"core", "importers", "gui", "cli"}) {
    for (const Include& include : includesBelow(top)) {
      if (include.what == "sqlite3.h") {
        EXPECT_EQ(roomOf(include.from), "core/store") << include.from << ":" << include.line;
      }
    }
  }
}

TEST(Rooms, OnlyOneFileAsksTheMachineForTheTime) {
  const std::regex clock(R"(second_clock|microsec_clock|system_clock|std::time\(|currentDate)");
  const fs::path root = SPANWRIGHT_SOURCE_DIR;
  for (const std::string top : {"core", "importers", "cli"}) {
    for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
      const std::string path = fs::relative(entry.path(), root).generic_string();
      if (entry.path().extension() != ".cpp" || path == "core/units/time.cpp") {
        continue;
      }
      std::ifstream file(entry.path());
      std::string line;
      for (int number = 1; std::getline(file, line); ++number) {
        EXPECT_FALSE(std::regex_search(line, clock)) << path << ":" << number << ": " << line;
      }
    }
  }
}

TEST(Rooms, EverySourceNamesItsLicence) {
  const fs::path root = SPANWRIGHT_SOURCE_DIR;
  for (const std::string top : {"core", "importers", "gui", "cli", "tests", "sample_sites"}) {
    for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
      const std::string extension = entry.path().extension().string();
      if (extension == ".h" || extension == ".cpp") {
        std::ifstream file(entry.path());
        std::string line;
        std::getline(file, line);
        EXPECT_EQ(line, "// SPDX-License-Identifier: GPL-3.0-or-later") << entry.path();
      }
    }
  }
}

}  // namespace
