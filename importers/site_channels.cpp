// SPDX-License-Identifier: GPL-3.0-or-later
//
// Channels: setups in order, fittings that do not overlap, routines that can be done.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "core/record/register_rules.h"
#include "importers/file_words.h"
#include "importers/site_parts.h"

namespace spanwright {
namespace {

/// A fitting with its place in the file, for finding one sensor on two channels at once.
struct PlacedFitting {
  Fitting fitting;
  std::string channel;
  toml::source_position at;
};
using FittingsBySensor = std::map<std::string, std::vector<PlacedFitting>>;

void readSetups(TomlTable& channel, Channel& into) {
  auto tables = channel.tables("setup", "setup of " + channel.name() + ",");
  std::optional<Moment> last;
  for (auto& table : tables) {
    auto version = readSetup(table);
    if (!version) {
      continue;
    }
    if (last && version->inForceFrom <= *last) {
      table.problem("from",
                    fmt::format("is {}, not after the setup before it ({})",
                                formatMoment(version->inForceFrom), formatMoment(*last)),
                    "list the setups oldest first, each from its own moment");
    }
    last = version->inForceFrom;
    version->version = static_cast<int>(into.setups.size()) + 1;
    into.setups.push_back(std::move(*version));
  }
  if (tables.empty() && !channel.has("setup")) {
    channel.problem("setup", "is missing", "add [[channel.setup]] with from and kind");
  }
}

/// Reports a fitting that begins before the one before it has ended; both lists are by `from`.
void checkOverlap(const PlacedFitting& earlier, const PlacedFitting& later, std::string_view whose,
                  ProblemList& problems) {
  if (!overlap(earlier.fitting, later.fitting)) {
    return;
  }
  problems.add(
      later.at,
      fmt::format("the fitting of {} on {} from {} overlaps {} (line {})", inQuotes(later.fitting.sensor),
                  inQuotes(later.channel), formatMoment(later.fitting.from), whose, earlier.at.line),
      earlier.fitting.until ? "correct one of the two times"
                            : "give the earlier fitting its until, the time it was taken off");
}

bool earlierFirst(const PlacedFitting& a, const PlacedFitting& b) {
  return a.fitting.from < b.fitting.from;
}

void readFittings(TomlTable& channel, Channel& into, const SiteReading& reading, FittingsBySensor& bySensor) {
  std::vector<PlacedFitting> placed;
  for (auto& table : channel.tables("fitting", "fitting of " + channel.name() + ",")) {
    Fitting fitting;
    fitting.sensor = table.needText("sensor");
    reading.sensors.check(table, "sensor", fitting.sensor);
    const auto from = table.needMoment("from");
    fitting.until = table.moment("until");
    table.finish();
    if (!from) {
      continue;
    }
    fitting.from = *from;
    if (fitting.until && *fitting.until <= fitting.from) {
      table.problem("until", fmt::format("is not after from ({})", formatMoment(fitting.from)),
                    "correct one of the two times");
      continue;
    }
    placed.push_back({fitting, into.tag, table.at()});
    bySensor[fitting.sensor].push_back(placed.back());
  }
  std::stable_sort(placed.begin(), placed.end(), earlierFirst);
  for (std::size_t i = 0; i < placed.size(); ++i) {
    if (i > 0) {
      checkOverlap(placed[i - 1], placed[i], "the one before it on the channel", channel.problems());
    }
    into.fittings.push_back(placed[i].fitting);
  }
}

/// What keeps the plan from being carried out on the channel as it is set up now.
void checkPlanFits(const TomlTable& table, const Routine& routine, const Channel& channel,
                   const Register& site) {
  const Plan* plan = site.plan(routine.plan);
  if (plan != nullptr && !channel.setups.empty()) {
    report(table, planFitProblems(*plan, routine.subject, channel.setups.back().setup),
           table.problems().count());
  }
}

void readRoutines(TomlTable& channel, Channel& into, const SiteReading& reading) {
  for (auto& table : channel.tables("routine", "routine of " + channel.name() + ",")) {
    Routine routine;
    const auto subject = table.needChoice<Subject>("subject", kSubjects);
    routine.plan = table.needText("plan");
    reading.plans.check(table, "plan", routine.plan);
    routine.interval = table.needText("interval");
    reading.intervals.check(table, "interval", routine.interval);
    table.finish();
    if (!subject) {
      continue;
    }
    routine.subject = *subject;
    if (routineFor(into, *subject) != nullptr) {
      table.problem("subject", "is given twice for this channel", "one routine for each subject at most");
      continue;
    }
    if (*subject != Subject::channel && into.fittings.empty() && !channel.has("fitting")) {
      table.problem("subject", fmt::format("is {}, but no sensor is fitted", text(*subject)),
                    "add [[channel.fitting]] with sensor and from");
    }
    checkPlanFits(table, routine, into, reading.site);
    into.routines.push_back(std::move(routine));
  }
}

void checkSensorsOnce(FittingsBySensor& bySensor, ProblemList& problems) {
  for (auto& [sensor, fittings] : bySensor) {
    std::stable_sort(fittings.begin(), fittings.end(), earlierFirst);
    for (std::size_t i = 1; i < fittings.size(); ++i) {
      // On one and the same channel it was reported there.
      if (fittings[i - 1].channel != fittings[i].channel) {
        checkOverlap(fittings[i - 1], fittings[i], "its fitting on " + inQuotes(fittings[i - 1].channel),
                     problems);
      }
    }
  }
}

}  // namespace

void readChannels(TomlTable& file, SiteReading& reading) {
  FittingsBySensor bySensor;
  reading.site.index();  // plans are looked up once per routine
  for (auto& table : file.tables("channel", "[[channel]]")) {
    Channel channel;
    channel.tag = table.needText("tag");
    if (!channel.tag.empty()) {
      table.rename("[[channel]] " + inQuotes(channel.tag));
      reading.tags.add(channel.tag, table.at("tag"), table.problems());
    }
    channel.place = table.needText("place");
    reading.places.check(table, "place", channel.place);
    channel.terminal = table.text("terminal");
    channel.title = table.text("title");
    channel.retired = table.yes("retired", false);
    readSetups(table, channel);
    readFittings(table, channel, reading, bySensor);
    readRoutines(table, channel, reading);
    table.finish();
    reading.site.channels.push_back(std::move(channel));
  }
  checkSensorsOnce(bySensor, file.problems());
}

}  // namespace spanwright
