// SPDX-License-Identifier: GPL-3.0-or-later
//
// A small CSV file of measurements given to a calculation: named columns, one row per measurement.
#pragma once

#include <string>
#include <vector>

#include "core/record/problem.h"

namespace spanwright {

/// Reads the whole file and collects mistakes, so that one call shows them all.
class DataFile {
 public:
  /// The first row with something in it names the columns, in any order, capitals or not; columns nobody
  /// asked for are passed over. Cells are separated by commas, or by semicolons when the heading holds one
  /// and no comma. InputError when a required column is missing, a column stands twice, no row follows, or
  /// rows cannot be split into as many cells as there are headings; StorageError when the file cannot be
  /// read.
  DataFile(const std::string& path, const std::vector<std::string>& required,
           const std::vector<std::string>& optional = {});

  std::size_t rows() const { return rows_.size(); }
  bool has(const std::string& column) const { return cellOf(column) >= 0; }
  /// The cell without blanks around it; empty when the column is not there.
  const std::string& text(std::size_t row, const std::string& column) const;
  /// The number in a cell (a decimal point; with semicolons as separator a comma too). When there is none the
  /// mistake is noted and NaN comes back: call finish() before anything is computed from it.
  double number(std::size_t row, const std::string& column);
  /// Notes a mistake in a cell.
  void refuse(std::size_t row, const std::string& column, std::string what, std::string todo);
  /// InputError with every mistake noted so far, if any, in the order of the file.
  void finish() const;

 private:
  struct Row {
    int line;
    std::vector<std::string> cells;
  };

  int cellOf(const std::string& column) const;
  Where whereIs(std::size_t row, const std::string& column) const;
  void readHeading(Row heading, const std::vector<std::string>& required,
                   const std::vector<std::string>& optional);

  std::string path_;
  char separator_ = ',';
  std::vector<std::string> headings_;
  std::vector<Row> rows_;
  std::vector<Problem> problems_;
};

}  // namespace spanwright
