// SPDX-License-Identifier: GPL-3.0-or-later
//
// What core says of a visit being typed. Keeping it is in visit_entry.cpp.
#include "core/record/reference_junction.h"
#include "core/units/quantity.h"
#include "gui/models/visit_entry.h"

namespace spanwright {

VisitAdvice VisitEntry::advice(Phase phase) const {
  std::vector<Reading> readings;
  for (const Cell& each : phase == Phase::asFound ? found_ : left_) {
    if (const auto* reading = std::get_if<Reading>(&each.outcome)) {
      readings.push_back(*reading);
    }
  }
  return adviseVisit(*sheet_, readings, draft_.conditions.temperature);
}

std::optional<NotJudged> VisitEntry::notJudged(Phase phase, int row) const {
  const auto* reading = std::get_if<Reading>(&outcome(phase, row));
  return reading != nullptr ? whyNotJudged(*sheet_, *reading, standards_) : std::nullopt;
}

bool VisitEntry::asked(Phase phase, int row) const {
  const Cell& at = cell(phase, row);
  return at.doubt && at.asked.contains(at.value.indicatedText);
}

bool VisitEntry::askOnce(Phase phase, int row) {
  Cell& at = cell(phase, row);
  return at.doubt && at.asked.insert(at.value.indicatedText).second;
}

std::optional<PointResult> VisitEntry::expected(int row) const {
  const TestPoint& at = point(row);
  double applied = at.nominalApplied;
  const std::string& text = cell(Phase::asFound, row).value.appliedText;
  if (!text.empty()) {
    const auto typedValue = parseQuantity(text);
    if (!typedValue) {
      return std::nullopt;
    }
    const auto own = sheet_->model->normaliseApplied(
        {typedValue->value, typedValue->unit.value_or(at.appliedUnit)}, sheet_->junction());
    if (!std::holds_alternative<double>(own)) {
      return std::nullopt;
    }
    applied = std::get<double>(own);
  }
  // The setup's switch levels and states do not concern a sensor on its own.
  const ChannelSetup* setup =
      sheet_->subject == Subject::sensor || sheet_->setup == nullptr ? nullptr : &sheet_->setup->setup;
  const auto found = expectPoint(at, *sheet_->model, setup, sheet_->plan->tolerance, applied);
  const auto* result = std::get_if<PointResult>(&found);
  return result != nullptr ? std::optional(*result) : std::nullopt;
}

void VisitEntry::judgeRow(Phase phase, int row) {
  Cell& at = cell(phase, row);
  const DraftValue& value = at.value;
  at.doubt.reset();
  if (value.indicatedText.empty() && value.skipReason.empty() && value.appliedText.empty()) {
    at.outcome = {};
    return;
  }
  const bool onlyApplied = value.indicatedText.empty() && value.skipReason.empty();
  // With only the applied value typed, a number stands in for the reading so that core judges the applied
  // text alone.
  const TypedReading typedReading{value.appliedText, onlyApplied ? "0" : value.indicatedText,
                                  value.skipReason};
  auto judged = judge(*sheet_, point(row), typedReading, standards_);
  if (auto* problem = std::get_if<TypedProblem>(&judged)) {
    if (onlyApplied && !problem->inApplied) {
      at.outcome = {};
      return;
    }
    at.outcome = std::move(*problem);
  } else if (onlyApplied) {
    at.outcome = {};
  } else {
    at.doubt = doubtAbout(*sheet_, usual_, std::get<Reading>(judged));
    at.outcome = std::get<Reading>(std::move(judged));
  }
}

void VisitEntry::judgeAll() {
  for (int row = 0; row < rowCount(); ++row) {
    judgeRow(Phase::asFound, row);
    judgeRow(Phase::asLeft, row);
  }
}

/// One that cannot be stays in the draft, where finishing refuses it; nothing is judged by it.
void VisitEntry::takeJunction() {
  const auto& junction = draft_.conditions.referenceJunction;
  sheet_->referenceJunction =
      junction && !junctionFault(*junction, sheet_->couple()) ? junction : std::nullopt;
}

}  // namespace spanwright
