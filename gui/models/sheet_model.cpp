// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/sheet_model.h"

#include <QFont>
#include <cmath>
#include <vector>

#include "gui/models/rows_model.h"
#include "gui/words/doubt_words.h"
#include "gui/words/reason_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr auto kGhost = Tone::quiet;

QString twoLines(const QString& heading, Unit unit) {
  return unit == Unit::none ? heading : QStringLiteral("%1\n[%2]").arg(heading, shownUnit(unit));
}

std::optional<Explained> explainedOf(int column) {
  switch (column) {
    case SheetModel::kExpected:
      return Explained::expected;
    case SheetModel::kFoundError:
    case SheetModel::kLeftError:
      return Explained::error;
    case SheetModel::kFoundVerdict:
    case SheetModel::kLeftVerdict:
      return Explained::usedTolerance;
    default:
      return std::nullopt;
  }
}

}  // namespace

SheetModel::SheetModel(VisitEntry& entry, QObject* parent) : QAbstractTableModel(parent), entry_(entry) {
  connect(&entry_, &VisitEntry::sheetChanged, this, [this] {
    beginResetModel();
    edits_.clear();
    endResetModel();
  });
  connect(&entry_, &VisitEntry::rowChanged, this,
          [this](int row) { emit dataChanged(index(row, 0), index(row, kColumnCount - 1)); });
  connect(&entry_, &VisitEntry::headerChanged, this, [this] {
    if (rowCount() > 0) {
      emit dataChanged(index(0, 0), index(rowCount() - 1, kColumnCount - 1));
    }
  });
}

int SheetModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : entry_.rowCount();
}
int SheetModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : kColumnCount;
}

QString SheetModel::nominalText(int row) const {
  const TestPoint& point = entry_.point(row);
  return point.role == PointRole::value
             ? shownValue(point.nominalApplied, nominalStep(entry_.sheet().model->appliedSpan().width()))
             : QStringLiteral("–");
}

double SheetModel::readingStep() const {
  const PointModel& model = *entry_.sheet().model;
  return model.step() > 0.0 ? model.step() : nominalStep(model.readingSpan().width());
}

QString SheetModel::smallError() const {
  return u'+' + shownError(0.0, readingStep());
}

QString SheetModel::errorText(Phase phase, int row) const {
  const auto* reading = std::get_if<Reading>(&entry_.outcome(phase, row));
  return reading == nullptr || reading->skipped() ? QString() : shownError(reading->error(), readingStep());
}

QString SheetModel::verdictText(Phase phase, int row) const {
  const auto& outcome = entry_.outcome(phase, row);
  if (std::holds_alternative<TypedProblem>(outcome)) {
    return tr("unclear");
  }
  const auto* reading = std::get_if<Reading>(&outcome);
  if (reading == nullptr) {
    return {};
  }
  if (reading->skipped()) {
    return tr("skipped");
  }
  return word(reading->verdict);
}

QString SheetModel::problem(int row, int column) const {
  if (!isReading(column) && !isApplied(column)) {
    return {};
  }
  const auto* wrong = std::get_if<TypedProblem>(&entry_.outcome(phaseOf(column), row));
  if (wrong == nullptr || wrong->inApplied != isApplied(column)) {
    return {};
  }
  return tr("%1, %2: %3")
      .arg(pointWord(entry_.point(row), entry_.hasRuns()),
           isApplied(column) ? tr("applied") : word(phaseOf(column)), asSentence(fromCore(wrong->what)));
}

QString SheetModel::doubt(int row, int column) const {
  if (!isReading(column) || !entry_.doubt(phaseOf(column), row)) {
    return {};
  }
  const Doubt& doubt = *entry_.doubt(phaseOf(column), row);
  TestPoint other;
  for (int each = 0; each < rowCount(); ++each) {
    if (entry_.point(each).sequence == doubt.sequence) {
      other = entry_.point(each);
    }
  }
  const auto& reading = std::get<Reading>(entry_.outcome(phaseOf(column), row));
  return tr("%1, %2: %3 Enter keeps it.")
      .arg(pointWord(entry_.point(row), entry_.hasRuns()), word(phaseOf(column)),
           asQuestion(doubtQuestion(doubt, reading, other, entry_.hasRuns(), readingStep())));
}

