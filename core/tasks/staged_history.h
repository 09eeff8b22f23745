// SPDX-License-Identifier: GPL-3.0-or-later
//
// How rows of a history wait in the store's staging, and how rows of one visit are put together; internal to
// tasks.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/proposal.h"

namespace spanwright {

/// Rows with the same key belong to one visit.
std::string visitKey(const std::string& channel, Subject subject, Moment performed);

/// A row as text: every field with its length before it, so that no byte in a field can be mistaken for an
/// end. Channel, subject and moment are in the key.
std::string packRow(const HistoryRow& row, std::size_t source);
/// In place of a row that the importer rejected: the visit must not be kept without it.
std::string packMark(int line, std::size_t source);

struct Unpacked {
  std::size_t source = 0;
  bool mark = false;  ///< only row.line is meant
  HistoryRow row;
};
/// What packRow or packMark made.
Unpacked unpackRow(std::string_view key, std::string_view payload);

/// The visit that rows of one source amount to. Rejections for rows that contradict each other about the
/// visit as a whole are added to `contradictions`, without file.
ProposedVisit joinRows(const std::vector<HistoryRow>& rows, std::vector<Rejection>& contradictions);

}  // namespace spanwright
