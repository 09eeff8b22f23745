// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/simulation.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

#include "core/metrology/draws.h"

namespace spanwright {

namespace {

constexpr double kDaysPerYear = 365.25;
constexpr double kBand = 1.959963984540054;  // 97.5 % of the normal distribution

/// A subject in one run.
struct Running {
  const SimulatedSubject* subject = nullptr;
  std::vector<double> rates;  ///< true, per day
  std::vector<double> left;   ///< true errors at the last visit
  double lastDay = 0.0;
  int interval = 0;
  std::vector<ToleranceOutcome> outcomes;
};

/// One run: all subjects from day 0, when they were left at zero.
class Run {
 public:
  Run(const std::vector<SimulatedSubject>& fleet, const SimulatedPolicy& policy, std::uint64_t seed)
      : policy_(policy), draws_(seed) {
    for (const SimulatedSubject& subject : fleet) {
      if (subject.points.empty()) {
        continue;
      }
      assert(subject.startDays > 0);
      Running running;
      running.subject = &subject;
      running.interval = subject.startDays;
      for (const SimulatedPoint& point : subject.points) {
        assert(point.scatter > 0.0 && point.rateStandardError >= 0.0);
        running.rates.push_back((point.rate + point.rateStandardError * draws_.normal()) / kDaysPerYear);
        running.left.push_back(0.0);
      }
      running_.push_back(std::move(running));
    }
    for (Running& running : running_) {
      groups_[running.subject->group].push_back(&running);
      if (std::holds_alternative<ForecastRule>(policy_.rule)) {
        running.interval = forecast(running);
      }
    }
  }

  void go(int years) {
    for (int year = 1; year <= years; ++year) {
      for (Running& running : running_) {
        while (running.lastDay + running.interval <= year * kDaysPerYear) {
          visit(running);
        }
      }
      if (const auto* rule = std::get_if<ReliabilityRule>(&policy_.rule)) {
        adoptReliability(*rule);  // once a year, as a person would
      }
    }
  }

  long visits = 0;
  long in = 0;
  double intervals() const {
    double sum = 0.0;
    for (const Running& running : running_) {
      sum += running.interval;
    }
    return sum;
  }
  std::size_t subjects() const { return running_.size(); }

 private:
  void visit(Running& running) {
    const int days = running.interval;
    double worst = 0.0;
    for (std::size_t i = 0; i < running.rates.size(); ++i) {
      running.left[i] += running.rates[i] * days;
      const double reading = running.left[i] + running.subject->points[i].scatter * draws_.normal();
      worst = std::max(worst, std::abs(reading));
    }
    running.lastDay += days;
    const FoundState found = worst > 1.0                            ? FoundState::out
                             : worst > running.subject->adjustLimit ? FoundState::beyondAdjustLimit
                                                                    : FoundState::within;
    if (found != FoundState::within) {
      std::fill(running.left.begin(), running.left.end(), 0.0);
    }
    ++visits;
    in += found == FoundState::out ? 0 : 1;
    running.outcomes.push_back({static_cast<double>(days), found != FoundState::out});
    if (const auto* rule = std::get_if<StaircaseRule>(&policy_.rule)) {
      const Date nobodyAsks(2000, 1, 1);
      running.interval = *proposeStaircase(running.interval, {{nobodyAsks, static_cast<double>(days), found}},
                                           *rule, policy_.limits)
                              .days;
    } else if (std::holds_alternative<ForecastRule>(policy_.rule)) {
      running.interval = forecast(running);
    }
  }

  /// Days until the band about what was left, with the estimated rate, leaves tolerance; within the limits.
  int forecast(const Running& running) const {
    double days = policy_.limits.maximumDays;
    for (std::size_t i = 0; i < running.rates.size(); ++i) {
      const SimulatedPoint& point = running.subject->points[i];
      const double rate = point.rate / kDaysPerYear, error = point.rateStandardError / kDaysPerYear;
      const auto outside = [&](double t) {
        const double half = kBand * std::hypot(point.scatter, error * t);
        const double line = running.left[i] + rate * t;
        return line + half > 1.0 || line - half < -1.0;
      };
      double low = 0.0, high = days;
      if (outside(low)) {
        days = 0.0;
      } else if (outside(high)) {
        while (high - low > 0.5) {
          const double middle = (low + high) / 2.0;
          (outside(middle) ? high : low) = middle;
        }
        days = low;
      }
    }
    return std::max({1, policy_.limits.minimumDays, static_cast<int>(days)});
  }

  void adoptReliability(const ReliabilityRule& rule) {
    for (const auto& [name, members] : groups_) {
      for (Running* asking : members) {
        OutcomeGroup group{name, static_cast<int>(members.size()), asking->outcomes, {}};
        for (const Running* other : members) {
          if (other != asking) {
            group.others.insert(group.others.end(), other->outcomes.begin(), other->outcomes.end());
          }
        }
        asking->interval = proposeReliability(group, rule, policy_.limits).days.value_or(asking->interval);
      }
    }
  }

  const SimulatedPolicy& policy_;
  Draws draws_;
  std::vector<Running> running_;
  std::map<std::string, std::vector<Running*>> groups_;
};

}  // namespace

FleetOutcome simulateFleet(const std::vector<SimulatedSubject>& fleet, const SimulatedPolicy& policy,
                           const SimulationPlan& plan) {
  FleetOutcome outcome;
  long in = 0;
  std::vector<double> shares;
  double intervals = 0.0;
  std::size_t subjects = 0;
  for (int i = 0; i < plan.runs; ++i) {
    Run run(fleet, policy, plan.seed + static_cast<std::uint64_t>(i));
    run.go(plan.years);
    outcome.visits += run.visits;
    in += run.in;
    intervals += run.intervals();
    subjects += run.subjects();
    if (run.visits > 0) {
      shares.push_back(static_cast<double>(run.in) / static_cast<double>(run.visits));
    }
  }
  if (outcome.visits == 0) {
    return outcome;
  }
  outcome.inTolerance = static_cast<double>(in) / static_cast<double>(outcome.visits);
  outcome.visitsPerYear = static_cast<double>(outcome.visits) / plan.years / plan.runs;
  outcome.meanIntervalDays = intervals / static_cast<double>(subjects);
  double squares = 0.0;
  for (const double share : shares) {
    squares += (share - outcome.inTolerance) * (share - outcome.inTolerance);
  }
  const auto runs = static_cast<double>(shares.size());
  outcome.standardError = runs > 1.0 ? std::sqrt(squares / (runs - 1.0) / runs) : 0.0;
  return outcome;
}

}  // namespace spanwright
