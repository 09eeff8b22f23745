// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/interval_outcomes.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/certificate/figures.h"

namespace spanwright {

namespace {

constexpr double kSecondsPerDay = 86400.0;

FoundState foundState(const Calibration& calibration, double adjustLimit) {
  if (calibration.foundVerdict == Verdict::fail) {
    return FoundState::out;
  }
  const bool beyond =
      std::any_of(calibration.asFound.begin(), calibration.asFound.end(), [&](const Reading& reading) {
        return !reading.skipped() && fractionOfLimit(reading.error(), reading.limits) > adjustLimit;
      });
  return beyond ? FoundState::beyondAdjustLimit : FoundState::within;
}

/// Goes through one subject's visits, oldest first, and remembers what was left last.
class Walk {
 public:
  Walk(const Channel& channel, const Routine& routine, double adjustLimit)
      : channel_(channel), routine_(routine), adjustLimit_(adjustLimit) {}

  void take(const Calibration& visit) {
    tell(visit);
    const bool changed = visit.adjustment.adjusted || visit.adjustment.repaired || !visit.asLeft.empty();
    if (before_ == nullptr || !sameSubject(visit) || changed || visit.foundVerdict != Verdict::notJudged) {
      before_ = &visit;
    }
  }

  SubjectOutcomes outcomes;

 private:
  bool sameSubject(const Calibration& visit) const {
    return before_->setupVersion == visit.setupVersion &&
           (routine_.subject == Subject::channel || before_->sensor == visit.sensor);
  }

  void tell(const Calibration& visit) {
    OutcomeCounts& counts = outcomes.counts;
    if (visit.plan != routine_.plan) {
      ++counts.otherPlan;
      return;
    }
    if (visit.foundVerdict == Verdict::notJudged) {
      ++counts.notJudged;
      return;
    }
    if (before_ == nullptr || !sameSubject(visit)) {
      ++counts.first;
      return;
    }
    const double days =
        static_cast<double>((visit.performed - before_->performed).total_seconds()) / kSecondsPerDay;
    if (before_->leftVerdict != Verdict::pass) {
      ++counts.unprovenBefore;
    } else if (days < 1.0) {
      ++counts.sameDay;
    } else {
      add(visit, days);
    }
  }

  void add(const Calibration& visit, double days) {
    const auto setup =
        std::find_if(channel_.setups.begin(), channel_.setups.end(),
                     [&](const SetupVersion& version) { return version.version == visit.setupVersion; });
    if (setup == channel_.setups.end()) {
      return;
    }
    const FoundState found = foundState(visit, adjustLimit_);
    outcomes.outcomes.push_back({{visit.performed.date(), days, found},
                                 visit.setupVersion,
                                 routine_.subject == Subject::channel ? std::string() : visit.sensor,
                                 likeSubjects(routine_.subject, setup->setup, routine_.plan)});
    ++outcomes.counts.counted;
    outcomes.counts.out += found == FoundState::out ? 1 : 0;
  }

  const Channel& channel_;
  const Routine& routine_;
  double adjustLimit_;
  const Calibration* before_ = nullptr;
};

}  // namespace

std::string likeSubjects(Subject subject, const ChannelSetup& setup, std::string_view plan) {
  return subject == Subject::sensor ? fmt::format("{}, plan {}", text(subject), plan)
                                    : fmt::format("{}, {}, plan {}", text(subject), kindName(setup), plan);
}

SubjectOutcomes outcomesOf(const Register& site, const Channel& channel, const Routine& routine,
                           const std::vector<Calibration>& history, Date today) {
  const Plan* const plan = site.plan(routine.plan);
  Walk walk(channel, routine, plan != nullptr ? plan->adjustLimit : 1.0);
  for (const Calibration& calibration : history) {
    if (calibration.subject == routine.subject && calibration.performed.date() <= today) {
      walk.take(calibration);
    }
  }
  return std::move(walk.outcomes);
}

FleetOutcomes fleetOutcomes(const Store& store, Date today) {
  const Register& site = store.site();
  FleetOutcomes fleet;
  std::vector<Calibration> history;
  const auto close = [&] {
    const Channel* const channel = history.empty() ? nullptr : site.channel(history.front().channel);
    if (channel != nullptr && !channel->retired) {
      for (const Routine& routine : channel->routines) {
        fleet[{channel->tag, routine.subject}] = outcomesOf(site, *channel, routine, history, today);
      }
    }
    history.clear();
  };
  store.forEachCalibration([&](const Calibration& calibration) {
    if (!history.empty() && history.front().channel != calibration.channel) {
      close();
    }
    history.push_back(calibration);
    return true;
  });
  close();
  return fleet;
}

}  // namespace spanwright
