// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/reach.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "core/tasks/certificate_value.h"
#include "core/tasks/reach_points.h"
#include "core/tasks/stored_sheet.h"
#include "core/tasks/walking_order.h"

namespace spanwright {
namespace {

/// The largest E_n of the finding against a certificate, over the certificate's values that it reaches;
/// nothing when there is none.
std::optional<double> disagreement(const StandardCertificate& certificate, const FoundErrors& found) {
  std::optional<double> worst;
  for (const CertificateRange& range : certificate.ranges) {
    for (const CertificateRange& now : found.ranges) {
      if (now.points.empty() || !sameDimension(now.unit, range.unit)) {
        continue;
      }
      for (const CertificatePoint& point : range.points) {
        const Placed placed{&now, convert(point.nominal, range.unit, now.unit).value_or(0.0)};
        if (beyondPoints(placed)) {
          continue;
        }
        const auto inRange = [&](double figure) {
          return convertDifference(figure, now.unit, range.unit).value_or(0.0);
        };
        const double change = inRange(figureAt(placed, &CertificatePoint::error)) - point.error;
        const double both =
            std::hypot(inRange(figureAt(placed, &CertificatePoint::uncertainty)), point.uncertainty);
        const double ratio = both > 0.0 ? std::abs(change) / both : std::abs(change) > 0.0 ? HUGE_VAL : 0.0;
        worst = std::max(worst.value_or(0.0), ratio);
      }
    }
  }
  return worst;
}

bool disagrees(const StandardCertificate& certificate, const FoundErrors& found) {
  return disagreement(certificate, found).value_or(0.0) > 1.0;
}

bool reaches(const Reach& reach, const Standard& standard, const FoundErrors& found,
             const Calibration& calibration) {
  const auto used = std::find_if(calibration.standards.begin(), calibration.standards.end(),
                                 [&](const UsedStandard& each) { return each.serial == standard.serial; });
  const Date day = calibration.performed.date();
  if (used == calibration.standards.end() || (reach.since && day < *reach.since)) {
    return false;
  }
  const StandardCertificate* certificate = certificateNumbered(standard, used->certificate);
  return day <= found.foundOn || (certificate != nullptr && certificate->issued < found.foundOn);
}

/// The first later calibration of the subject that passed and that the finding does not reach.
std::optional<CalibrationId> clearing(const std::vector<Calibration>& history,
                                      const ReachedCalibration& reached,
                                      const std::function<bool(const Calibration&)>& isReached) {
  for (const Calibration& later : history) {
    if (later.subject == reached.subject && later.performed > reached.performed &&
        later.leftVerdict == Verdict::pass && !isReached(later)) {
      return later.id;
    }
  }
  return std::nullopt;
}

std::vector<ReachVisit> visitsOf(const Register& site, const std::vector<ReachedCalibration>& calibrations) {
  const auto ranks = channelRanks(site);
  std::map<std::tuple<int, std::string, Subject>, ReachVisit> inOrder;
  for (const ReachedCalibration& reached : calibrations) {
    if (!reached.needsVisit) {
      continue;
    }
    const auto rank = ranks.find(reached.channel);
    ReachVisit& visit = inOrder[{rank == ranks.end() ? 0 : rank->second, reached.channel, reached.subject}];
    visit.place = reached.place;
    visit.channel = reached.channel;
    visit.subject = reached.subject;
    visit.calibrations.push_back(reached.id);
  }
  std::vector<ReachVisit> visits;
  visits.reserve(inOrder.size());
  for (auto& [place, visit] : inOrder) {
    visits.push_back(std::move(visit));
  }
  return visits;
}

const Standard& knownStandard(const Register& site, std::string_view serial) {
  if (const Standard* standard = site.standard(serial)) {
    return *standard;
  }
  std::vector<std::string> serials;
  serials.reserve(site.standards.size());
  for (const Standard& each : site.standards) {
    serials.push_back(each.serial);
  }
  throw InputError(
      fmt::format("the register has no standard \"{}\"", serial),
      serials.empty() ? "describe the standard first" : fmt::format("it has {}", fmt::join(serials, ", ")));
}

void checkUnits(const Standard& standard, const FoundErrors& found) {
  std::vector<Problem> problems;
  for (const CertificateRange& range : found.ranges) {
    if (auto fault = unitFault(standard, range.unit)) {
      problems.push_back(std::move(*fault));
    }
  }
  if (!problems.empty()) {
    throw InputError(std::move(problems));
  }
}

/// Adds to `reach` every calibration that the finding reaches, oldest first.
void recompute(Reach& reach, const Store& store, const Standard& standard, const FoundErrors& found,
               const Progress& progress) {
  const std::vector<CalibrationId> used = store.calibrationsUsing(standard.serial);
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (progress && !progress(static_cast<double>(i) / static_cast<double>(used.size()))) {
      break;
    }
    const auto calibration = store.calibration(used[i]);
    if (calibration && reaches(reach, standard, found, *calibration)) {
      reach.calibrations.push_back(recomputed(store.site(), standard, found, *calibration));
    }
  }
  std::stable_sort(reach.calibrations.begin(), reach.calibrations.end(),
                   [](const auto& a, const auto& b) { return a.performed < b.performed; });
}

}  // namespace

