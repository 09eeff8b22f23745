// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sample sites as the tests need them: where they are, and a record filled from them.
#pragma once

#include <filesystem>
#include <string>

#include "core/store/store.h"
#include "core/tasks/history_import.h"
#include "importers/csv_history.h"
#include "importers/site_file.h"
#include "tests/support/csv.h"

namespace spanwright::test {

/// The day every test here takes as today.
inline Moment sampleNow() {
  return *parseMoment("2026-11-25T12:00:00");
}

class SampleClock : public Clock {
 public:
  Moment localNow() const override { return sampleNow(); }
  Moment utcNow() const override { return sampleNow(); }
};
inline const Clock& sampleClock() {
  static const SampleClock clock;
  return clock;
}

inline std::filesystem::path sampleFolder(const std::string& site) {
  return std::filesystem::path(SPANWRIGHT_SOURCE_DIR) / "sample_sites" / site;
}

/// A folder of its own that is gone with it.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "sample-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) {
      throw std::runtime_error("no temporary folder");
    }
    path_ = name;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

inline ImportOutcome importInto(Store& store, const std::filesystem::path& file,
                                const std::filesystem::path& map, bool keepGood = false) {
  const auto mapping = readCsvMapping(map);
  HistoryImport into(store, sampleNow(), decimalSign(*mapping));
  readCsvHistory(file, *mapping, store.site(), into);
  return into.finish(keepGood, false);
}

/// A site's record with its whole history, made once for all tests of the program.
struct SampleRecord {
  TemporaryFolder folder;
  Store store;
  std::vector<CsvRow> sources;          ///< of truth/sources.csv
  std::vector<ImportOutcome> outcomes;  ///< of each, in the same order

  explicit SampleRecord(const std::string& site)
      : store(Store::create(folder.path() / "record", readSiteFile(sampleFolder(site) / (site + ".toml")),
                            sampleClock())),
        sources(readReferenceCsv((sampleFolder(site) / "truth/sources.csv").string())) {
    for (const CsvRow& source : sources) {
      outcomes.push_back(importInto(store, sampleFolder(site) / source.at("file"),
                                    sampleFolder(site) / source.at("mapping")));
    }
  }
};
inline SampleRecord& sampleRecord(const std::string& site) {
  static std::map<std::string, std::unique_ptr<SampleRecord>> records;
  auto& record = records[site];
  if (!record) {
    record = std::make_unique<SampleRecord>(site);
  }
  return *record;
}

inline std::vector<CsvRow> truth(const std::string& site, const std::string& table) {
  return readReferenceCsv((sampleFolder(site) / "truth" / (table + ".csv")).string());
}

inline Subject subjectOf(const CsvRow& row) {
  return parseSubject(row.at("subject")).value();
}

}  // namespace spanwright::test
