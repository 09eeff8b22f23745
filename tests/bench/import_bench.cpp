// SPDX-License-Identifier: GPL-3.0-or-later
//
// How fast a large history is taken into a new record, and how much memory that needs. The history is of an
// invented site and is made on the spot. The import runs in a process of its own, so that its peak memory is
// nobody else's.
//
//   bench_import [--readings N] [--folder DIR]
//
// Ends with 1 when the peak exceeds 256 MiB or the import did not take in every reading, with 2 when called
// wrongly.
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "core/tasks/history_import.h"
#include "core/units/number.h"
#include "importers/csv_history.h"
#include "importers/site_file.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;
using Seconds = std::chrono::duration<double>;

constexpr long kPeakLimitKiB = 256L * 1024L;
constexpr int kChannels = 250;
constexpr int kReadingsPerVisit = 10;

constexpr const char* kSite = R"(# Invented, for measuring only.
[site]
code = "BENCH"
name = "Invented site for measuring"
[[person]]
login = "tech"
name = "Invented Technician"
roles = ["technician"]
[[place]]
path = "Hall / Cabinet"
[[interval]]
code = "yearly"
months = 12
[[plan]]
code = "AI-5UD"
revision = "1"
title = "Analog input, five points up and down"
points = [0, 25, 50, 75, 100]
order = "up-down"
tolerance = { percent_of_span = 0.5 }
[[standard]]
serial = "LC-1"
  [[standard.certificate]]
  number = "C-1"
  issuer = "invented"
  issued = 2000-01-01
  valid_from = 2000-01-01
  valid_until = 2030-12-31
    [[standard.certificate.range]]
    unit = "mA"
    resolution = 0.001
    points = [ { nominal = 4, error = 0.0002, uncertainty = 0.0008 }, { nominal = 20, error = 0.0005, uncertainty = 0.0012 } ]
)";

constexpr const char* kChannel = R"([[channel]]
tag = "{0}"
place = "Hall / Cabinet"
  [[channel.setup]]
  from = 2000-01-01T00:00:00
  kind = "analog-input"
  signal = {{ low = 4, high = 20, unit = "mA" }}
  bits = 16
  units = {{ low = 0, high = 150, unit = "degC" }}
  resolution = 0.01
  [[channel.routine]]
  subject = "channel"
  plan = "AI-5UD"
  interval = "yearly"
)";

constexpr const char* kMapping = R"(layout = "long"
subject = "channel"
[columns]
channel = "Tag"
performed = "Performed"
phase = "Phase"
point = "Point"
direction = "Direction"
applied = "Applied"
reading = "Reading"
person = "Technician"
standards = "Standards"
adjusted = "Adjusted"
temperature = "Ambient degC"
remarks = "Remarks"
[units]
applied = "mA"
reading = "degC"
)";

std::string tagOf(int channel) {
  return fmt::format("TT-{:04}", channel + 1);
}

void writeSite(const fs::path& file) {
  std::ofstream out(file);
  out << kSite;
  for (int channel = 0; channel < kChannels; ++channel) {
    out << fmt::format(fmt::runtime(kChannel), tagOf(channel));
  }
}

/// Visits go round the channels as on a real site, so that the rows of a channel lie far apart.
void writeHistory(const fs::path& file, long readings) {
  constexpr double kPercents[] = {0, 25, 50, 75, 100, 100, 75, 50, 25, 0};
  std::ofstream out(file);
  out << "Tag,Performed,Phase,Point,Direction,Applied,Reading,Technician,Standards,Adjusted,Ambient "
         "degC,Remarks\n";
  const Moment first = parseMoment("2001-01-01T06:00:00").value();
  for (long visit = 0; visit * kReadingsPerVisit < readings; ++visit) {
    const long round = visit / kChannels;
    const auto channel = static_cast<int>(visit % kChannels);
    const std::string moment =
        formatMoment(first + boost::posix_time::hours(24 * round) + boost::posix_time::minutes(channel));
    const double drift = 0.2 * std::sin(static_cast<double>(visit));
    for (int i = 0; i < kReadingsPerVisit; ++i) {
      const double percent = kPercents[i];
      out << fmt::format("{},{},as found,{},{},{:.3f},{:.2f},tech,LC-1,no,{:.1f},\n", tagOf(channel), moment,
                         percent, i < kReadingsPerVisit / 2 ? "up" : "down", 4.0 + 0.16 * percent,
                         1.5 * percent + drift, 20.0 + drift);
    }
  }
}

long peakKiB() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.starts_with("VmHWM:")) {
      return std::strtol(line.c_str() + 6, nullptr, 10);
    }
  }
  return -1;
}

