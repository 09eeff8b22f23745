// SPDX-License-Identifier: GPL-3.0-or-later
//
// A bundle's files, as a folder or as one zip. Names are relative, with '/' between their parts.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/digest.h"

namespace spanwright {

/// Name of the list of digests, in the form that "sha256sum -c" takes.
inline constexpr std::string_view kSumsFile = "SHA256SUMS";

/// Fills a folder that has no name yet; nothing of it is left unless one of the last two calls was made.
class BundleWriter {
 public:
  /// StorageError when something is at `place` already, or the folder beside it cannot be made.
  explicit BundleWriter(std::filesystem::path place);
  ~BundleWriter();
  BundleWriter(const BundleWriter&) = delete;
  BundleWriter& operator=(const BundleWriter&) = delete;

  /// StorageError when it cannot be written.
  void add(const std::string& name, std::string_view content);
  /// Where somebody else may write the file of this name; taken up by `added`.
  std::filesystem::path pathFor(const std::string& name);
  void added(const std::string& name);
  /// Writes the list of digests; nothing is added after. Returns the list's own digest.
  Digest writeSums();

  const std::filesystem::path& folder() const { return half_; }
  std::size_t files() const { return sums_.size(); }
  std::uintmax_t bytes() const { return bytes_; }

  /// Gives the folder the place's name, or packs it into a zip there when the name ends in ".zip". What is
  /// there already is never replaced. StorageError.
  void finish();

 private:
  std::filesystem::path place_, half_;
  std::map<std::string, Digest> sums_;
  std::uintmax_t bytes_ = 0;
};

class BundleReader {
 public:
  virtual ~BundleReader() = default;
  virtual std::vector<std::string> names() const = 0;
  /// std::runtime_error with a clause when it cannot be read.
  virtual std::string read(const std::string& name) = 0;
};
/// StorageError when there is no folder or zip at `place`.
std::unique_ptr<BundleReader> openBundle(const std::filesystem::path& place);

}  // namespace spanwright
