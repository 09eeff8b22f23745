// SPDX-License-Identifier: GPL-3.0-or-later
//
// What importers and forms propose before anything is checked, and where importers put it.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/record/calibration.h"
#include "core/record/problem.h"
#include "core/units/number.h"

namespace spanwright {

struct TypedReading {
  std::string appliedText;  ///< empty: the nominal applied value
  std::string indicatedText;
  std::string skipReason;
};
/// A whole visit as proposed by a form, a file or an import, before it is checked.
struct ProposedReading {
  int sequence = 0;  ///< of the sheet's point; 0: match by key/applied/direction
  std::string key;   ///< pointKey, may be empty
  Direction direction = Direction::none;
  TypedReading typed;
  Where where;         ///< in its source
  Where appliedWhere;  ///< of the applied value, when its source tells them apart
  const Where& placeOf(bool applied) const { return applied && appliedWhere.line > 0 ? appliedWhere : where; }
};
struct ProposedVisit {
  std::string channel;
  Subject subject = Subject::channel;
  Moment performed;
  std::string person;                  ///< login
  std::vector<std::string> standards;  ///< serials
  Conditions conditions;
  bool cautionsConfirmed = false;
  Adjustment adjustment;
  std::string remarks;
  std::string source = "entered";
  CalibrationId corrects = 0;  ///< the calibration whose place it takes; 0: none
  std::string correctionReason;
  DecimalSign sign = DecimalSign::either;
  std::vector<ProposedReading> asFound;
  std::vector<ProposedReading> asLeft;
  Where where;
};

/// One reading of a history as an importer understood it.
struct HistoryRow {
  std::string channel;  ///< tag in the register
  Subject subject = Subject::channel;
  Moment performed;
  Phase phase = Phase::asFound;
  std::string key;  ///< point key, may be empty
  Direction direction = Direction::none;
  TypedReading typed;  ///< texts with units already attached when the mapping gave one
  std::string person;  ///< login
  std::vector<std::string> standards;
  std::optional<double> temperature, humidity;
  std::optional<double> referenceJunction;  ///< degC
  bool adjusted = false;
  std::string adjustmentText;
  std::string remarks;
  int line = 0;             ///< in the file
  int indicatedColumn = 0;  ///< for messages
  int appliedColumn = 0;
};

/// Which visit a row belongs to.
struct VisitKey {
  std::string channel;  ///< tag in the register
  Subject subject = Subject::channel;
  Moment performed;
};

struct Rejection {
  Where where;
  std::string reason;
  std::vector<int> lines;  ///< every source line refused with it
  /// From importers, when that much of the row was understood: the visit must not be kept without this row.
  std::optional<VisitKey> visit = {};
};

/// Says how far it is (0..1); returns false to cancel (InputError "cancelled", nothing written).
using Progress = std::function<bool(double)>;

/// Takes what an importer reads. The importer calls beginFile once per source, then add or reject per row.
class HistorySink {
 public:
  virtual ~HistorySink() = default;
  virtual void beginFile(std::string name) = 0;
  /// The headings of the source's columns, for naming them in messages; called after beginFile by sources
  /// that have some.
  virtual void headings(const std::vector<std::string>& names) { (void)names; }
  virtual void add(const HistoryRow& row) = 0;
  virtual void reject(Rejection rejection) = 0;  ///< a row the importer could not understand
};

}  // namespace spanwright
