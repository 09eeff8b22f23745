// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/intervals.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/tasks/in_force.h"
#include "core/tasks/site_calendar.h"
#include "core/tasks/status.h"

namespace spanwright {

namespace {

const Channel& knownChannel(const Register& site, std::string_view tag) {
  const Channel* channel = site.channel(tag);
  if (channel == nullptr) {
    throw InputError(fmt::format("there is no channel \"{}\" in the record", tag), "check the tag");
  }
  return *channel;
}

std::string pointName(const DriftItem& item) {
  return item.pointPercent ? fmt::format("{} %", formatShortest(*item.pointPercent)) : item.point;
}

bool hasBand(const DriftItem& item) {
  return item.band && item.limits.low <= item.limits.high;
}

ForecastEvidence evidenceOf(const std::vector<DriftItem>& drift, std::string_view channel, Subject subject,
                            Date provenOn) {
  ForecastEvidence evidence;
  evidence.provenOn = provenOn;
  for (const DriftItem& item : drift) {
    if (item.channel != channel || item.subject != subject || item.fitted.empty()) {
      continue;
    }
    ++evidence.points;
    evidence.pointsWithBand += hasBand(item) ? 1 : 0;
    if (hasBand(item) && item.bandOutOn && (!evidence.outOn || *item.bandOutOn < *evidence.outOn)) {
      evidence.outOn = item.bandOutOn;
      evidence.outAt = pointName(item);
      evidence.lineOn = item.lineOutOn;
    }
  }
  return evidence;
}

/// What the policies need of the whole record, loaded once.
class Proposals {
 public:
  Proposals(const Store& store, Date today)
      : store_(store), site_(store.site()), today_(today), due_(dueList(store, today)) {}

  std::vector<IntervalItem> of(const std::vector<const Channel*>& channels) {
    load(channels);
    std::vector<IntervalItem> items;
    for (const Channel* channel : channels) {
      for (const Routine& routine : channel->routines) {
        items.push_back(item(*channel, routine));
      }
    }
    return items;
  }

 private:
  const IntervalPolicy& policyOf(const Routine& routine) const {
    return *site_.interval(routine.interval);  // dueList has refused a register without it
  }

  bool anyOf(const std::vector<const Channel*>& channels, PolicyKind kind) const {
    return std::any_of(channels.begin(), channels.end(), [&](const Channel* channel) {
      return std::any_of(channel->routines.begin(), channel->routines.end(),
                         [&](const Routine& routine) { return policyOf(routine).kind == kind; });
    });
  }

  /// One channel reads its own history, and the others' only for what needs them.
  void load(const std::vector<const Channel*>& channels) {
    const bool alone = channels.size() == 1;
    if (!alone || anyOf(channels, PolicyKind::reliability)) {
      outcomes_ = fleetOutcomes(store_, today_);
    } else {
      const auto history = store_.history(channels.front()->tag);
      for (const Routine& routine : channels.front()->routines) {
        outcomes_[{channels.front()->tag, routine.subject}] =
            outcomesOf(site_, *channels.front(), routine, history, today_);
      }
    }
    if (anyOf(channels, PolicyKind::forecast)) {
      drift_ = driftReport(store_, alone ? channels.front()->tag : std::string(), today_);
    }
  }

  IntervalItem item(const Channel& channel, const Routine& routine) {
    const IntervalPolicy& policy = policyOf(routine);
    const auto due = std::find_if(due_.begin(), due_.end(), [&](const DueItem& d) {
      return d.channel == channel.tag && d.subject == routine.subject;
    });
    IntervalItem item;
    item.channel = channel.tag;
    item.place = channel.place;
    item.subject = routine.subject;
    item.policy = policy.code;
    item.kind = policy.kind;
    item.now = intervalInForce(channel, routine.subject, policy, today_);
    item.nowDays = due->intervalDays;
    const AcceptedInterval* const accepted = acceptedInterval(channel, routine.subject, today_);
    if (accepted != nullptr) {
      item.acceptedFrom = accepted->fromDay;
    }
    const InForce now = inForceOn(channel, routine.subject, today_);
    if (now.setup != nullptr) {
      item.group = likeSubjects(routine.subject, now.setup->setup, routine.plan);
    }
    item.counts = outcomes_[{channel.tag, routine.subject}].counts;
    item.proposal = propose(channel, routine, policy, item, now, due->due.provenOn);
    return item;
  }

