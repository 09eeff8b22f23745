// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/visit_entry.h"

#include <QTime>
#include <algorithm>

#include "core/tasks/plan_needs.h"
#include "core/tasks/visit_before.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

/// "skip: reason" in English or the person's language; nothing when the text is not a skip.
std::optional<QString> skipReason(const QString& text) {
  for (const QString& start : {QStringLiteral("skip:"), VisitEntry::tr("skip:")}) {
    if (text.startsWith(start, Qt::CaseInsensitive)) {
      return text.mid(start.size()).trimmed();
    }
  }
  return std::nullopt;
}

}  // namespace

VisitEntry::VisitEntry(Store& store, const Clock& clock, QObject* parent)
    : QObject(parent), store_(store), clock_(clock) {}

VisitEntry::Cell& VisitEntry::cell(Phase phase, int row) {
  return (phase == Phase::asFound ? found_ : left_)[static_cast<std::size_t>(row)];
}
const VisitEntry::Cell& VisitEntry::cell(Phase phase, int row) const {
  return (phase == Phase::asFound ? found_ : left_)[static_cast<std::size_t>(row)];
}

QString VisitEntry::takeSheet(const QString& channel, Subject subject, Moment when) {
  auto copy = std::make_shared<Register>(store_.site());
  copy->index();
  auto opened = openSheet(*copy, toCore(channel), subject, when);
  if (const auto* problem = std::get_if<Problem>(&opened)) {
    return problemSentence(*problem);
  }
  site_ = copy;
  sheet_ = std::get<VisitSheet>(std::move(opened));
  hasRuns_ =
      std::any_of(sheet_->points.begin(), sheet_->points.end(), [](const TestPoint& p) { return p.run > 1; });
  found_.assign(sheet_->points.size(), {});
  left_.assign(sheet_->points.size(), {});
  for (int row = 0; row < rowCount(); ++row) {
    for (const Phase phase : {Phase::asFound, Phase::asLeft}) {
      cell(phase, row).value.phase = phase;
      cell(phase, row).value.sequence = point(row).sequence;
    }
  }
  standards_.clear();
  waiting_.clear();
  headerWaiting_ = false;
  stored_.reset();
  loadPrevious();
  return {};
}

QString VisitEntry::open(const QString& channel, Subject subject, Moment when) {
  try {
    QString trouble = takeSheet(channel, subject, when);
    if (!trouble.isEmpty()) {
      leave();
      return trouble;
    }
  } catch (const std::exception& error) {
    leave();
    return asSentence(QString::fromUtf8(error.what()));
  }
  draft_ = Draft{};
  draft_.channel = toCore(channel);
  draft_.subject = subject;
  draft_.started = when;
  draft_.setupVersion = sheet_->setup != nullptr ? sheet_->setup->version : 0;
  emit sheetChanged();
  return {};
}

QString VisitEntry::resume(const Draft& draft) {
  try {
    QString trouble = takeSheet(fromCore(draft.channel), draft.subject, draft.started);
    if (!trouble.isEmpty()) {
      leave();
      return trouble;
    }
  } catch (const std::exception& error) {
    leave();
    return asSentence(QString::fromUtf8(error.what()));
  }
  draft_ = draft;
  takeJunction();
  for (const DraftValue& value : draft.values) {
    for (int row = 0; row < rowCount(); ++row) {
      if (point(row).sequence == value.sequence) {
        cell(value.phase, row).value = value;
      }
    }
  }
  setStandards(draft.standards);
  for (auto* cells : {&found_, &left_}) {
    for (Cell& each : *cells) {
      each.asked.insert(each.value.indicatedText);  // whoever typed it was asked then
    }
  }
  emit sheetChanged();
  return {};
}

QString VisitEntry::moveTo(Moment when) {
  const auto opened = openSheet(*site_, draft_.channel, draft_.subject, when);
  if (const auto* problem = std::get_if<Problem>(&opened)) {
    return problemSentence(*problem);
  }
  const auto& other = std::get<VisitSheet>(opened);
  if (other.setup != sheet_->setup || other.sensor != sheet_->sensor || other.plan != sheet_->plan) {
    return tr("Another setup, sensor or plan applied at that moment; finish or leave this visit first.");
  }
  sheet_->when = when;
  draft_.started = when;
  judgeAll();
  saveHeader();
  return {};
}

