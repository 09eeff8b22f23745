// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/fleet.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <utility>

namespace spanwright {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

/// What one point says of its subject on the day.
FleetRow rowOf(const DriftItem& item, const Register& site, Date day) {
  FleetRow row;
  row.channel = item.channel;
  if (const Channel* channel = site.channel(item.channel)) {
    row.place = channel->place;
    row.title = channel->title;
  }
  row.subject = item.subject;
  row.point = item.point;
  row.pointPercent = item.pointPercent;
  row.unit = item.unit;
  row.basis = item.basis;
  if (item.band) {
    row.ratePerYear = item.band->rate;
  } else if (item.fit) {
    row.ratePerYear = item.fit->rate;
  }
  const bool judged = item.limits.low <= item.limits.high;
  if (const auto now = judged ? predictAt(item, Moment(day)) : std::nullopt) {
    row.used = shareOfTolerance(item.limits, now->value);
    if (now->low && now->high) {
      row.usedByBand =
          std::max(shareOfTolerance(item.limits, *now->low), shareOfTolerance(item.limits, *now->high));
    }
  }
  row.inTolerance = item.inTolerance;
  row.bandOutOn = item.bandOutOn;
  row.lineOutOn = item.lineOutOn;
  if (item.bandOutOn) {
    row.daysToForecast = std::max(0L, (*item.bandOutOn - day).days());
  }
  row.points = 1;
  row.findings = item.findings;
  return row;
}

using WorstFirst = std::pair<double, double>;  // smaller is worse

WorstFirst byForecast(const FleetRow& row) {
  return {row.daysToForecast ? static_cast<double>(*row.daysToForecast) : kNever, -row.used.value_or(-1.0)};
}

double surest(const FleetRow& row) {
  double least = kNever;
  for (const DriftFinding& finding : row.findings) {
    least = std::min(least, finding.pValue);
  }
  return least;
}

bool worse(const FleetRow& a, const FleetRow& b, FleetOrder order) {
  switch (order) {
    case FleetOrder::forecast:
      return byForecast(a) < byForecast(b);
    case FleetOrder::toleranceUsed:
      return a.used.value_or(-1.0) > b.used.value_or(-1.0);
    case FleetOrder::findings:
      return std::pair(surest(a), byForecast(a)) < std::pair(surest(b), byForecast(b));
  }
  return false;
}

/// The worse point goes on standing for the subject; what belongs to all its points is taken together.
void join(FleetRow& row, FleetRow point, FleetOrder order) {
  std::vector<DriftFinding> findings = row.findings;
  findings.insert(findings.end(), point.findings.begin(), point.findings.end());
  std::optional<double> inTolerance = row.inTolerance;
  if (point.inTolerance && (!inTolerance || *point.inTolerance < *inTolerance)) {
    inTolerance = point.inTolerance;
  }
  const int points = row.points + 1;
  if (worse(point, row, order)) {
    row = std::move(point);
  }
  row.findings = std::move(findings);
  row.inTolerance = inTolerance;
  row.points = points;
}

}  // namespace

std::vector<DriftItem> firstToLeave(const std::vector<DriftItem>& items, std::size_t most) {
  std::map<std::pair<std::string, Subject>, const DriftItem*> first;
  for (const DriftItem& item : items) {
    if (item.bandOutOn) {
      const DriftItem*& known = first[{item.channel, item.subject}];
      if (known == nullptr || *item.bandOutOn < *known->bandOutOn) {
        known = &item;
      }
    }
  }
  std::vector<const DriftItem*> leaving;
  for (const auto& [subject, item] : first) {
    leaving.push_back(item);
  }
  std::stable_sort(leaving.begin(), leaving.end(),
                   [](const DriftItem* a, const DriftItem* b) { return *a->bandOutOn < *b->bandOutOn; });
  leaving.resize(std::min(leaving.size(), most));
  std::vector<DriftItem> shown;
  for (const DriftItem* item : leaving) {
    shown.push_back(*item);
  }
  return shown;
}

double shareOfTolerance(const ErrorLimits& limits, double error) {
  const double limit = error < 0.0 ? -limits.low : limits.high;
  if (error == 0.0) {
    return 0.0;
  }
  return limit > 0.0 ? std::abs(error) / limit : kNever;
}

std::vector<FleetRow> fleetRanking(const std::vector<DriftItem>& items, const Register& site, Date day,
                                   FleetOrder order) {
  std::vector<FleetRow> rows;
  std::map<std::pair<std::string, Subject>, std::size_t> places;
  for (const DriftItem& item : items) {
    FleetRow point = rowOf(item, site, day);
    const auto [at, added] = places.emplace(std::pair(item.channel, item.subject), rows.size());
    if (added) {
      rows.push_back(std::move(point));
    } else {
      join(rows[at->second], std::move(point), order);
    }
  }
  for (FleetRow& row : rows) {
    std::stable_sort(row.findings.begin(), row.findings.end(),
                     [](const DriftFinding& a, const DriftFinding& b) { return a.pValue < b.pValue; });
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [order](const FleetRow& a, const FleetRow& b) { return worse(a, b, order); });
  return rows;
}

}  // namespace spanwright
