// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/status.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "core/tasks/in_force.h"
#include "core/tasks/site_calendar.h"

namespace spanwright {

namespace {

/// What the calibrations under the setup and sensor in force say, whatever order they come in.
class Proof {
 public:
  /// The last passing as-left.
  std::optional<Date> passedOn() const { return dayOf(passed_); }
  /// The last failing one when it came after that.
  std::optional<Date> failedOn() const { return passed_ < failed_ ? dayOf(failed_) : std::nullopt; }

  void take(Moment performed, CalibrationId id, Verdict left) {
    if (left != Verdict::notJudged) {
      auto& last = left == Verdict::pass ? passed_ : failed_;
      last = std::max(last, std::optional(std::pair(performed, id)));
    }
  }

 private:
  using Last = std::optional<std::pair<Moment, CalibrationId>>;
  static std::optional<Date> dayOf(const Last& last) {
    return last ? std::optional(last->first.date()) : std::nullopt;
  }
  Last passed_, failed_;
};

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
  const auto passed = proof.passedOn();
  const std::string before = passed ? fmt::format("the last passing as-left was on {}", formatDate(*passed))
                                    : std::string("there is no passing as-left before");
  const Date failed = *proof.failedOn();
  return {failed, fmt::format("left failing on {} under setup {}; {}", formatDate(failed), now.setup->version,
                              before)};
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

/// A routine and what has been gathered about it.
struct Watched {
  const Channel* channel = nullptr;
  const Routine* routine = nullptr;
  InForce now;
  std::optional<Unproven> nothingToProve;
  Proof proof;

  bool concerns(const ProofRow& row, Date today) const {
    return !nothingToProve && row.subject == routine->subject && row.setupVersion == now.setup->version &&
           (row.subject == Subject::channel || row.sensor == now.fitting->sensor) &&
           row.performed.date() <= today;
  }
};

/// By channel, in the register's order: where each channel's begin, and one past the last.
struct WatchedSite {
  std::vector<Watched> all;
  std::vector<std::size_t> begins;
};

WatchedSite watchedSite(const Register& site, Date today) {
  WatchedSite watched;
  for (const Channel& channel : site.channels) {
    watched.begins.push_back(watched.all.size());
    if (channel.retired) {
      continue;
    }
    for (const Routine& routine : channel.routines) {
      if (channel.setups.empty()) {
        throw InputError(fmt::format("channel \"{}\" has no setup", channel.tag), "check the register");
      }
      Watched one{&channel, &routine, inForceOn(channel, routine.subject, today), {}, {}};
      one.nothingToProve = nothingToProve(channel, routine.subject, one.now);
      watched.all.push_back(std::move(one));
    }
  }
  watched.begins.push_back(watched.all.size());
  return watched;
}

DueItem dueItem(const Rules& rules, const Watched& watched) {
  const Channel& channel = *watched.channel;
  const Routine& routine = *watched.routine;
  const IntervalPolicy* policy = rules.site.interval(routine.interval);
  if (policy == nullptr) {
    throw InputError(
        fmt::format("the interval \"{}\" of channel \"{}\" is not described", routine.interval, channel.tag),
        "check the register");
  }
  const AcceptedInterval* const accepted = acceptedInterval(channel, routine.subject, rules.today);
  const FixedInterval interval = intervalInForce(channel, routine.subject, *policy, rules.today);
  const std::optional<Date> passedOn = watched.proof.passedOn();
  const std::optional<Date> failedOn = watched.proof.failedOn();
  std::optional<Unproven> unproven = watched.nothingToProve;
  if (!unproven) {
    if (failedOn) {
      unproven = failedAfter(watched.proof, watched.now);
    } else if (!passedOn) {
      unproven = neverPassed(routine.subject, watched.now);
    }
  }

  DueItem item{channel.tag, channel.place, routine.subject, {}, 0, {}};
  const auto since = unproven ? std::optional<Date>(unproven->since) : std::nullopt;
  item.due =
      dueState(passedOn, failedOn.has_value(), since, interval, rules.calendar, rules.due, rules.today);
  const Date from = unproven ? unproven->since : *passedOn;
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
  WatchedSite watched = watchedSite(site, today);
  store.forEachProof([&](const ProofRow& row) {
    for (std::size_t i = watched.begins[row.channel]; i < watched.begins[row.channel + 1]; ++i) {
      if (watched.all[i].concerns(row, today)) {
        watched.all[i].proof.take(row.performed, row.id, row.leftVerdict);
      }
    }
    return true;
  });
  std::vector<DueItem> items;
  items.reserve(watched.all.size());
  for (const Watched& one : watched.all) {
    items.push_back(dueItem(rules, one));
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
