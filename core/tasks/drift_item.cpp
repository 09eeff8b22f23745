// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_item.h"

#include <fmt/format.h>

#include <cmath>

namespace spanwright {

namespace {

constexpr double kSecondsPerYear = 365.25 * 86400.0;

}  // namespace

std::string_view text(BandBasis basis) {
  switch (basis) {
    case BandBasis::none:
      return "none";
    case BandBasis::own:
      return "own readings";
    case BandBasis::likeSubjects:
      return "like subjects";
  }
  return "";
}

std::string_view text(FindingKind kind) {
  switch (kind) {
    case FindingKind::step:
      return "step";
    case FindingKind::intermittent:
      return "intermittent";
    case FindingKind::growingScatter:
      return "growing scatter";
    case FindingKind::fastDrift:
      return "fast drift";
    case FindingKind::robustDisagrees:
      return "robust rate disagrees";
  }
  return "";
}

std::optional<Prediction> predictAt(const DriftItem& item, double years, double confidence) {
  if (item.band) {
    return predictAt(*item.band, years, confidence);
  }
  return item.fit ? std::optional(predict(*item.fit, years, confidence)) : std::nullopt;
}

std::optional<Prediction> predictAt(const DriftItem& item, Moment at, double confidence) {
  return predictAt(item, yearsBetween(item.origin, at), confidence);
}

std::optional<double> probabilityInTolerance(const DriftItem& item, Moment at) {
  if (!item.band || !(item.limits.low <= item.limits.high)) {
    return std::nullopt;
  }
  return probabilityWithin(*item.band, yearsBetween(item.origin, at), item.limits.low, item.limits.high);
}

Moment momentOf(const DriftItem& item, double years) {
  return item.origin + boost::posix_time::seconds(std::llround(years * kSecondsPerYear));
}

std::string basisSentence(const DriftItem& item) {
  if (item.fitted.empty()) {
    return "Not calibrated under the setup and sensor in force: no band.";
  }
  switch (item.basis) {
    case BandBasis::likeSubjects:
      return fmt::format("The band rests on its own {} visits and on {} like subjects ({}).",
                         item.calibrations, item.group.size, item.group.name);
    case BandBasis::own:
      return item.group.tooSmall
                 ? fmt::format(
                       "The band rests on its own {} visits; its group of {} is too small to lean on.",
                       item.calibrations, item.group.size)
                 : fmt::format("The band rests on its own {} visits: it is unlike its group of {}.",
                               item.calibrations, item.group.size);
    case BandBasis::none:
      break;
  }
  return fmt::format("{} visits tell no scatter, and a group of {} is too small to lean on: no band.",
                     item.calibrations, item.group.size);
}

}  // namespace spanwright
