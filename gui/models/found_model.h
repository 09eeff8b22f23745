// SPDX-License-Identifier: GPL-3.0-or-later
//
// Channels found by what was typed, the best ones first.
#pragma once

#include <optional>
#include <string>

#include "core/tasks/status.h"
#include "gui/models/rows_model.h"

namespace spanwright {

struct FoundRow {
  std::string tag, title, place;
  std::string sensors;  ///< serial numbers of what is or was fitted, the last one first
  bool retired = false;
  std::optional<DueState> state;
  std::optional<Date> dueOn;
};

class FoundModel : public RowsModel<FoundRow> {
  Q_OBJECT
 public:
  enum Columns { kTag, kTitle, kState, kSensors, kPlace, kDueOn };
  explicit FoundModel(QObject* parent = nullptr);
  /// The place of a channel among the rows shown; nothing when it is not there.
  std::optional<int> rowOf(const QString& tag) const;
};

/// `due`: of this channel only.
FoundRow foundRow(const Channel& channel, const std::vector<DueItem>& due);

}  // namespace spanwright
