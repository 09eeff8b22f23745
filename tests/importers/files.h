// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files made on the spot, a register to read histories against, and a sink that remembers.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/proposal.h"
#include "core/record/register.h"
#include "importers/csv_history.h"

namespace spanwright::test {

/// A file that is gone with the object.
class TempFile {
 public:
  explicit TempFile(std::string_view content, const std::string& name = "file") {
    static int count = 0;
    path_ = std::filesystem::path(testing::TempDir()) /
            ("spanwright-" + std::to_string(getpid()) + "-" + std::to_string(++count) + "-" + name);
    std::ofstream(path_, std::ios::binary) << content;
  }
  ~TempFile() {
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
  }
  TempFile(const TempFile&) = delete;
  TempFile& operator=(const TempFile&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// What an InputError says, one string per problem: "line:column what; todo".
template <typename Work>
std::vector<std::string> problemsOf(Work work) {
  std::vector<std::string> all;
  try {
    work();
  } catch (const InputError& error) {
    for (const Problem& problem : error.problems()) {
      all.push_back(std::to_string(problem.where.line) + ":" + std::to_string(problem.where.column) + " " +
                    problem.what + "; " + problem.todo);
    }
  }
  return all;
}

inline std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const auto& line : lines) {
    all += line + "\n";
  }
  return all;
}

class Sink : public HistorySink {
 public:
  void beginFile(std::string name) override { files.push_back(std::move(name)); }
  void add(const HistoryRow& row) override { rows.push_back(row); }
  void reject(Rejection rejection) override { rejected.push_back(std::move(rejection)); }
  std::vector<std::string> files;
  std::vector<HistoryRow> rows;
  std::vector<Rejection> rejected;

  /// "line:column heading: reason" of each rejection.
  std::string said() const {
    std::string all;
    for (const auto& one : rejected) {
      all += std::to_string(one.where.line) + ":" + std::to_string(one.where.column) + " " +
             one.where.columnName + ": " + one.reason + "\n";
    }
    return all;
  }
};

/// Two channels, two people, two standards.
inline Register smallSite() {
  Register site;
  for (const auto* tag : {"TT-101", "FT-102"}) {
    Channel channel;
    channel.tag = tag;
    site.channels.push_back(channel);
  }
  site.people.push_back({"mt", "Mara Tolland", {Role::technician}, {}});
  site.people.push_back({"jf", "Jo Fen", {Role::technician}, {}});
  for (const auto* serial : {"LC-1", "MM-2"}) {
    Standard standard;
    standard.serial = serial;
    site.standards.push_back(standard);
  }
  site.index();
  return site;
}

inline Sink readHistory(std::string_view mapping, std::string_view csv) {
  const TempFile map(mapping, "map.toml");
  const TempFile data(csv, "history.csv");
  const Register site = smallSite();
  Sink sink;
  readCsvHistory(data.path(), *readCsvMapping(map.path()), site, sink);
  return sink;
}

inline constexpr std::string_view kLongMapping = R"(
layout = "long"
subject = "channel"
[columns]
channel = "Tag"
performed = "Date"
phase = "Phase"
point = "Point"
direction = "Way"
applied = "Applied"
reading = "Reading"
person = "By"
[units]
applied = "mA"
reading = "degC"
)";
inline constexpr std::string_view kLongHead = "Tag,Date,Phase,Point,Way,Applied,Reading,By\n";

}  // namespace spanwright::test