QString SheetModel::notJudged(int row, int column) const {
  if (!isVerdict(column)) {
    return {};
  }
  const auto why = entry_.notJudged(phaseOf(column), row);
  return why ? tr("%1, %2, is not judged: %3")
                   .arg(pointWord(entry_.point(row), entry_.hasRuns()), word(phaseOf(column)),
                        notJudgedClause(*why))
             : QString();
}

QString SheetModel::notJudgedNear(int row) const {
  std::vector<int> rows{row};
  for (int each = 0; each < rowCount(); ++each) {
    rows.push_back(each);
  }
  for (const int each : rows) {
    for (const int column : {kFoundVerdict, kLeftVerdict}) {
      if (QString why = each >= 0 && each < rowCount() ? notJudged(each, column) : QString();
          !why.isEmpty()) {
        return why;
      }
    }
  }
  return {};
}

QString SheetModel::shown(int row, int column) const {
  switch (column) {
    case kPoint:
      return pointWord(entry_.point(row), entry_.hasRuns());
    case kApplied:
    case kLeftApplied: {
      const QString typed = entry_.typedApplied(phaseOf(column), row);
      return typed.isEmpty() ? nominalText(row) : typed;
    }
    case kExpected: {
      const auto expected = entry_.expected(row);
      return expected ? shownValue(expected->expected, readingStep(), 1) : QStringLiteral("–");
    }
    case kPrevious: {
      const Reading* reading = entry_.previous(row);
      return reading != nullptr ? shownValue(reading->indicated, readingStep()) : QString();
    }
    case kFound:
    case kLeft:
      return entry_.typed(phaseOf(column), row);
    case kFoundError:
    case kLeftError:
      return errorText(phaseOf(column), row);
    case kFoundVerdict:
    case kLeftVerdict:
      return verdictText(phaseOf(column), row);
    default:
      return {};
  }
}

QString SheetModel::editText(int row, int column) const {
  if (isApplied(column) && entry_.typedApplied(phaseOf(column), row).isEmpty()) {
    return entry_.point(row).role == PointRole::value ? nominalText(row) : QString();
  }
  return shown(row, column);
}

std::pair<Mark, Tone> SheetModel::markAt(int row, int column) const {
  if (!problem(row, column).isEmpty()) {
    return {Mark::triangle, Tone::bad};
  }
  if (isReading(column) && entry_.doubt(phaseOf(column), row)) {
    return entry_.asked(phaseOf(column), row) ? std::pair{Mark::ring, Tone::quiet}
                                              : std::pair{Mark::exclaim, Tone::attention};
  }
  if (!isVerdict(column)) {
    return {Mark::none, Tone::plain};
  }
  const auto& outcome = entry_.outcome(phaseOf(column), row);
  if (std::holds_alternative<TypedProblem>(outcome)) {
    return {Mark::triangle, Tone::bad};
  }
  const auto* reading = std::get_if<Reading>(&outcome);
  if (reading == nullptr) {
    return {Mark::none, Tone::plain};
  }
  return reading->skipped() ? std::pair{Mark::slash, Tone::quiet}
                            : std::pair{markOf(reading->verdict), toneOf(reading->verdict)};
}

QVariant SheetModel::fraction(Phase phase, int row) const {
  const auto* reading = std::get_if<Reading>(&entry_.outcome(phase, row));
  if (reading == nullptr || reading->skipped()) {
    return {};
  }
  const double limit = reading->error() < 0.0 ? -reading->limits.low : reading->limits.high;
  if (std::isinf(limit)) {
    return QVariant(0.0);
  }
  return limit > 0.0 ? QVariant(reading->error() / limit) : QVariant();
}

QVariant SheetModel::foreground(int row, int column) const {
  const bool ghost = column == kPrevious || column == kExpected ||
                     (isApplied(column) && entry_.typedApplied(phaseOf(column), row).isEmpty());
  if (!problem(row, column).isEmpty()) {
    return toneColour(Tone::bad);
  }
  return ghost ? QVariant(toneColour(kGhost)) : QVariant();
}

