// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/schedule.h"

#include <algorithm>
#include <stdexcept>

namespace spanwright::sample {

namespace {

constexpr int kPerDay = 5;
constexpr int kMinutesApart = 75;

const RoundSpec& roundOf(const SiteSpec& site, const std::string& place) {
  for (const RoundSpec& round : site.rounds) {
    if (round.place == place) {
      return round;
    }
  }
  throw std::runtime_error("no round goes to " + place);
}

int monthsOf(const SiteSpec& site, const std::string& interval) {
  for (const IntervalSpec& spec : site.intervals) {
    if (spec.code == interval) {
      return spec.months > 0 ? spec.months : 12;
    }
  }
  throw std::runtime_error("no interval " + interval);
}

/// The slot's moment in a round that begins on `start`.
When moment(Day start, int slot) {
  Day day = workingDay(start);
  for (int i = 0; i < slot / kPerDay; ++i) {
    day = workingDay(day + std::chrono::days(1));
  }
  return {day, 8 * 60 + slot % kPerDay * kMinutesApart};
}

}  // namespace

Schedule::Schedule(const SiteSpec& site) : site_(site) {
  std::map<std::string, int> next;
  for (const ChannelSpec& channel : site.channels) {
    for (const RoutineSpec& routine : channel.routines) {
      slots_[channel.tag + "/" + routine.subject] = next[channel.place]++;
    }
  }
}

std::vector<When> Schedule::visits(const ChannelSpec& channel, const RoutineSpec& routine) const {
  const RoundSpec& round = roundOf(site_, channel.place);
  const int slot = slots_.at(channel.tag + "/" + routine.subject);
  const int months = monthsOf(site_, routine.interval);
  std::vector<When> visits = channel.extraVisits;
  if (routine.subject != "channel") {
    for (When& visit : visits) {
      visit.minute += kMinutesApart;
    }
  }
  for (int year = round.firstYear; year <= round.lastYear; ++year) {
    if (months > 12 && (year - round.firstYear) % (months / 12) != 0) {
      continue;
    }
    visits.push_back(moment(day(year, round.month, round.day), slot));
    if (months == 6) {
      const unsigned half = round.month <= 6 ? round.month + 6 : round.month - 6;
      visits.push_back(moment(day(year + (round.month <= 6 ? 0 : 1), half, round.day), slot));
    }
  }
  std::sort(visits.begin(), visits.end());
  std::erase_if(visits,
                [&](When visit) { return visit < channel.setups.front().from || visit > site_.historyEnd; });
  return visits;
}

std::string personFor(const SiteSpec& site, const std::string& place, When at, Random& random) {
  std::vector<std::string> present;
  for (const PersonSpec& person : site.people) {
    const bool technician =
        std::find(person.roles.begin(), person.roles.end(), "technician") != person.roles.end();
    if (technician && (!person.leftOn || at.day < *person.leftOn)) {
      present.push_back(person.login);
    }
  }
  // Everyone has cabinets of their own and helps out in one visit of eight.
  const std::size_t own = place.size() % present.size();
  const bool away = random.chance(0.125);
  return present[away ? (own + 1) % present.size() : own];
}

std::vector<std::string> standardsFor(const SiteSpec& site, const ChannelSpec& channel,
                                      const SetupSpec& setup, const std::string& subject, When at) {
  const StandardsSpec& tools = site.tools;
  if (subject != "channel") {
    const bool temperature = subject == "loop" && setup.units.unit == "degC";
    return {temperature ? tools.block : tools.pressure};
  }
  if (setup.kind == "thermocouple-input") {
    return {tools.couples};
  }
  if (setup.kind == "rtd-input") {
    return {tools.resistance};
  }
  if (setup.kind == "discrete-output" && at.day < tools.oldMeterUntil) {
    return {tools.oldMeter};
  }
  if (setup.kind == "analog-output" || setup.kind == "discrete-output") {
    return {tools.meter};
  }
  return {roundOf(site, channel.place).signalSource};
}

double standardFault(const SiteSpec& site, const std::vector<std::string>& standards, When at) {
  const bool used = std::find(standards.begin(), standards.end(), site.fault.serial) != standards.end();
  return used && site.fault.from <= at && at < site.fault.until ? site.fault.share : 0.0;
}

}  // namespace spanwright::sample