void VisitEntry::leave() {
  flush();
  sheet_.reset();
  found_.clear();
  left_.clear();
  previous_.clear();
  waiting_.clear();
  headerWaiting_ = false;
  draft_ = Draft{};
  emit sheetChanged();
}

void VisitEntry::discard() {
  if (draft_.id != 0) {
    try {
      store_.removeDraft(draft_.id);
    } catch (const std::exception& error) {
      emit troubled(asSentence(QString::fromUtf8(error.what())));
      return;
    }
  }
  drop();
}

void VisitEntry::drop() {
  waiting_.clear();
  headerWaiting_ = false;
  leave();
}

void VisitEntry::loadPrevious() {
  previous_.assign(sheet_->points.size(), std::nullopt);
  previousVisit_.clear();
  previousStandards_.clear();
  usual_ = usualErrors(store_, *sheet_);
  const auto last = visitBefore(store_, subjectOf(*sheet_), sheet_->when);
  if (!last) {
    return;
  }
  for (const UsedStandard& used : last->standards) {
    previousStandards_.push_back(used.serial);
  }
  previousVisit_ = tr("left by %1 on %2").arg(fromCore(last->person), shownDate(last->performed.date()));
  for (std::size_t row = 0; row < previous_.size(); ++row) {
    if (const Reading* left = leftAt(*last, sheet_->points[row])) {
      previous_[row] = *left;
    }
  }
}

QString VisitEntry::typed(Phase phase, int row) const {
  const DraftValue& value = cell(phase, row).value;
  return value.skipReason.empty() ? fromCore(value.indicatedText)
                                  : tr("skip:") + u' ' + fromCore(value.skipReason);
}
QString VisitEntry::typedApplied(Phase phase, int row) const {
  return fromCore(cell(phase, row).value.appliedText);
}
bool VisitEntry::skipped(Phase phase, int row) const {
  return !cell(phase, row).value.skipReason.empty();
}
const VisitEntry::Outcome& VisitEntry::outcome(Phase phase, int row) const {
  return cell(phase, row).outcome;
}
const Reading* VisitEntry::previous(int row) const {
  const auto& reading = previous_[static_cast<std::size_t>(row)];
  return reading ? &*reading : nullptr;
}

bool VisitEntry::anyTyped(Phase phase) const {
  const auto& cells = phase == Phase::asFound ? found_ : left_;
  return std::any_of(cells.begin(), cells.end(), [](const Cell& each) {
    return !each.value.indicatedText.empty() || !each.value.skipReason.empty();
  });
}
std::vector<int> VisitEntry::emptyRows(Phase phase) const {
  std::vector<int> rows;
  for (int row = 0; row < rowCount(); ++row) {
    const DraftValue& value = cell(phase, row).value;
    if (value.indicatedText.empty() && value.skipReason.empty()) {
      rows.push_back(row);
    }
  }
  return rows;
}

int VisitEntry::typedCount() const {
  int count = 0;
  for (const auto* cells : {&found_, &left_}) {
    count += static_cast<int>(std::count_if(cells->begin(), cells->end(), [](const Cell& each) {
      return !each.value.indicatedText.empty() || !each.value.skipReason.empty();
    }));
  }
  return count;
}

int VisitEntry::saveNow() {
  flush();
  return static_cast<int>(waiting_.size());
}

bool VisitEntry::anyTyped() const {
  return anyTyped(Phase::asFound) || anyTyped(Phase::asLeft);
}

void VisitEntry::setTyped(Phase phase, int row, const QString& text) {
  DraftValue& value = cell(phase, row).value;
  const QString trimmed = text.trimmed();
  const auto reason = skipReason(trimmed);
  // A skip without its reason is not one yet: it stays as typed and is pointed out.
  value.skipReason = reason ? toCore(*reason) : std::string();
  value.indicatedText = reason && !reason->isEmpty() ? std::string() : toCore(trimmed);
  judgeRow(phase, row);
  waiting_.insert({phase, row});
  flush();
  emit rowChanged(row);
}

void VisitEntry::setApplied(Phase phase, int row, const QString& text) {
  cell(phase, row).value.appliedText = toCore(text.trimmed());
  judgeRow(phase, row);
  waiting_.insert({phase, row});
  flush();
  emit rowChanged(row);
}

