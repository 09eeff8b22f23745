// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_rejects.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <map>
#include <set>

#include "core/units/csv.h"
#include "importers/csv_mapping.h"
#include "importers/csv_reader.h"
#include "importers/file_words.h"
#include "importers/text_source.h"

namespace spanwright {

namespace {

namespace fs = std::filesystem;

std::string row(const std::string& first, const CsvRecord& record, char separator) {
  std::string line = csvCell(first, separator);
  for (const std::string_view one : record.cells) {
    line += separator + csvCell(one, separator);
  }
  return line + "\r\n";
}

// Writes beside the target and renames at the end, so that a full disk leaves the target as it was.
class FileBeside {
 public:
  explicit FileBeside(fs::path target) : target_(std::move(target)), beside_(target_.string() + ".part") {
    out_.open(beside_, std::ios::binary | std::ios::trunc);
    check();
  }
  ~FileBeside() {
    if (!done_) {
      std::error_code ignored;
      fs::remove(beside_, ignored);
    }
  }
  FileBeside(const FileBeside&) = delete;
  FileBeside& operator=(const FileBeside&) = delete;

  void write(std::string_view text) {
    out_ << text;
    check();
  }
  void finish() {
    out_.close();
    check();
    std::error_code failed;
    fs::rename(beside_, target_, failed);
    if (failed) {
      throw StorageError(
          fmt::format("The rejects cannot be written to {} ({}); give another file with --rejects.",
                      target_.string(), failed.message()));
    }
    done_ = true;
  }

 private:
  void check() const {
    if (!out_) {
      throw StorageError(
          fmt::format("The rejects cannot be written to {} ({}); give another file with --rejects.",
                      target_.string(), std::strerror(errno)));
    }
  }

  fs::path target_, beside_;
  std::ofstream out_;
  bool done_ = false;
};

void writeSource(FileBeside& out, const std::string& source, const CsvMapping& mapping, bool withHead,
                 const std::map<int, std::string>& reasons) {
  TextSource text(source, mapping.encoding);
  CsvReader reader(text, mapping.separator);
  for (int i = 0; i < mapping.skippedLines; ++i) {
    reader.skipLine();
    out.write(withHead ? "\r\n" : "");
  }
  CsvRecord record;
  bool headSeen = false;
  while (reader.next(record)) {
    if (!headSeen) {
      if (record.blank() ||
          (record.line == 1 && !record.cells.empty() && record.cells[0].starts_with("sep="))) {
        continue;
      }
      headSeen = true;
      out.write(withHead ? row(std::string(kRefusedHeading), record, mapping.separator) : "");
    } else if (const auto found = reasons.find(record.line); found != reasons.end()) {
      out.write(row(harmlessCell(found->second), record, mapping.separator));
    }
  }
}

}  // namespace

void CsvRejects::add(const Rejection& rejection) {
  reasons_.push_back(sentence(Problem{rejection.where, rejection.reason, ""}));
  const std::size_t reason = reasons_.size() - 1;
  for (const int line : rejection.lines) {
    lines_.push_back({rejection.where.file, line, reason});
  }
  if (rejection.lines.empty() && rejection.where.line > 0) {
    lines_.push_back({rejection.where.file, rejection.where.line, reason});
  }
}

void CsvRejects::write(const fs::path& file, const std::vector<std::string>& sources,
                       const CsvMapping& mapping) const {
  std::map<std::string, std::map<int, std::string>> bySource;
  for (const Line& line : lines_) {
    std::string& reason = bySource[line.source][line.line];
    const std::string& more = reasons_[line.reason];
    // A row can be refused for its own sake and with its visit; say each thing once.
    if (reason.find(more) == std::string::npos) {
      reason += (reason.empty() ? "" : " ") + more;
    }
  }
  FileBeside out(file);
  out.write(kUtf8Mark);
  bool first = true;
  std::set<std::string> done;
  for (const std::string& source : sources) {
    if (bySource.contains(source) && done.insert(source).second) {
      writeSource(out, source, mapping, first, bySource.at(source));
      first = false;
    }
  }
  out.finish();
}

}  // namespace spanwright
