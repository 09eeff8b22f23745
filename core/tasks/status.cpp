// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/status.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "core/tasks/in_force.h"
#include "core/tasks/site_calendar.h"

namespace spanwright {

namespace {

/// What the calibrations under the setup and sensor in force say.
struct Proof {
  std::optional<Date> passedOn;
  std::optional<Date> failedOn;  ///< after passedOn
};

Proof proofOf(const std::vector<CalibrationSummary>& calibrations, Subject subject, const InForce& now,
              Date today) {
  Proof proof;
  for (const CalibrationSummary& calibration : calibrations) {  // oldest first
    const Date day = calibration.performed.date();
    if (day > today || calibration.subject != subject || calibration.setupVersion != now.setup->version ||
        (subject != Subject::channel && calibration.sensor != now.fitting->sensor)) {
      continue;
    }
    if (calibration.leftVerdict == Verdict::pass) {
      proof = {day, std::nullopt};
    } else if (calibration.leftVerdict == Verdict::fail) {
      proof.failedOn = day;
    }
  }
  return proof;
}

/// An unproven subject: since when, and why in words.
struct Unproven {
  Date since;
  std::string why;
};

/// Nothing when there is a setup and, where one is needed, a sensor to prove.
std::optional<Unproven> nothingToProve(const Channel& channel, Subject subject, const InForce& now) {
  if (now.setup == nullptr) {
    const Date first = channel.setups.front().inForceFrom.date();
    return Unproven{first, fmt::format("its first setup comes into force on {}", formatDate(first))};
  }
  if (subject == Subject::channel || now.fittedNow) {
    return std::nullopt;
  }
  const Date setupDay = now.setup->inForceFrom.date();
  if (now.fitting == nullptr) {
    return Unproven{setupDay, "no sensor has been fitted yet"};
  }
  const Date off = now.fitting->until->date();
  return Unproven{std::max(off, setupDay), fmt::format("no sensor is fitted since {} came off on {}",
                                                       now.fitting->sensor, formatDate(off))};
}

Unproven neverPassed(Subject subject, const InForce& now) {
  const int version = now.setup->version;
  const Date setupDay = now.setup->inForceFrom.date();
  if (subject == Subject::channel) {
    return {setupDay, fmt::format("setup {} in force since {} has no passing as-left yet", version,
                                  formatDate(setupDay))};
  }
  const Date fittedDay = now.fitting->from.date();
  if (fittedDay > setupDay) {
    return {fittedDay, fmt::format("sensor {} fitted since {} has no passing as-left under setup {} yet",
                                   now.fitting->sensor, formatDate(fittedDay), version)};
  }
  return {setupDay, fmt::format("setup {} in force since {} has no passing as-left with sensor {} yet",
                                version, formatDate(setupDay), now.fitting->sensor)};
}

Unproven failedAfter(const Proof& proof, const InForce& now) {
  const std::string before =
      proof.passedOn ? fmt::format("the last passing as-left was on {}", formatDate(*proof.passedOn))
                     : std::string("there is no passing as-left before");
  return {*proof.failedOn, fmt::format("left failing on {} under setup {}; {}", formatDate(*proof.failedOn),
                                       now.setup->version, before)};
}

std::string whyDue(const IntervalPolicy& policy, const AcceptedInterval* accepted, FixedInterval interval,
                   const Due& due) {
  const std::string named =
      accepted == nullptr ? fmt::format("{} interval ({})", policy.code, lengthText(interval))
                          : fmt::format("interval of {} that {} accepted from {} on,", lengthText(interval),
                                        accepted->person, formatDate(accepted->fromDay));
  std::string why = fmt::format("{} after the passing as-left of {}", named, formatDate(*due.provenOn));
  const Date end = intervalEnd(*due.provenOn, interval);
  if (*due.dueOn != end) {
    why += fmt::format(", moved from {} to the working day before", formatDate(end));
  }
  return why;
}

/// What all routines of the site are measured by.
struct Rules {
  const Register& site;
  WorkCalendar calendar;
  DueRules due;
  Date today;
};

DueItem dueItem(const Rules& rules, const Channel& channel, const Routine& routine,
                const std::vector<CalibrationSummary>& calibrations) {
  const IntervalPolicy* policy = rules.site.interval(routine.interval);
  if (policy == nullptr || channel.setups.empty()) {
    throw InputError(fmt::format("channel \"{}\" has no setup, or its interval \"{}\" is not described",
                                 channel.tag, routine.interval),
                     "check the register");
  }
  const AcceptedInterval* const accepted = acceptedInterval(channel, routine.subject, rules.today);
  const FixedInterval interval = intervalInForce(channel, routine.subject, *policy, rules.today);
  const InForce now = inForceOn(channel, routine.subject, rules.today);
  std::optional<Unproven> unproven = nothingToProve(channel, routine.subject, now);
  Proof proof;
  if (!unproven) {
    proof = proofOf(calibrations, routine.subject, now, rules.today);
    if (proof.failedOn) {
      unproven = failedAfter(proof, now);
    } else if (!proof.passedOn) {
      unproven = neverPassed(routine.subject, now);
    }
  }

  DueItem item{channel.tag, channel.place, routine.subject, {}, 0, {}};
  const auto since = unproven ? std::optional<Date>(unproven->since) : std::nullopt;
  item.due = dueState(proof.passedOn, proof.failedOn.has_value(), since, interval, rules.calendar, rules.due,
                      rules.today);
  const Date from = unproven ? unproven->since : *proof.passedOn;
  item.intervalDays = static_cast<int>((intervalEnd(from, interval) - from).days());
  item.reason = unproven ? unproven->why : whyDue(*policy, accepted, interval, item.due);
  return item;
}

bool morePressing(const DueItem& a, const DueItem& b) {
  return std::tie(a.due.state, a.due.dueOn, a.place, a.channel, a.subject) <
         std::tie(b.due.state, b.due.dueOn, b.place, b.channel, b.subject);
}

}  // namespace

std::vector<DueItem> dueList(const Store& store, Date today) {
  const Register& site = store.site();
  const Rules rules{
      site, workCalendar(site.calendar), {site.calendar.dueSoonDays, site.calendar.graceDays}, today};
  std::vector<DueItem> items;
  for (const Channel& channel : site.channels) {
    if (channel.retired || channel.routines.empty()) {
      continue;
    }
    std::vector<CalibrationSummary> calibrations = store.calibrations(channel.tag);
    std::erase_if(calibrations, [](const CalibrationSummary& c) { return !proves(c.state); });
    for (const Routine& routine : channel.routines) {
      items.push_back(dueItem(rules, channel, routine, calibrations));
    }
  }
  std::stable_sort(items.begin(), items.end(), morePressing);
  return items;
}

std::optional<DueState> channelState(const std::vector<DueItem>& due, std::string_view channel) {
  std::optional<DueState> worst;
  for (const DueItem& item : due) {
    if (item.channel == channel && (!worst || item.due.state < *worst)) {
      worst = item.due.state;
    }
  }
  return worst;
}

std::map<std::string, DueState, std::less<>> channelStates(const std::vector<DueItem>& due) {
  std::map<std::string, DueState, std::less<>> worst;
  for (const DueItem& item : due) {
    const auto [at, added] = worst.emplace(item.channel, item.due.state);
    at->second = std::min(at->second, item.due.state);
  }
  return worst;
}

}  // namespace spanwright
