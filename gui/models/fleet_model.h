// SPDX-License-Identifier: GPL-3.0-or-later
//
// The channels by how soon they leave their tolerance, or how much of it they have used.
#pragma once

#include "core/tasks/fleet.h"
#include "gui/models/rows_model.h"
#include "gui/models/search_words.h"

namespace spanwright {

class FleetModel : public RowsModel<FleetRow> {
  Q_OBJECT
 public:
  enum Columns {
    kChannel,
    kSubject,
    kPoint,
    kUsed,
    kUsedByBand,
    kInTolerance,
    kBandOut,
    kDays,
    kRate,
    kFindings,
    kBasis,
    kLineOut,
    kPlace
  };
  explicit FleetModel(QObject* parent = nullptr);
  /// `small`: smallText of each.
  void setFleet(Rows fleet, SmallTexts small);
  /// Every word must stand somewhere in a row.
  void narrowTo(const QString& words);
  /// What words are looked for in, apart from the word for the subject.
  static std::string smallText(const FleetRow& row);

 private:
  SmallTexts small_;
};

}  // namespace spanwright