/// The importing process: prints what it did and leaves with 0 only when everything was taken in.
int importAll(const fs::path& folder, long readings) {
  const Register site = readSiteFile(folder / "site.toml");
  Store store = Store::create(folder / "record.db", site);
  const auto begin = std::chrono::steady_clock::now();
  const auto mapping = readCsvMapping(folder / "map.toml");
  HistoryImport import(store, systemClock().localNow(), decimalSign(*mapping));
  readCsvHistory(folder / "history.csv", *mapping, store.site(), import);
  const auto staged = std::chrono::steady_clock::now();
  const ImportOutcome outcome = import.finish(false, false);
  const auto end = std::chrono::steady_clock::now();
  for (std::size_t i = 0; i < std::min<std::size_t>(outcome.rejected.size(), 5); ++i) {
    std::cerr << sentence({outcome.rejected[i].where, outcome.rejected[i].reason, ""}) << '\n';
  }
  const Seconds reading = staged - begin;
  const Seconds storing = end - staged;
  const Seconds all = end - begin;
  const long peak = peakKiB();
  std::cout << fmt::format(
      "import: {} readings of {} visits in {:.2f} s ({:.2f} s reading, {:.2f} s checking and "
      "storing), {:.0f} rows/s\npeak resident memory: {:.1f} MiB (limit {} MiB)\n",
      outcome.readings, outcome.calibrations, all.count(), reading.count(), storing.count(),
      static_cast<double>(outcome.readings) / all.count(), static_cast<double>(peak) / 1024.0,
      kPeakLimitKiB / 1024);
  std::cout.flush();
  std::ofstream(folder / "seconds.txt") << formatShortest(all.count());
  return outcome.readings == readings && peak > 0 && peak <= kPeakLimitKiB ? 0 : 1;
}

/// Runs a program without a shell; its exit status, or -1.
int run(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const auto& word : words) {
    arguments.push_back(const_cast<char*>(word.c_str()));
  }
  arguments.push_back(nullptr);
  const pid_t child = fork();
  if (child == 0) {
    execvp(arguments[0], arguments.data());
    _exit(127);
  }
  int status = 0;
  return child > 0 && waitpid(child, &status, 0) == child && WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

void compareWithPlainImport(const fs::path& folder) {
  const auto begin = std::chrono::steady_clock::now();
  const int status = run({"sqlite3", (folder / "plain.db").string(),
                          fmt::format(".import --csv {} readings", (folder / "history.csv").string())});
  const Seconds plain = std::chrono::steady_clock::now() - begin;
  std::string text;
  std::getline(std::ifstream(folder / "seconds.txt") >> std::ws, text);
  const auto ours = parseNumber(text);
  if (status != 0 || !ours) {
    std::cout << "sqlite3 .import: could not be run, no comparison\n";
    return;
  }
  std::cout << fmt::format("sqlite3 .import of the same file: {:.2f} s; ratio {:.1f}\n", plain.count(),
                           ours->value / plain.count());
}

int measure(const fs::path& folder, long readings, const char* self) {
  fs::create_directories(folder);
  for (const auto* old : {"record.db", "record.db-wal", "record.db-shm", "plain.db"}) {
    fs::remove(folder / old);
  }
  writeSite(folder / "site.toml");
  std::ofstream(folder / "map.toml") << kMapping;
  writeHistory(folder / "history.csv", readings);
  std::cout << fmt::format("history: {} readings, {:.1f} MB\n", readings,
                           static_cast<double>(fs::file_size(folder / "history.csv")) / 1e6);
  std::cout.flush();
  const int status = run({self, "--importing", folder.string(), "--readings", std::to_string(readings)});
  if (status == 0) {
    compareWithPlainImport(folder);
  } else {
    std::cout << "the import failed, lost readings or needed too much memory\n";
  }
  return status == 0 ? 0 : 1;
}

int usage() {
  std::cerr << "bench_import [--readings N] [--folder DIR]: N is a multiple of " << kReadingsPerVisit << "\n";
  return 2;
}

int benchMain(const std::vector<std::string>& words) {
  long readings = 1'000'000;
  fs::path folder;
  bool importing = false;
  for (std::size_t i = 1; i + 1 < words.size(); i += 2) {
    const std::string& value = words[i + 1];
    if (words[i] == "--readings") {
      const auto end = std::from_chars(value.data(), value.data() + value.size(), readings);
      if (end.ec != std::errc() || end.ptr != value.data() + value.size() || readings <= 0 ||
          readings % kReadingsPerVisit != 0) {
        return usage();
      }
    } else if (words[i] == "--folder" || words[i] == "--importing") {
      folder = value;
      importing = words[i] == "--importing";
    } else {
      return usage();
    }
  }
  if (words.size() % 2 == 0) {
    return usage();
  }
  if (importing) {
    return importAll(folder, readings);
  }
  if (!folder.empty()) {
    return measure(folder, readings, "/proc/self/exe");
  }
  std::string made = (fs::temp_directory_path() / "spanwright-bench-XXXXXX").string();
  if (mkdtemp(made.data()) == nullptr) {
    std::cerr << "no folder could be made in " << fs::temp_directory_path() << "\n";
    return 2;
  }
  const int status = measure(made, readings, "/proc/self/exe");
  fs::remove_all(made);
  return status;
}

}  // namespace
}  // namespace spanwright

int main(int count, char** words) {
  try {
    return spanwright::benchMain(std::vector<std::string>(words, words + count));
  } catch (const std::exception& trouble) {
    std::cerr << trouble.what() << '\n';
    return 1;
  }
}
