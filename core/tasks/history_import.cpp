// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/history_import.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <tuple>

#include "core/tasks/staged_history.h"
#include "core/tasks/visit.h"

namespace spanwright {
namespace {

std::string reasonOf(const Problem& problem) {
  return problem.todo.empty() ? problem.what : problem.what + "; " + problem.todo;
}

/// How many points of the sheet a row could be for: the same row more often than that stands there twice.
std::size_t roomFor(const HistoryRow& row, const VisitSheet& sheet, DecimalSign sign) {
  std::optional<double> applied;
  if (const auto typed = parseQuantity(row.typed.appliedText, sign); typed && row.key.empty()) {
    applied = convert(typed->value, typed->unit.value_or(sheet.model->appliedSpan().unit),
                      sheet.model->appliedSpan().unit);
  }
  const auto key = row.key.empty() ? std::nullopt : std::optional<std::string_view>(row.key);
  std::vector<int> taken;
  while (const TestPoint* point =
             matchPoint(sheet.points, taken, *sheet.model, key, applied, row.direction)) {
    taken.push_back(point->sequence);
  }
  return std::max<std::size_t>(taken.size(), 1);
}

/// Takes out rows whose reading stands in an earlier row already, with a rejection naming that.
void removeTwice(std::vector<HistoryRow>& rows, const Register& site, DecimalSign sign,
                 std::vector<Rejection>& found) {
  std::map<std::tuple<Phase, std::string_view, Direction, std::string_view>, std::vector<const HistoryRow*>>
      same;
  for (const HistoryRow& row : rows) {
    const std::string_view applied = row.key.empty() ? std::string_view(row.typed.appliedText) : "";
    same[{row.phase, row.key, row.direction, applied}].push_back(&row);
  }
  if (same.size() == rows.size()) {
    return;
  }
  const HistoryRow& first = rows.front();
  const auto opened = openSheet(site, first.channel, first.subject, first.performed);
  const auto* sheet = std::get_if<VisitSheet>(&opened);
  if (sheet == nullptr) {
    return;  // the visit is refused for that
  }
  std::set<int> lines;
  for (const auto& [what, alike] : same) {
    const std::size_t room = alike.size() > 1 ? roomFor(*alike.front(), *sheet, sign) : 1;
    for (std::size_t i = room; i < alike.size(); ++i) {
      const int line = alike[i]->line;
      if (!lines.insert(line).second) {
        continue;  // a wide row that is there twice is one mistake, not one for each reading
      }
      const int earlier = alike.front()->line;
      found.push_back({Where{{}, line, alike[i]->indicatedColumn, {}},
                       earlier == line
                           ? std::string("the line has the same reading twice; leave one of them out")
                           : fmt::format("the same reading stands in line {} already; leave one of them "
                                         "out",
                                         earlier),
                       {line}});
    }
  }
  std::erase_if(rows, [&lines](const HistoryRow& row) { return lines.contains(row.line); });
}

}  // namespace

/// The rows of one visit as they come from the staging.
struct HistoryImport::Visit {
  std::string key;
  std::size_t source = 0;
  std::vector<HistoryRow> rows;
  std::vector<int> lines;  // of all rows, also those not kept in `rows`, each once
  int markedLine = 0;      // the first line of the visit that the importer rejected
};

HistoryImport::HistoryImport(Store& store, Moment now, DecimalSign sign)
    : store_(store), now_(now), sign_(sign) {
  store_.clearStaging();
}

HistoryImport::~HistoryImport() {
  store_.clearStaging();
}

void HistoryImport::beginFile(std::string name) {
  sources_.push_back({std::move(name), {}});
}

void HistoryImport::headings(const std::vector<std::string>& names) {
  sources_.back().headings = names;
}

void HistoryImport::stage(const std::string& key, std::string payload) {
  store_.stage({key, ++order_, std::move(payload)});
}

void HistoryImport::add(const HistoryRow& row) {
  if (sources_.empty()) {
    beginFile("");
  }
  stage(visitKey(row.channel, row.subject, row.performed), packRow(row, sources_.size() - 1));
}

void HistoryImport::reject(Rejection rejection) {
  ++outcome_.mistakes;
  outcome_.rejectedLines += static_cast<std::int64_t>(rejection.lines.size());
  if (tell_) {
    tell_(rejection);
  }
  if (rejection.visit && !sources_.empty()) {
    const VisitKey& visit = *rejection.visit;
    stage(visitKey(visit.channel, visit.subject, visit.performed),
          packMark(rejection.where.line, sources_.size() - 1));
  }
  if (outcome_.rejected.size() < kKeptRejections) {
    outcome_.rejected.push_back(std::move(rejection));
  }
}

Where HistoryImport::whereOf(const Visit& visit, int line, int column) const {
  const Source& source = sources_[visit.source];
  const auto index = static_cast<std::size_t>(column);
  return Where{source.name, line, column,
               column > 0 && index <= source.headings.size() ? source.headings[index - 1] : std::string()};
}

void HistoryImport::take(const StagedRow& row, Visit& visit) {
  Unpacked unpacked = unpackRow(row.key, row.payload);
  if (row.key != visit.key || unpacked.source != visit.source) {
    close(visit);
    visit = Visit{row.key, unpacked.source, {}, {}, 0};
  }
  if (unpacked.mark) {
    visit.markedLine = visit.markedLine == 0 ? unpacked.row.line : visit.markedLine;
    return;
  }
  if (visit.lines.empty() || visit.lines.back() != unpacked.row.line) {
    visit.lines.push_back(unpacked.row.line);
  }
  if (visit.rows.size() <= kMostRowsOfVisit) {
    visit.rows.push_back(std::move(unpacked.row));
  }
}

/// Everything that is known to be wrong with a visit, and then either its rejection or its calibration.
void HistoryImport::close(Visit& visit) {
  if (visit.rows.empty()) {
    return;  // nothing yet, or only rows that the importer rejected
  }
  std::vector<Rejection> found;
  if (visit.rows.size() > kMostRowsOfVisit) {
    found.push_back(
        {Where{{}, visit.lines.front(), 0, {}},
         fmt::format("more than {} readings have the same channel and moment; give each visit its own "
                     "date and time",
                     kMostRowsOfVisit),
         {}});
    rejectVisit(visit, std::move(found));
    return;
  }
  removeTwice(visit.rows, store_.site(), sign_, found);
  if (visit.rows.empty()) {
    rejectVisit(visit, std::move(found));
    return;
  }
  ProposedVisit proposed = joinRows(visit.rows, found);
  proposed.sign = sign_;
  proposed.source = std::filesystem::path(sources_[visit.source].name).filename().string();
  CheckedVisit checked = checkVisit(store_.site(), proposed, now_, true);
  for (const Problem& problem : checked.problems) {
    found.push_back({problem.where, reasonOf(problem), {problem.where.line}});
  }
  if (found.empty() && visit.markedLine == 0) {
    keep(std::move(*checked.calibration), visit);
  } else {
    rejectVisit(visit, std::move(found));
  }
}

void HistoryImport::rejectVisit(const Visit& visit, std::vector<Rejection> found) {
  if (found.empty()) {
    // All-or-nothing needs no account of the good rows beside a bad one: nothing is taken in anyway.
    if (keepGood_) {
      reject({whereOf(visit, visit.lines.front(), 0),
              fmt::format("refused together with line {} of the same visit", visit.markedLine), visit.lines});
    }
    return;
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Rejection& a, const Rejection& b) { return a.where.line < b.where.line; });
  // Every line of the visit is refused; those without a mistake of their own go with the first.
  std::vector<int> others = visit.lines;
  for (std::size_t i = 1; i < found.size(); ++i) {
    if (found[i].where.line != found.front().where.line) {
      std::erase(others, found[i].where.line);
    }
  }
  found.front().lines = std::move(others);
  for (Rejection& rejection : found) {
    rejection.where = whereOf(visit, rejection.where.line, rejection.where.column);
    reject(std::move(rejection));
  }
}

