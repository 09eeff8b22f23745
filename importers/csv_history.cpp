// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_history.h"

#include <fmt/format.h>

#include "importers/csv_head.h"
#include "importers/csv_mapping.h"
#include "importers/csv_reader.h"
#include "importers/csv_rows.h"
#include "importers/text_source.h"

namespace spanwright {
namespace {

/// The line "sep=;" some spreadsheets put first; refused when it names another separator than the mapping.
bool isSeparatorLine(const CsvRecord& record, const CsvMapping& mapping, const std::string& file) {
  if (record.line != 1 || record.cells.empty() || !record.cells[0].starts_with("sep=")) {
    return false;
  }
  if (record.cells[0].size() == 5 && record.cells[0][4] != mapping.separator) {
    throw InputError(fmt::format("the file says that its separator is \"{}\", the mapping that it is \"{}\"",
                                 record.cells[0][4], mapping.separator),
                     "correct the mapping's separator", Where{file, 1, 0, {}});
  }
  return true;
}

CsvHead readHead(CsvReader& reader, const CsvMapping& mapping, const std::string& file) {
  for (int i = 0; i < mapping.skippedLines; ++i) {
    reader.skipLine();
  }
  CsvRecord record;
  while (reader.next(record)) {
    if (!record.fault.empty()) {
      throw InputError(fmt::format("the heading line cannot be read: {}", record.fault),
                       "correct it, or the mapping's separator and encoding",
                       Where{file, record.line, record.faultColumn, {}});
    }
    if (!record.blank() && !isSeparatorLine(record, mapping, file)) {
      return bindHead(record, mapping, file);
    }
  }
  throw InputError("the file has no heading line", "the first line must name the columns",
                   Where{file, reader.line(), 0, {}});
}

}  // namespace

void readCsvHistory(const std::filesystem::path& file, const CsvMapping& mapping, const Register& site,
                    HistorySink& into, const Progress& progress) {
  checkNames(mapping, site);
  TextSource source(file, mapping.encoding);
  CsvReader reader(source, mapping.separator);
  const std::string name = file.string();
  const CsvHead head = readHead(reader, mapping, name);
  into.beginFile(name);
  into.headings(head.headings);
  RowReader rows(mapping, site, head, name, into);
  CsvRecord record;
  double told = -1.0;
  while (reader.next(record)) {
    rows.read(record);
    if (progress && source.done() != told) {
      told = source.done();
      if (!progress(told)) {
        throw InputError("the import was cancelled", "nothing was written");
      }
    }
  }
}

}  // namespace spanwright
