// SPDX-License-Identifier: GPL-3.0-or-later
//
// Comma-separated values (RFC 4180 with any separator) as a stream of records, each with its line.
//
// Written here rather than taken from libcsv: that parser gives neither line nor column, holds a cell of any
// size in memory, and in its strict mode stops at the first stray quote without a place to go on from. Here a
// line that cannot be split is reported by number and cell, and reading goes on with the line after it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "importers/text_source.h"

namespace spanwright {

struct CsvRecord {
  int line = 0;  ///< of the file, from 1; the first of several for cells with line ends
  std::vector<std::string_view> cells;  ///< unquoted, valid until the next record is read
  std::string fault;                    ///< not empty: why the record could not be read, a clause
  int faultColumn = 0;                  ///< cell it was noticed in, from 1; 0 not known
  bool lastWithoutLineEnd = false;      ///< the file ends within this record, which may have been cut off

  /// Nothing but blanks and separators.
  bool blank() const;
};

class CsvReader {
 public:
  static constexpr std::size_t kLongestRecord = std::size_t{1024} * 1024;

  CsvReader(TextSource& source, char separator);
  /// Reads the next record; false at the end. A quote opens a quoted cell only at the beginning of the cell.
  /// When a quote is not closed, or text follows a closing quote, only the line with the opening quote is
  /// refused and reading goes on with the next.
  bool next(CsvRecord& record);
  /// Passes over one line whatever is in it; false at the end.
  bool skipLine();
  /// How many lines have been read.
  int line() const { return line_; }

 private:
  enum class Split { done, needsMore, strayText };
  struct Cell {
    std::size_t from;  // in buffer_
    std::size_t size;
    bool doubledQuotes;
  };

  enum class Line { found, tooLong, none };
  Line findLine(std::size_t& end);
  bool fill();
  std::string_view pending() const { return std::string_view(buffer_).substr(begin_); }
  void skipLongLine(CsvRecord& record);
  void splitPlain(std::size_t end);
  Split splitQuoted(std::size_t& end);
  std::optional<Cell> quotedCell(std::size_t& at) const;
  Cell plainCell(std::size_t& at) const;
  void finish(CsvRecord& record, std::size_t end);
  void refuseLine(CsvRecord& record, std::string why);
  void checkText(CsvRecord& record) const;

  TextSource& source_;
  char separator_;
  char lineEnd_ = '\n';
  std::string buffer_;
  std::size_t begin_ = 0;
  bool atEnd_ = false;
  int line_ = 0;
  std::vector<Cell> cells_;
};

}  // namespace spanwright
