// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/rounds.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "core/record/problem.h"
#include "core/tasks/walking_order.h"

namespace spanwright {
namespace {

void needName(const std::string& name) {
  if (name.find_first_not_of(" \t\r\n") == std::string::npos) {
    throw InputError("the round has no name", "give it one by which people know it");
  }
}

/// Recorded while the round was open, and no old visit that came in by an import then. Visits are told in the
/// site's time and rounds in UTC, which may be another day.
bool madeOn(const Round& round, const CalibrationSummary& visit) {
  return visit.recordedUtc >= round.madeUtc && (!round.closedUtc || visit.recordedUtc <= *round.closedUtc) &&
         visit.performed.date() >= round.madeUtc.date() - boost::gregorian::days(1);
}

}  // namespace

std::vector<StopProgress> roundProgress(const Store& store, const Round& round) {
  std::vector<StopProgress> progress;
  for (const RoundStop& stop : round.stops) {
    StopProgress& made = progress.emplace_back();
    made.stop = stop;
    if (const Channel* channel = store.site().channel(stop.channel)) {
      made.place = channel->place;
    }
    for (const CalibrationSummary& summary : store.calibrations(stop.channel)) {
      if (summary.subject == stop.subject && counts(summary.state) && madeOn(round, summary)) {
        made.calibration = summary.id;
        break;
      }
    }
  }
  return progress;
}

std::int64_t makeRound(Store& store, const Reach& reach, const std::string& name, const std::string& person) {
  needName(name);
  Round round;
  round.name = name;
  round.reason = fmt::format("standard {} was found out of tolerance; {} calibrations rest on it",
                             reach.standard, reach.calibrations.size());
  round.person = person;
  for (const ReachVisit& visit : reach.visits) {
    round.stops.push_back({visit.channel, visit.subject});
  }
  return store.addRound(round);
}

ProposedRound roundOfStop(const PlannedStop& stop) {
  ProposedRound proposed{
      fmt::format("{}, {}", stop.cabinet, formatDate(stop.day)), stop.person, stop.day, {}};
  for (const PlannedSubject& visit : stop.visits) {
    proposed.stops.push_back({visit.channel, visit.subject});
  }
  return proposed;
}

std::int64_t makeRound(Store& store, const ProposedRound& proposed) {
  needName(proposed.name);
  if (proposed.stops.empty()) {
    throw InputError("the round has no channels", "choose at least one");
  }
  if (!proposed.person.empty() && store.site().person(proposed.person) == nullptr) {
    throw InputError(fmt::format("there is no person \"{}\" in the record", proposed.person),
                     "check the login");
  }
  const auto ranks = channelRanks(store.site());
  Round round;
  for (const RoundStop& stop : proposed.stops) {
    if (!ranks.contains(stop.channel)) {
      throw InputError(fmt::format("there is no channel \"{}\" in the record", stop.channel),
                       "check the tag");
    }
  }
  round.name = proposed.name;
  round.person = proposed.person;
  round.reason = proposed.day ? fmt::format("due work, to be walked on {}", formatDate(*proposed.day))
                              : std::string("due work");
  round.stops = proposed.stops;
  const auto key = [&ranks](const RoundStop& stop) {
    return std::pair(ranks.find(stop.channel)->second, stop.subject);
  };
  std::sort(round.stops.begin(), round.stops.end(),
            [&key](const RoundStop& a, const RoundStop& b) { return key(a) < key(b); });
  const auto twice =
      std::adjacent_find(round.stops.begin(), round.stops.end(),
                         [&key](const RoundStop& a, const RoundStop& b) { return key(a) == key(b); });
  if (twice != round.stops.end()) {
    throw InputError(fmt::format("the {} of {} is in the round twice", text(twice->subject), twice->channel),
                     "leave it out once");
  }
  return store.addRound(round);
}

std::optional<std::size_t> nextStop(const std::vector<StopProgress>& progress,
                                    std::optional<std::size_t> after) {
  const std::size_t first = after ? *after + 1 : 0;
  for (std::size_t i = 0; i < progress.size(); ++i) {
    const std::size_t at = (first + i) % progress.size();
    if (progress[at].calibration == 0) {
      return at;
    }
  }
  return std::nullopt;
}

}  // namespace spanwright
