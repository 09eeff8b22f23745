// SPDX-License-Identifier: GPL-3.0-or-later
//
// Taking a history into the record: rows from importers are staged, grouped into visits, checked and stored,
// all or nothing unless asked to keep the good.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "core/record/proposal.h"
#include "core/store/store.h"

namespace spanwright {

struct ImportOutcome {
  std::int64_t calibrations = 0;
  std::int64_t readings = 0;
  std::int64_t alreadyKnown = 0;
  std::vector<Rejection> rejected;
};

class HistoryImport : public HistorySink {
 public:
  /// `now` bounds dates.
  HistoryImport(Store& store, Moment now, DecimalSign sign);
  void beginFile(std::string name) override;
  void add(const HistoryRow& row) override;
  void reject(Rejection rejection) override;
  /// Groups, checks and stores. Without `keepGood` nothing is stored when anything was rejected; `dryRun`
  /// never stores.
  ImportOutcome finish(bool keepGood, bool dryRun, const Progress& progress = {});

 private:
  Store& store_;
  Moment now_;
  DecimalSign sign_;
  std::string file_;
  std::int64_t order_ = 0;
  std::vector<Rejection> rejected_;
};

}  // namespace spanwright
