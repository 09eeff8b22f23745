// SPDX-License-Identifier: GPL-3.0-or-later
//
// A bundle of an invented record with something of every kind in it, and its files in memory to be changed.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/tasks/bundle_check.h"
#include "core/tasks/evidence.h"
#include "tests/core/store/full_record.h"
#include "tests/core/store/samples.h"

namespace spanwright::test {

using Files = std::map<std::string, std::string>;

class FilesReader : public BundleReader {
 public:
  explicit FilesReader(Files held) : files(std::move(held)) {}
  std::vector<std::string> names() const override;
  std::string read(const std::string& name) override { return files.at(name); }

  Files files;
};

/// Of a folder or a zip.
Files filesOf(const std::filesystem::path& bundle);
/// With the list of digests made right for what is there now.
Files withSums(Files files);
BundleCheck checked(const Files& files, const std::vector<JournalHead>& known = {});
/// Is there a problem of this file?
bool names(const BundleCheck& check, const std::string& file);
std::string said(const BundleCheck& check);

/// A certificate "drawn" as a text, where no PDF is needed.
void writeAsText(const Certificate& certificate, const std::filesystem::path& file);

/// The record of full_record.h with files attached to a calibration, a channel and a standard's certificate,
/// and a certificate issued after them.
FullRecord makeAttachedRecord(const std::filesystem::path& file, const Clock& clock);

}  // namespace spanwright::test
