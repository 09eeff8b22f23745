// SPDX-License-Identifier: GPL-3.0-or-later
//
// Small random plans against every possible one.
#include <gtest/gtest.h>

#include <algorithm>
#include <bitset>
#include <numeric>
#include <random>
#include <tuple>

#include "core/schedule/plan.h"
#include "tests/core/schedule/plan_check.h"

namespace spanwright {
namespace {

using namespace plan_test;
using boost::gregorian::days;

constexpr int kNever = 1'000'000;

/// How good a plan is, smaller is better, most pressing visit first: late or not; then the day as far as it
/// lies after the due day; then the day of those that are late.
using Key = std::vector<int>;

Key keyOf(const PlanRequest& request, const std::vector<std::size_t>& order,
          const std::vector<std::optional<Date>>& on) {
  Key late, grace, when;
  for (const std::size_t v : order) {
    const PlanVisit& visit = request.visits[v];
    const bool isLate = !on[v] || *on[v] > visit.last;
    late.push_back(isLate ? 1 : 0);
    grace.push_back(isLate || *on[v] <= visit.due ? 0 : static_cast<int>((*on[v] - visit.due).days()));
    when.push_back(!isLate ? 0 : on[v] ? static_cast<int>((*on[v] - request.from).days()) : kNever);
  }
  late.insert(late.end(), grace.begin(), grace.end());
  late.insert(late.end(), when.begin(), when.end());
  return late;
}

class Brute {
 public:
  Brute(const PlanRequest& request, std::vector<std::size_t> order)
      : request_(request), order_(std::move(order)), on_(request.visits.size()) {}

  Key best() {
    descend(0);
    return best_;
  }

 private:
  void descend(std::size_t v) {
    if (v == request_.visits.size()) {
      const Key key = keyOf(request_, order_, on_);
      best_ = best_.empty() ? key : std::min(best_, key);
      return;
    }
    descend(v + 1);  // not at all
    for (int i = 0; i < 7 * request_.weeks; ++i) {
      const Date day = request_.from + days(i);
      for (std::size_t t = 0; t < request_.technicians.size(); ++t) {
        serve(v, t, day, 0, {});
      }
    }
  }

  /// Chooses a standard for each need, then holds everything planned so far against the rules.
  void serve(std::size_t v, std::size_t t, Date day, std::size_t need, std::vector<std::size_t> chosen) {
    const PlanVisit& visit = request_.visits[v];
    if (need < visit.needs.size()) {
      for (const StandardNeed::Able& able : visit.needs[need].able) {
        std::vector<std::size_t> with = chosen;
        with.push_back(able.standard);
        serve(v, t, day, need + 1, with);
      }
      return;
    }
    const PlanTime time = day <= visit.due    ? PlanTime::onTime
                          : day <= visit.last ? PlanTime::inGrace
                                              : PlanTime::late;
    plan_.planned.push_back({v, day, t, chosen, 0, time, {}});
    if (time != PlanTime::onTime) {
      plan_.planned.back().reason = PlanReason{};
    }
    std::vector<std::string> faults = broken(request_, plan_);
    std::erase_if(faults, [](const std::string& fault) { return fault.find("named 0 times") != fault.npos; });
    if (faults.empty()) {
      on_[v] = day;
      descend(v + 1);
      on_[v].reset();
    }
    plan_.planned.pop_back();
  }

