// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/bundle_files.h"

#include <fcntl.h>
#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <fstream>
#include <random>
#include <stdexcept>
#include <system_error>

#include "core/record/problem.h"
#include "core/tasks/bundle_zip.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

bool isZip(const fs::path& place) {
  return place.extension() == ".zip";
}

std::optional<std::string> contentOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::error_code error;
  const auto size = fs::file_size(file, error);
  std::string content(error ? 0 : size, '\0');
  if (!in || error || !in.read(content.data(), static_cast<std::streamsize>(size))) {
    return std::nullopt;
  }
  return content;
}

[[noreturn]] void refuse(const fs::path& place, std::string_view what, std::string_view todo) {
  throw StorageError(fmt::format("\"{}\" {}; {}.", place.string(), what, todo));
}

[[noreturn]] void refuseExisting(const fs::path& place) {
  refuse(place, "is already there", "choose another name, nothing is ever overwritten");
}

/// Renames; never replaces, not even an empty folder made meanwhile.
void giveName(const fs::path& made, const fs::path& wanted) {
  if (::renameat2(AT_FDCWD, made.c_str(), AT_FDCWD, wanted.c_str(), RENAME_NOREPLACE) == 0) {
    return;
  }
  if (errno == EEXIST) {
    refuseExisting(wanted);
  }
  std::error_code error(errno, std::generic_category());
  if (error == std::errc::invalid_argument && !fs::exists(wanted)) {
    fs::rename(made, wanted, error);  // some file systems have no renaming that refuses by itself
  }
  if (error) {
    refuse(wanted, fmt::format("could not be made ({})", error.message()), "check the folder and try again");
  }
}

class FolderReader : public BundleReader {
 public:
  explicit FolderReader(fs::path folder) : folder_(std::move(folder)) {}

  std::vector<std::string> names() const override {
    std::vector<std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(folder_)) {
      if (entry.is_symlink() || !entry.is_directory()) {
        all.push_back(entry.path().lexically_relative(folder_).generic_string());
      }
    }
    return all;
  }

  std::string read(const std::string& name) override {
    const fs::path file = folder_ / name;
    std::error_code error;
    if (!fs::is_regular_file(fs::symlink_status(file, error))) {
      throw std::runtime_error("it is not a plain file");
    }
    auto content = contentOf(file);
    if (!content) {
      throw std::runtime_error("it cannot be read");
    }
    return *std::move(content);
  }

 private:
  fs::path folder_;
};

}  // namespace

BundleWriter::BundleWriter(fs::path place) : place_(std::move(place)) {
  while (place_.has_relative_path() && !place_.has_filename()) {
    place_ = place_.parent_path();  // "folder/"
  }
  if (fs::exists(fs::symlink_status(place_))) {
    refuseExisting(place_);
  }
  half_ = place_;
  half_ += fmt::format(".{:08x}.new", std::random_device{}());
  std::error_code error;
  fs::create_directory(half_, error);
  if (error) {
    refuse(place_, fmt::format("cannot be made ({})", error.message()), "choose another place");
  }
}

BundleWriter::~BundleWriter() {
  std::error_code ignored;
  fs::remove_all(half_, ignored);
}

fs::path BundleWriter::pathFor(const std::string& name) {
  const fs::path file = half_ / name;
  std::error_code error;
  fs::create_directories(file.parent_path(), error);
  if (error) {
    refuse(place_, fmt::format("cannot be written ({})", error.message()),
           "make room or choose another place");
  }
  return file;
}

void BundleWriter::add(const std::string& name, std::string_view content) {
  std::ofstream out(pathFor(name), std::ios::binary);
  out << content;
  out.close();
  if (!out) {
    refuse(place_, fmt::format("cannot be written ({})", name), "make room or choose another place");
  }
  sums_[name] = sha256(content);
  bytes_ += content.size();
}

void BundleWriter::added(const std::string& name) {
  const auto content = contentOf(half_ / name);
  if (!content) {
    refuse(place_, fmt::format("cannot be written ({})", name), "make room or choose another place");
  }
  sums_[name] = sha256(*content);
  bytes_ += content->size();
}

Digest BundleWriter::writeSums() {
  std::string list;
  for (const auto& [name, digest] : sums_) {
    list += fmt::format("{}  {}\n", hex(digest), name);
  }
  add(std::string(kSumsFile), list);
  return sha256(list);
}

void BundleWriter::finish() {
  if (!isZip(place_)) {
    giveName(half_, place_);
    return;
  }
  std::vector<std::string> names;
  for (const auto& [name, digest] : sums_) {
    names.push_back(name);
  }
  // Inside the unnamed folder, so that it goes with it when something fails.
  const fs::path zip = half_ / "bundle.zip.new";
  packZip(half_, names, zip);
  giveName(zip, place_);
}

std::unique_ptr<BundleReader> openBundle(const fs::path& place) {
  std::error_code error;
  if (fs::is_directory(place, error)) {
    return std::make_unique<FolderReader>(place);
  }
  if (!fs::exists(place, error)) {
    refuse(place, "is not there", "give the folder or the zip of a bundle");
  }
  return openZip(place);
}

}  // namespace spanwright