  IntervalProposal propose(const Channel& channel, const Routine& routine, const IntervalPolicy& policy,
                           const IntervalItem& item, const InForce& now, std::optional<Date> provenOn) {
    const IntervalLimits limits{policy.minimumDays, policy.maximumDays};
    switch (policy.kind) {
      case PolicyKind::fixed:
        return proposeFixed(item.nowDays, limits);
      case PolicyKind::staircase: {
        std::vector<IntervalOutcome> since;
        for (const SubjectOutcome& own : ownOutcomes(channel, routine, now)) {
          if (!item.acceptedFrom || own.outcome.performed > *item.acceptedFrom) {
            since.push_back(own.outcome);
          }
        }
        return proposeStaircase(item.nowDays, since, {policy.lengthen, policy.shorten}, limits);
      }
      case PolicyKind::reliability:
        return proposeReliability(group(channel, routine, item.group, now),
                                  {policy.target, policy.confidence, policy.leastOutcomes}, limits);
      case PolicyKind::forecast:
        break;
    }
    if (!provenOn) {
      return {std::nullopt, "No forecast: the setup in force has no passing as-left to count from."};
    }
    return proposeForecast(forecast(channel, routine, *provenOn), limits);
  }

  /// Those under the setup and sensor in force.
  std::vector<SubjectOutcome> ownOutcomes(const Channel& channel, const Routine& routine,
                                          const InForce& now) const {
    std::vector<SubjectOutcome> own;
    const auto at = outcomes_.find({channel.tag, routine.subject});
    if (at == outcomes_.end()) {
      return own;
    }
    std::copy_if(at->second.outcomes.begin(), at->second.outcomes.end(), std::back_inserter(own),
                 [&](const SubjectOutcome& outcome) { return isOwn(outcome, routine, now); });
    return own;
  }

  static bool isOwn(const SubjectOutcome& outcome, const Routine& routine, const InForce& now) {
    return now.setup != nullptr && outcome.setup == now.setup->version &&
           (routine.subject == Subject::channel ||
            (now.fitting != nullptr && outcome.sensor == now.fitting->sensor));
  }

  /// An earlier setup or sensor of the same channel is one of the others.
  OutcomeGroup group(const Channel& channel, const Routine& routine, const std::string& name,
                     const InForce& now) const {
    OutcomeGroup group;
    group.name = name;
    std::set<std::string> tags;
    for (const auto& [key, subject] : outcomes_) {
      for (const SubjectOutcome& outcome : subject.outcomes) {
        if (outcome.group != name) {
          continue;
        }
        tags.insert(key.first);
        const bool own = key.first == channel.tag && isOwn(outcome, routine, now);
        (own ? group.own : group.others)
            .push_back({outcome.outcome.intervalDays, outcome.outcome.found != FoundState::out});
      }
    }
    group.subjects = static_cast<int>(tags.size());
    return group;
  }

  /// Where a band is outside already, the day on which it left is looked for from the proof on.
  ForecastEvidence forecast(const Channel& channel, const Routine& routine, Date provenOn) const {
    ForecastEvidence evidence = evidenceOf(drift_, channel.tag, routine.subject, provenOn);
    if (evidence.outOn && *evidence.outOn <= today_ && provenOn < today_) {
      evidence =
          evidenceOf(driftReport(store_, channel.tag, provenOn), channel.tag, routine.subject, provenOn);
    }
    return evidence;
  }

