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
  std::int64_t calibrations = 0;    ///< visits stored, or that would be by a dry run
  std::int64_t readings = 0;        ///< of those visits, skipped points included
  std::int64_t alreadyKnown = 0;    ///< visits that are in the record with the same content
  std::int64_t mistakes = 0;        ///< every rejection, also those not kept in `rejected`
  std::int64_t rejectedLines = 0;   ///< source lines named by them
  std::vector<Rejection> rejected;  ///< the first kKeptRejections of them, by source, line and column
};

/// Takes the rows of any number of sources, then checks and stores them with finish(), once. Rows of one
/// source with the same channel, subject and moment are one visit. Memory does not grow with the sources.
class HistoryImport : public HistorySink {
 public:
  /// How many rejections the outcome holds; onRejection sees all.
  static constexpr std::size_t kKeptRejections = 10000;
  /// Rows a single visit can have; more mean that the dates have lost their time of day.
  static constexpr std::size_t kMostRowsOfVisit = 5000;

  /// `now` bounds dates. Drops whatever was staged in the store.
  HistoryImport(Store& store, Moment now, DecimalSign sign);
  ~HistoryImport() override;
  HistoryImport(const HistoryImport&) = delete;
  HistoryImport& operator=(const HistoryImport&) = delete;

  /// Called with every rejection as it is found, for writing them all out; set it before the first row.
  void onRejection(std::function<void(const Rejection&)> tell) { tell_ = std::move(tell); }

  void beginFile(std::string name) override;
  void headings(const std::vector<std::string>& names) override;
  void add(const HistoryRow& row) override;
  void reject(Rejection rejection) override;
  /// Groups, checks and stores. Without `keepGood` nothing is stored when anything was rejected; with it, a
  /// visit with any mistake is rejected whole, with all its lines. `dryRun` never stores and needs no
  /// writable store. One transaction: after a throw (InputError on cancel, StorageError) the record is as it
  /// was.
  ImportOutcome finish(bool keepGood, bool dryRun, const Progress& progress = {});

 private:
  struct Visit;
  struct Source {
    std::string name;
    std::vector<std::string> headings;
  };

  void stage(const std::string& key, std::string payload);
  void take(const StagedRow& row, Visit& visit);
  void close(Visit& visit);
  void rejectVisit(const Visit& visit, std::vector<Rejection> found);
  void keep(Calibration calibration, const Visit& visit);
  std::size_t sourceIndex(const std::string& name) const;
  Where whereOf(const Visit& visit, int line, int column) const;

  Store& store_;
  Moment now_;
  DecimalSign sign_;
  std::function<void(const Rejection&)> tell_;
  std::vector<Source> sources_;
  std::int64_t order_ = 0;
  ImportOutcome outcome_;
  bool keepGood_ = false;
  bool dryRun_ = false;
  std::optional<Calibration>
      lastKept_;  ///< the next source may have it too, and a dry run cannot ask the record
};

}  // namespace spanwright