std::vector<const Standard*> VisitEntry::usableStandards() const {
  return standardsFor(*sheet_);
}

std::vector<std::string> VisitEntry::offeredStandards(std::vector<std::string> inHand) const {
  inHand.insert(inHand.end(), previousStandards_.begin(), previousStandards_.end());
  return spanwright::offeredStandards(*sheet_, inHand);
}

void VisitEntry::setPerson(const QString& login) {
  draft_.person = toCore(login);
  saveHeader();
}

void VisitEntry::setStandards(const std::vector<std::string>& serials) {
  draft_.standards = serials;
  standards_.clear();
  for (const std::string& serial : serials) {
    if (const Standard* standard = site_->standard(serial)) {
      standards_.push_back(standard);
    }
  }
  judgeAll();
  saveHeader();
}

void VisitEntry::setConditions(const Conditions& conditions) {
  const bool otherJunction = conditions.referenceJunction != draft_.conditions.referenceJunction;
  draft_.conditions = conditions;
  if (otherJunction && sheet_) {
    takeJunction();
    judgeAll();
    for (int row = 0; row < rowCount(); ++row) {
      emit rowChanged(row);
    }
  }
  saveHeader();
}

void VisitEntry::setCautionsConfirmed(bool confirmed) {
  draft_.cautionsConfirmed = confirmed;
  saveHeader();
}

void VisitEntry::setAdjustment(const Adjustment& adjustment) {
  draft_.adjustment = adjustment;
  saveHeader();
}

void VisitEntry::setRemarks(const QString& remarks) {
  draft_.remarks = toCore(remarks);
  saveHeader();
}

void VisitEntry::saveHeader() {
  if (!sheet_) {
    return;
  }
  headerWaiting_ = true;
  if (draft_.id != 0) {  // before the first value there is nothing worth keeping
    flush();
  }
  emit headerChanged();
}

void VisitEntry::flush() {
  if (!sheet_ || (waiting_.empty() && !(headerWaiting_ && draft_.id != 0))) {
    return;
  }
  try {
    if (draft_.id == 0 || headerWaiting_) {
      draft_.id = store_.saveDraft(draft_);
      headerWaiting_ = false;
    }
    while (!waiting_.empty()) {
      const auto [phase, row] = *waiting_.begin();
      store_.saveDraftValue(draft_.id, cell(phase, row).value);
      waiting_.erase(waiting_.begin());
    }
    emit saved(QTime::currentTime().toString(QStringLiteral("HH:mm:ss")));
  } catch (const std::exception& error) {
    // What was typed stays here and is tried again with the next value.
    emit troubled(tr("The draft is not on disk yet: %1").arg(asSentence(QString::fromUtf8(error.what()))));
  }
}

ProposedVisit VisitEntry::proposed() const {
  Draft whole = draft_;
  whole.values.clear();
  for (const auto* cells : {&found_, &left_}) {
    for (const Cell& each : *cells) {
      if (!each.value.indicatedText.empty() || !each.value.skipReason.empty() ||
          !each.value.appliedText.empty()) {
        whole.values.push_back(each.value);
      }
    }
  }
  ProposedVisit visit = visitFromDraft(whole);
  const auto mark = [](std::vector<ProposedReading>& readings, Phase phase) {
    for (ProposedReading& reading : readings) {
      reading.where.line = reading.sequence;
      reading.where.columnName = text(phase);
    }
  };
  mark(visit.asFound, Phase::asFound);
  mark(visit.asLeft, Phase::asLeft);
  return visit;
}

std::vector<Problem> VisitEntry::check() const {
  return checkVisit(*site_, proposed(), clock_.localNow(), false).problems;
}

std::vector<Problem> VisitEntry::finish() {
  const ProposedVisit visit = proposed();
  try {
    stored_ = enterVisit(store_, visit, clock_.localNow(),
                         draft_.id == 0 ? std::nullopt : std::optional(draft_.id));
  } catch (const InputError& refused) {
    return refused.problems();
  } catch (const std::exception& error) {
    return {Problem{{}, error.what(), ""}};
  }
  waiting_.clear();
  headerWaiting_ = false;
  draft_.id = 0;
  return {};
}

}  // namespace spanwright
