// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which parts of a record go with calibrations: what they refer to, and what refers to them.
#pragma once

#include <deque>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/bundle_units.h"

namespace spanwright {

class EvidenceUnits {
 public:
  explicit EvidenceUnits(const Store& store);

  /// Called once for every unit, with its rows; an attachment's with the file they name.
  using Take = std::function<void(const UnitKey&, BundleJson rows)>;
  /// From these units to all that belongs to them.
  void gather(const std::vector<UnitKey>& from, const Take& take);

  bool has(const UnitKey& unit) const { return known_.contains(unitFileName(unit)); }
  std::size_t count() const { return known_.size(); }
  /// All calibrations gathered.
  const std::set<CalibrationId>& calibrations() const { return calibrations_; }
  const std::vector<Attachment>& attachments() const { return attached_; }

 private:
  void want(UnitKey unit);
  void follow(const Take& take);
  void belongings(const UnitKey& unit, const BundleJson& rows);
  void ofCalibration(CalibrationId id, const BundleJson& rows);
  void ofStandard(std::int64_t standard, const BundleJson& rows);
  void attach(const std::function<bool(const Attachment&)>& belongs);

  const Store& store_;
  const std::vector<Attachment> all_;
  std::map<std::string, std::vector<UnitKey>> below_;  ///< "setup 3": units of the kind below that number
  std::vector<UnitKey> standardEvents_;
  std::map<std::int64_t, UnitKey> certificateOf_;                    ///< by the entry that issued it
  std::set<std::pair<std::int64_t, std::string>> usedCertificates_;  ///< standard's key, number
  std::map<std::int64_t, std::string> serials_;
  std::set<CalibrationId> calibrations_;
  std::vector<Attachment> attached_;
  std::set<std::string> known_;
  std::deque<UnitKey> open_;
};

/// "standards/12-sheet.pdf", or "attachments/..." for one that is about no standard.
std::string attachmentFile(const Attachment& attachment);

}  // namespace spanwright