  const PlanRequest& request_;
  std::vector<std::size_t> order_;
  std::vector<std::optional<Date>> on_;
  WorkPlan plan_;
  Key best_;
};

std::vector<std::size_t> pressingOrder(const PlanRequest& request) {
  std::vector<std::size_t> order(request.visits.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const PlanVisit &x = request.visits[a], &y = request.visits[b];
    return std::tuple(!x.unproven, x.due, x.place) < std::tuple(!y.unproven, y.due, y.place);
  });
  return order;
}

/// A crowded fortnight: few days, tight hours, a standard or two.
PlanRequest randomRequest(std::mt19937& random) {
  const auto pick = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  const Date from = *parseDate("2026-11-26") + days(pick(0, 4));
  std::bitset<7> weekdays;
  weekdays.set(4).set(1).set(static_cast<std::size_t>(pick(0, 6)));
  std::vector<WorkCalendar::Closed> closed;
  if (pick(0, 3) == 0) {
    const Date first = from + days(pick(0, 6));
    closed.push_back({first, first + days(pick(0, 3))});
  }
  PlanRequest request{
      from, pick(1, 2), WorkCalendar(weekdays, closed), static_cast<int>(weekdays.count()), {}, {}, {}};
  const int technicians = pick(1, 2);
  for (int t = 0; t < technicians; ++t) {
    PlanTechnician& technician = request.technicians.emplace_back();
    technician.minutesPerDay = 10 * pick(4, 9);
    technician.minutesPerWeek = 10 * pick(6, 14);
    if (pick(0, 3) == 0) {
      const Date first = from + days(pick(0, 8));
      technician.away.push_back({first, first + days(pick(0, 4))});
    }
  }
  const int standards = pick(1, 2);
  for (int s = 0; s < standards; ++s) {
    request.standards.push_back("S" + std::to_string(s));
  }
  std::vector<StandardNeed> needs;
  for (int n = 0; n < 2; ++n) {
    StandardNeed& need = needs.emplace_back();
    need.what = n == 0 ? "mA" : "V";
    for (int s = 0; s < standards; ++s) {
      if (pick(0, 3) > 0) {
        need.able.push_back(
            {static_cast<std::size_t>(s), {from + days(pick(-3, 3)), from + days(pick(3, 14))}, pick(0, 1)});
      }
    }
  }
  const int visits = pick(3, 5);
  for (int v = 0; v < visits; ++v) {
    PlanVisit& visit = request.visits.emplace_back();
    visit.place = pick(0, 1) == 0 ? "A" : "B";
    visit.minutes = 10 * pick(2, 6);
    visit.unproven = pick(0, 4) == 0;
    visit.earliest = from + days(pick(-4, 6));
    visit.due = visit.earliest + days(pick(0, 5));
    visit.last = visit.due + days(pick(0, 4));
    if (pick(0, 7) == 0) {
      visit.only = {{from + days(pick(0, 7)), from + days(10)}};
    }
    for (const StandardNeed& need : needs) {
      if (pick(0, 2) == 0) {
        visit.needs.push_back(need);
      }
    }
  }
  return request;
}

TEST(PlanBrute, NothingIsLaterThanInTheBestOfAllPlans) {
  constexpr unsigned kSeed = 20261126;
#ifdef __SANITIZE_ADDRESS__
  constexpr int kCases = 30;  // everything takes ten times as long
#else
  constexpr int kCases = 250;
#endif
  RecordProperty("seed", static_cast<int>(kSeed));
  std::mt19937 random(kSeed);
  int lateVisits = 0, searched = 0, shared = 0;
  for (int i = 0; i < kCases; ++i) {
    const PlanRequest request = randomRequest(random);
    const std::vector<std::size_t> order = pressingOrder(request);
    const WorkPlan plan = planVisits(request);
    const std::vector<std::string> faults = broken(request, plan);
    ASSERT_TRUE(faults.empty()) << "seed " << kSeed << ", case " << i << ": " << faults.front();
    std::vector<std::optional<Date>> on(request.visits.size());
    for (const PlannedVisit& each : plan.planned) {
      on[each.visit] = each.day;
      lateVisits += each.time == PlanTime::late ? 1 : 0;
    }
    for (const UnplannedVisit& each : plan.unplanned) {
      EXPECT_TRUE(each.reason.proven) << "seed " << kSeed << ", case " << i;
      searched += each.reason.gap == PlanGap::arrangement ? 1 : 0;
      shared += each.reason.gap == PlanGap::standardTaken ? 1 : 0;
    }
    ASSERT_EQ(keyOf(request, order, on), Brute(request, order).best()) << "seed " << kSeed << ", case " << i;
  }
  std::cout << "seed " << kSeed << ": " << kCases << " cases, " << lateVisits << " late visits, " << searched
            << " unplanned for want of an arrangement, " << shared << " for want of a standard\n";
  EXPECT_GT(lateVisits, 0);
  EXPECT_GT(searched, 0);
}

}  // namespace
}  // namespace spanwright
