// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_findings.h"

#include <fmt/format.h>

#include <boost/math/distributions/fisher_f.hpp>
#include <cmath>

#include "core/drift/robust_rate.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

constexpr double kStepsOfReading = 2.0;
// Simulating what is nearer than this would cost time and never find anything; longer histories are left to
// the influence of their readings.
constexpr double kRobustWorthALook = 2.0;
constexpr int kMostForRobust = 60;

std::string amountText(double amount, const DriftItem& item) {
  return fmt::format("{} {}", formatSignificant(amount, 2), displaySymbol(item.unit));
}

/// Chance of the scatter that a step leaves, or a larger one, when it is like the group's.
double leftAfter(const StepFound& step, const ScatterKnown& known) {
  if (step.degreesOfFreedom < 1 || !(known.degreesOfFreedom > 0.0) || !(known.variance > 0.0)) {
    return 1.0;
  }
  // The F distribution with so many degrees of freedom is as good as the limit.
  const double prior = std::min(known.degreesOfFreedom, 1e6);
  return boost::math::cdf(boost::math::complement(boost::math::fisher_f(step.degreesOfFreedom, prior),
                                                  step.residualVariance / known.variance));
}

bool judgedAlone(const DriftItem& item) {
  return item.fit && item.fit->residualSd && item.fit->degreesOfFreedom >= kLeastOfItsOwn;
}

std::optional<DriftFinding> stepOf(const PoolEntry& entry) {
  const DriftItem& item = entry.item;
  if (!judgedAlone(item)) {
    return std::nullopt;
  }
  const auto step = likeliestStep(item.fitted, entry.known);
  if (!step || !(step->pValue < kFalseAlarm) || std::abs(step->amount) <= kStepsOfReading * entry.step ||
      leftAfter(*step, entry.known) < kFalseAlarm) {
    return std::nullopt;
  }
  DriftFinding finding;
  finding.kind = FindingKind::step;
  finding.after = momentOf(item, step->after).date();
  finding.before = momentOf(item, step->before).date();
  finding.amount = step->amount;
  finding.pValue = step->pValue;
  finding.words =
      fmt::format("the error jumped by {} between {} and {}, most likely; nobody recorded why",
                  amountText(step->amount, item), formatDate(*finding.after), formatDate(*finding.before));
  return finding;
}

std::optional<DriftFinding> intermittentOf(const PoolEntry& entry) {
  const DriftItem& item = entry.item;
  if (!entry.scatterPValue || !(*entry.scatterPValue < kFalseAlarm) || !judgedAlone(item)) {
    return std::nullopt;
  }
  DriftFinding finding;
  finding.kind = FindingKind::intermittent;
  finding.amount = *item.fit->residualSd / item.group.scatter;
  finding.pValue = *entry.scatterPValue;
  finding.words =
      fmt::format("readings scatter {} times as much as those of {} like subjects: look for a loose contact",
                  formatSignificant(finding.amount, 2), item.group.size);
  return finding;
}

std::optional<DriftFinding> fastOf(const PoolEntry& entry) {
  const DriftItem& item = entry.item;
  if (!entry.ratePValue || !(*entry.ratePValue < kFalseAlarm) || !item.fit) {
    return std::nullopt;
  }
  DriftFinding finding;
  finding.kind = FindingKind::fastDrift;
  finding.amount = item.fit->rate - item.group.rateMean;
  finding.pValue = *entry.ratePValue;
  finding.words = fmt::format("drifts {} a year, where the {} like subjects drift {} with a spread of {}",
                              amountText(item.fit->rate, item), item.group.size,
                              amountText(item.group.rateMean, item), amountText(item.group.rateSpread, item));
  return finding;
}

std::optional<DriftFinding> growingOf(const PoolEntry& entry) {
  const DriftItem& item = entry.item;
  if (!item.growth || !(item.growth->pValue < kFalseAlarm) || !item.band || !item.band->scatter) {
    return std::nullopt;
  }
  DriftFinding finding;
  finding.kind = FindingKind::growingScatter;
  finding.amount = *item.band->scatter * std::sqrt(item.growth->ratio);
  finding.pValue = item.growth->pValue;
  finding.words =
      fmt::format("the error wanders, by about {} in a year beside its drift: the band widens with time",
                  amountText(finding.amount, item));
  return finding;
}

std::optional<DriftFinding> robustOf(const PoolEntry& entry) {
  const DriftItem& item = entry.item;
  const bool leans = item.basis == BandBasis::likeSubjects;
  if (!item.fit || !item.fit->robustRate || !(leans || item.fit->residualSd) ||
      item.fit->readings > kMostForRobust) {
    return std::nullopt;
  }
  const double scatter = leans ? *item.band->scatter : *item.fit->residualSd;
  const double freedom = leans ? item.band->degreesOfFreedom : item.fit->degreesOfFreedom;
  const double apart = *item.fit->robustRate - item.fit->rate;
  const double error = std::max(scatter, entry.step / std::sqrt(12.0)) / std::sqrt(item.fit->sxx);
  if (!(std::abs(apart) > kRobustWorthALook * error)) {
    return std::nullopt;
  }
  const double pValue = robustDisagreement(item.fitted, apart / error, freedom);
  if (!(pValue < kFalseAlarm)) {
    return std::nullopt;
  }
  DriftFinding finding;
  finding.kind = FindingKind::robustDisagrees;
  finding.amount = apart;
  finding.pValue = pValue;
  finding.words = fmt::format("the robust rate is {} a year, the fitted one {}: single readings decide it",
                              amountText(*item.fit->robustRate, item), amountText(item.fit->rate, item));
  return finding;
}

}  // namespace

std::vector<DriftFinding> findingsOf(const PoolEntry& entry) {
  if (entry.item.fitted.empty()) {
    return {};
  }
  for (const auto& look : {stepOf, intermittentOf, fastOf, growingOf, robustOf}) {
    if (auto finding = look(entry)) {
      return {std::move(*finding)};
    }
  }
  return {};
}

}  // namespace spanwright