QString SheetModel::spoken(int row, int column) const {
  QString text = QStringLiteral("%1, %2: %3")
                     .arg(pointWord(entry_.point(row), entry_.hasRuns()),
                          headerData(column, Qt::Horizontal, Qt::DisplayRole).toString(),
                          shown(row, column).isEmpty() ? tr("empty") : shown(row, column));
  const QString wrong = problem(row, column) + notJudged(row, column) + doubt(row, column);
  return wrong.isEmpty() ? text : text + QStringLiteral(". ") + wrong;
}

QVariant SheetModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= entry_.rowCount()) {
    return {};
  }
  const int row = index.row();
  const int column = index.column();
  switch (role) {
    case Qt::DisplayRole:
      return shown(row, column);
    case Qt::EditRole:
      return editText(row, column);
    case Qt::ForegroundRole:
      return foreground(row, column);
    case Qt::TextAlignmentRole:
      return QVariant(Qt::AlignVCenter | (column == kPoint ? Qt::AlignLeft : Qt::AlignRight));
    case Qt::DecorationRole: {
      const auto [mark, tone] = markAt(row, column);
      const bool drawnByDelegate = column == kFoundVerdict || column == kLeftVerdict;
      return mark == Mark::none || drawnByDelegate ? QVariant() : QVariant(markIcon(mark, tone));
    }
    case Qt::AccessibleTextRole:
      return spoken(row, column);
    case Qt::ToolTipRole:
      return column == kPrevious ? entry_.previousVisit()
             : column == kPoint  ? shown(row, column)
                                 : problem(row, column) + notJudged(row, column) + doubt(row, column);
    case kMarkRole:
      return static_cast<int>(markAt(row, column).first);
    case kToneRole:
      return static_cast<int>(markAt(row, column).second);
    case kFractionRole:
      return column == kFoundVerdict || column == kLeftVerdict ? fraction(phaseOf(column), row) : QVariant();
    case kProblemRole:
      return problem(row, column);
    case kDoubtRole:
      return doubt(row, column);
    case kNotJudgedRole:
      return notJudged(row, column);
    default:
      return {};
  }
}

QVariant SheetModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (role != Qt::DisplayRole) {
    const auto what = orientation == Qt::Horizontal ? explainedOf(section) : std::nullopt;
    return what ? explainedHeading(*what, role) : QVariant();
  }
  if (orientation == Qt::Vertical) {
    return section + 1;
  }
  const bool any = entry_.rowCount() > 0;
  const Unit applied = any ? entry_.point(0).appliedUnit : Unit::none;
  const Unit reading = any ? entry_.point(0).readingUnit : Unit::none;
  switch (section) {
    case kPoint:
      return tr("Point");
    case kApplied:
      return twoLines(tr("Applied"), applied);
    case kExpected:
      return twoLines(tr("Expected"), reading);
    case kPrevious:
      return tr("Last\nleft");
    case kFound:
      return twoLines(tr("As found"), reading);
    case kFoundError:
    case kLeftError:
      return tr("Error");
    case kFoundVerdict:
    case kLeftVerdict:
      return tr("Against\ntolerance");
    case kLeftApplied:
      return twoLines(tr("Applied"), applied);
    case kLeft:
      return twoLines(tr("As left"), reading);
    default:
      return {};
  }
}

Qt::ItemFlags SheetModel::flags(const QModelIndex& index) const {
  Qt::ItemFlags flags = QAbstractTableModel::flags(index);
  if (!index.isValid() || index.row() >= entry_.rowCount() || !entry_.draft().cautionsConfirmed) {
    return flags;
  }
  const bool value = entry_.point(index.row()).role == PointRole::value;
  if (isReading(index.column()) || (isApplied(index.column()) && value)) {
    flags |= Qt::ItemIsEditable;
  }
  return flags;
}

QModelIndex SheetModel::firstProblem() const {
  for (const int column : {kApplied, kFound, kLeftApplied, kLeft}) {
    for (int row = 0; row < rowCount(); ++row) {
      if (!problem(row, column).isEmpty()) {
        return index(row, column);
      }
    }
  }
  return {};
}

QModelIndex SheetModel::cellOf(const Problem& problem) const {
  for (int row = 0; row < rowCount(); ++row) {
    if (problem.where.line == entry_.point(row).sequence) {
      return index(row, problem.where.columnName == text(Phase::asLeft) ? kLeft : kFound);
    }
  }
  return {};
}

}  // namespace spanwright