void HistoryImport::keep(Calibration calibration, const Visit& visit) {
  std::optional<Calibration> known;
  if (lastKept_ && lastKept_->channel == calibration.channel && lastKept_->subject == calibration.subject &&
      lastKept_->performed == calibration.performed) {
    known = lastKept_;
  } else if (const auto id =
                 store_.findCalibration(calibration.channel, calibration.subject, calibration.performed)) {
    known = store_.calibration(*id);
  }
  if (known && sameContent(*known, calibration)) {
    ++outcome_.alreadyKnown;
    return;
  }
  if (known) {
    Rejection rejection;
    rejection.where.line = visit.lines.front();
    rejection.reason = fmt::format(
        "{} of {} is already in the record with other content{}; correct the file, or the "
        "moment when it is another visit",
        formatMoment(calibration.performed), calibration.channel,
        known->id > 0 ? fmt::format(" (calibration {})", known->id) : std::string());
    rejectVisit(visit, {std::move(rejection)});
    return;
  }
  ++outcome_.calibrations;
  outcome_.readings += static_cast<std::int64_t>(calibration.asFound.size() + calibration.asLeft.size());
  if (!dryRun_ && (keepGood_ || outcome_.mistakes == 0)) {
    store_.add(calibration);
  }
  lastKept_ = std::move(calibration);
}

std::size_t HistoryImport::sourceIndex(const std::string& name) const {
  const auto found = std::find_if(sources_.begin(), sources_.end(),
                                  [&name](const Source& source) { return source.name == name; });
  return static_cast<std::size_t>(found - sources_.begin());
}

ImportOutcome HistoryImport::finish(bool keepGood, bool dryRun, const Progress& progress) {
  keepGood_ = keepGood;
  dryRun_ = dryRun;
  constexpr std::int64_t kRowsBetweenProgress = 1000;
  std::optional<Store::Transaction> transaction;
  if (!dryRun) {
    transaction.emplace(store_);
  }
  const std::int64_t all = store_.stagedCount();
  std::int64_t done = 0;
  Visit visit;
  store_.forEachStaged([&](const StagedRow& row) {
    take(row, visit);
    if (progress && ++done % kRowsBetweenProgress == 0 &&
        !progress(static_cast<double>(done) / static_cast<double>(all))) {
      throw InputError("the import was cancelled", "nothing was written");
    }
    return true;
  });
  close(visit);
  if (!keepGood && outcome_.mistakes > 0) {
    outcome_.calibrations = 0;
    outcome_.readings = 0;
  } else if (transaction) {
    transaction->commit();
  }
  transaction.reset();
  store_.clearStaging();
  std::stable_sort(outcome_.rejected.begin(), outcome_.rejected.end(),
                   [this](const Rejection& a, const Rejection& b) {
                     return std::tuple(sourceIndex(a.where.file), a.where.line, a.where.column) <
                            std::tuple(sourceIndex(b.where.file), b.where.line, b.where.column);
                   });
  return std::move(outcome_);
}

}  // namespace spanwright
