// SPDX-License-Identifier: GPL-3.0-or-later
//
// From the cells of one CSV record to rows of a history; internal to the importers.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/proposal.h"
#include "core/record/register.h"
#include "importers/csv_head.h"

namespace spanwright {

class RowReader {
 public:
  /// All of them must outlive the reader.
  RowReader(const CsvMapping& mapping, const Register& site, const CsvHead& head, const std::string& file,
            HistorySink& into);
  /// Adds the record's readings, or rejects the record once for every mistake in it.
  void read(const CsvRecord& record);

 private:
  std::string_view cell(const std::optional<BoundColumn>& column) const;
  std::string_view cell(Field field) const { return cell(head_.column(field)); }
  void mistake(const std::optional<BoundColumn>& column, std::string reason);
  void mistake(Field field, std::string reason) { mistake(head_.column(field), std::move(reason)); }

  bool shapeIsRight();
  void readChannel(HistoryRow& row);
  void readPerformed(HistoryRow& row);
  void readSubject(HistoryRow& row);
  void readPeople(HistoryRow& row);
  void readStandards(HistoryRow& row);
  void readConditions(HistoryRow& row);
  void readAdjustment(HistoryRow& row);
  void readRemarks(HistoryRow& row) const;
  std::optional<double> conditionIn(Field field, Unit unit);

  void readLong(const HistoryRow& visit);
  void readWide(const HistoryRow& visit);
  /// One reading; nothing is added when both cells are empty and `mayBeEmpty`.
  void addReading(HistoryRow row, const std::optional<BoundColumn>& applied,
                  const std::optional<BoundColumn>& reading, bool mayBeEmpty);
  std::string typedText(const std::optional<BoundColumn>& column);
  void finish();

  const CsvMapping& mapping_;
  const Register& site_;
  const CsvHead& head_;
  const std::string& file_;
  HistorySink& into_;
  const CsvRecord* record_ = nullptr;
  std::vector<HistoryRow> rows_;
  std::vector<Rejection> mistakes_;
  bool channelKnown_ = false;
  bool momentKnown_ = false;
  bool subjectKnown_ = false;
  HistoryRow visit_;
  // Rows of one visit follow each other: the last texts and what they meant.
  std::string lastDateText_;
  std::optional<Moment> lastMoment_;
  std::string lastTagText_;
  std::string lastTag_;
};

}  // namespace spanwright
