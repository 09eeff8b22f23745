// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/rounds.h"

#include <fmt/format.h>

namespace spanwright {
std::vector<StopProgress> roundProgress(const Store& store, const Round& round) {
  std::vector<StopProgress> progress;
  for (const RoundStop& stop : round.stops) {
    StopProgress& made = progress.emplace_back();
    made.stop = stop;
    if (const Channel* channel = store.site().channel(stop.channel)) {
      made.place = channel->place;
    }
    for (const CalibrationSummary& summary : store.calibrations(stop.channel)) {
      const bool since = summary.recordedUtc >= round.madeUtc &&
                         (!round.closedUtc || summary.recordedUtc <= *round.closedUtc);
      if (summary.subject == stop.subject && counts(summary.state) && since) {
        made.calibration = summary.id;
        break;
      }
    }
  }
  return progress;
}

std::int64_t makeRound(Store& store, const Reach& reach, const std::string& name, const std::string& person) {
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

}  // namespace spanwright