  const Store& store_;
  const Register& site_;
  Date today_;
  std::vector<DueItem> due_;
  FleetOutcomes outcomes_;
  std::vector<DriftItem> drift_;
};

/// Who accepts; refused when they may not.
void checkPerson(const Register& site, const std::string& login, Date today) {
  const Person* const person = site.person(login);
  if (person == nullptr) {
    throw InputError(fmt::format("there is no person \"{}\" in the record", login), "check the login");
  }
  if (person->leftOn && *person->leftOn <= today) {
    throw InputError(fmt::format("{} left on {}", login, formatDate(*person->leftOn)),
                     "let somebody do it who is here");
  }
  const auto& roles = person->roles;
  if (std::find(roles.begin(), roles.end(), Role::planner) == roles.end() &&
      std::find(roles.begin(), roles.end(), Role::administrator) == roles.end()) {
    throw InputError(fmt::format("{} is neither planner nor administrator", login),
                     "let one of them accept the interval");
  }
}

const Routine& chosenRoutine(const Channel& channel, std::optional<Subject> subject) {
  if (subject) {
    if (const Routine* const routine = routineFor(channel, *subject)) {
      return *routine;
    }
    throw InputError(fmt::format("{} has no routine for the subject {}", channel.tag, text(*subject)),
                     "name a subject that is calibrated there");
  }
  if (channel.routines.size() != 1) {
    throw InputError(fmt::format("{} has {} routines", channel.tag, channel.routines.size()),
                     channel.routines.empty() ? "nothing is calibrated there" : "say which subject is meant");
  }
  return channel.routines.front();
}

/// The chosen length, or the proposed one.
FixedInterval chosenLength(const IntervalChoice& choice, const IntervalItem& item) {
  if (choice.days < 0 || choice.months < 0 || choice.days > 36525 || choice.months > 1200) {
    throw InputError(
        fmt::format("the interval for {} is below a day or above a hundred years", choice.channel),
        "give the days or months");
  }
  if (choice.days > 0 || choice.months > 0) {
    return {choice.days, choice.months};
  }
  if (!item.proposal.days) {
    throw InputError(fmt::format("nothing is proposed for {} ({})", choice.channel, item.proposal.evidence),
                     "give days or months with a reason, or wait for more visits");
  }
  if (*item.proposal.days == item.nowDays) {
    throw InputError(
        fmt::format("what is proposed for {} is what holds already ({} days)", choice.channel, item.nowDays),
        "nothing needs changing");
  }
  return {*item.proposal.days, 0};
}

void checkLimits(const IntervalPolicy& policy, FixedInterval length, Date from, const std::string& channel) {
  const auto days = static_cast<int>((intervalEnd(from, length) - from).days());
  if ((policy.maximumDays > 0 && days > policy.maximumDays) || days < policy.minimumDays) {
    const std::string allowed =
        policy.maximumDays == 0
            ? fmt::format("at least {} days", policy.minimumDays)
            : fmt::format("{} to {} days", std::max(1, policy.minimumDays), policy.maximumDays);
    throw InputError(fmt::format("{} for {} lies outside what its policy {} allows ({})", lengthText(length),
                                 channel, policy.code, allowed),
                     "choose a length within it");
  }
}

}  // namespace

std::vector<IntervalItem> intervalReport(const Store& store, std::string_view channel, Date today) {
  const Register& site = store.site();
  std::vector<const Channel*> channels;
  if (!channel.empty()) {
    channels.push_back(&knownChannel(site, channel));
  } else {
    for (const Channel& one : site.channels) {
      channels.push_back(&one);
    }
  }
  std::erase_if(channels, [](const Channel* one) { return one->retired || one->routines.empty(); });
  return channels.empty() ? std::vector<IntervalItem>() : Proposals(store, today).of(channels);
}

AcceptedInterval acceptInterval(Store& store, const IntervalChoice& choice, Date from) {
  const Register& site = store.site();
  const Channel& channel = knownChannel(site, choice.channel);
  if (choice.days != 0 && choice.months != 0) {
    throw InputError(fmt::format("the interval for {} is given in days and in months", choice.channel),
                     "give one of them");
  }
  if (channel.retired) {
    throw InputError(fmt::format("{} is no longer calibrated", channel.tag), "its history stays as it is");
  }
  const Routine& routine = chosenRoutine(channel, choice.subject);
  checkPerson(site, choice.person, from);
  const auto items = intervalReport(store, choice.channel, from);
  const auto item = std::find_if(items.begin(), items.end(),
                                 [&](const IntervalItem& i) { return i.subject == routine.subject; });
  const FixedInterval length = chosenLength(choice, *item);
  const IntervalPolicy& policy = *site.interval(routine.interval);
  checkLimits(policy, length, from, channel.tag);
  const bool asProposed = length.months == 0 && item->proposal.days == length.days;
  if (length.days == item->now.days && length.months == item->now.months) {
    throw InputError(fmt::format("{} is what holds for {} already", lengthText(length), channel.tag),
                     "nothing needs changing");
  }
  if (!asProposed && choice.reason.empty()) {
    throw InputError(
        fmt::format("{} for {} is not what the policy proposes", lengthText(length), channel.tag),
        "give the reason for it");
  }
  AcceptedInterval accepted;
  accepted.subject = routine.subject;
  accepted.days = length.days;
  accepted.months = length.months;
  accepted.fromDay = from;
  accepted.policy = policy.code;
  accepted.proposedDays = item->proposal.days;
  accepted.evidence = item->proposal.evidence;
  accepted.person = choice.person;
  accepted.atUtc = store.clock().utcNow();
  accepted.reason = choice.reason.empty() ? "as proposed" : choice.reason;
  store.acceptInterval(choice.channel, accepted);
  return store.site().channel(choice.channel)->acceptedIntervals.back();
}

}  // namespace spanwright
