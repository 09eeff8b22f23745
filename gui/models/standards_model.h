// SPDX-License-Identifier: GPL-3.0-or-later
//
// The standards, the certificates of one, and what was decided about it.
#pragma once

#include "core/tasks/standards.h"
#include "gui/models/rows_model.h"

namespace spanwright {

/// A copy of what the register says, which may be read again at any time.
struct StandardRow {
  Standard standard;
  StandardState state = StandardState::noCertificate;
  std::optional<Date> lastDay;
  int daysLeft = 0;
  QString certificate;  ///< number of the one that counts
};
std::vector<StandardRow> standardRows(const Register& site, Date day);

class StandardsModel : public RowsModel<StandardRow> {
  Q_OBJECT
 public:
  enum Columns { kSerial, kState, kLeft, kWhat, kLastDay, kCertificate, kWhere };
  explicit StandardsModel(QObject* parent = nullptr);
};

class StandardCertificatesModel : public RowsModel<StandardCertificate> {
  Q_OBJECT
 public:
  enum Columns { kNumber, kFrom, kUntil, kIssued, kFactor, kRanges, kIssuer };
  explicit StandardCertificatesModel(QObject* parent = nullptr);
};

class StandardEventsModel : public RowsModel<StandardEvent> {
  Q_OBJECT
 public:
  enum Columns { kWhat, kFrom, kUntil, kBy, kAt, kReason };
  explicit StandardEventsModel(QObject* parent = nullptr);
};

}  // namespace spanwright
