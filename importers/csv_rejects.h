// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an import refused, written out so that it can be mended and imported again.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "core/record/proposal.h"
#include "importers/csv_history.h"

namespace spanwright {

/// The heading of the column that says why a row was refused. Importers pass over a column of this name.
inline constexpr std::string_view kRefusedHeading = "refused";

/// Collects refusals during an import and then writes the refused rows as they stand in their sources, each
/// with its reason in a first column "refused". The same mapping reads the file again once it is mended,
/// because what was taken in is known by then. UTF-8 with a byte order mark, the mapping's separator.
class CsvRejects {
 public:
  void add(const Rejection& rejection);
  bool empty() const { return lines_.empty(); }
  /// Reads the sources again. A cell of ours that a spreadsheet would take for a formula gets an apostrophe
  /// in front. StorageError when a source or `file` fails; nothing half-written is left.
  void write(const std::filesystem::path& file, const std::vector<std::string>& sources,
             const CsvMapping& mapping) const;

 private:
  struct Line {
    std::string source;
    int line = 0;
    std::size_t reason = 0;  // index into reasons_
  };
  std::vector<Line> lines_;
  std::vector<std::string> reasons_;
};

}  // namespace spanwright