std::vector<const StandardCertificate*> lastGoodCandidates(const Standard& standard,
                                                           const FoundErrors& found) {
  std::vector<const StandardCertificate*> before;
  for (const StandardCertificate& certificate : standard.certificates) {
    if (certificate.issued < found.foundOn && certificate.number != found.certificate) {
      before.push_back(&certificate);
    }
  }
  std::stable_sort(before.begin(), before.end(),
                   [](const auto* a, const auto* b) { return b->issued < a->issued; });
  return before;
}

LastGood lastGoodCertificate(const Standard& standard, const FoundErrors& found) {
  const auto before = lastGoodCandidates(standard, found);
  if (!found.lastGood.empty()) {
    const auto named = std::find_if(before.begin(), before.end(),
                                    [&](const auto* each) { return each->number == found.lastGood; });
    if (named == before.end()) {
      throw InputError(fmt::format("{} has no certificate \"{}\" from before {}", standard.serial,
                                   found.lastGood, formatDate(found.foundOn)),
                       "correct last_good_certificate, or leave it out");
    }
    return {*named, LastGoodWhy::decided};
  }
  const auto good =
      std::find_if(before.begin(), before.end(), [&](const auto* each) { return disagrees(*each, found); });
  if (good != before.end()) {
    return {*good, LastGoodWhy::disagrees};
  }
  const auto comparable = std::find_if(
      before.begin(), before.end(), [&](const auto* each) { return disagreement(*each, found).has_value(); });
  if (comparable != before.end()) {
    return {*comparable, LastGoodWhy::allAgree};
  }
  return before.empty() ? LastGood{} : LastGood{before.front(), LastGoodWhy::noneComparable};
}

std::optional<Problem> unitFault(const Standard& standard, Unit unit) {
  const auto comparable = [unit](const StandardCertificate& each) {
    return std::any_of(each.ranges.begin(), each.ranges.end(),
                       [unit](const CertificateRange& range) { return sameDimension(range.unit, unit); });
  };
  if (standard.certificates.empty() ||
      std::any_of(standard.certificates.begin(), standard.certificates.end(), comparable)) {
    return std::nullopt;
  }
  return Problem{{},
                 fmt::format("no certificate of {} has a range in {}, but the finding has", standard.serial,
                             symbol(unit)),
                 "correct the unit, or name the standard that was found so"};
}

const ReachedPoint* ReachedCalibration::worst() const {
  const auto at =
      std::max_element(points.begin(), points.end(), [](const ReachedPoint& a, const ReachedPoint& b) {
        return a.fractionOfTolerance.value_or(-1.0) < b.fractionOfTolerance.value_or(-1.0);
      });
  return at == points.end() || !at->fractionOfTolerance ? nullptr : &*at;
}

Reach reachOfStandard(const Store& store, std::string_view serial, const FoundErrors& found,
                      const Progress& progress) {
  const Register& site = store.site();
  const Standard& standard = knownStandard(site, serial);
  checkUnits(standard, found);
  Reach reach;
  reach.standard = standard.serial;
  const auto [good, why] = lastGoodCertificate(standard, found);
  reach.why = why;
  if (good != nullptr) {
    reach.lastGood = *good;
    reach.since = good->validFrom;
    reach.agrees = disagreement(*good, found) && !disagrees(*good, found);
    for (const StandardCertificate* newer : lastGoodCandidates(standard, found)) {
      if (newer == good) {
        break;
      }
      reach.passedOver.push_back(newer->number);
    }
  }
  recompute(reach, store, standard, found, progress);
  const auto isReached = [&](const Calibration& each) { return reaches(reach, standard, found, each); };
  std::map<std::string, std::vector<Calibration>> histories;
  for (ReachedCalibration& reached : reach.calibrations) {
    if (!reached.asLeft.flips() || reached.asLeft.becomes == Verdict::pass) {
      continue;
    }
    const auto [history, first] = histories.try_emplace(reached.channel);
    if (first) {
      history->second = store.history(reached.channel);
    }
    const Channel* channel = site.channel(reached.channel);
    reached.clearedBy = clearing(history->second, reached, isReached);
    reached.needsVisit = !reached.clearedBy && channel != nullptr && !channel->retired;
  }
  reach.visits = visitsOf(site, reach.calibrations);
  return reach;
}

}  // namespace spanwright
