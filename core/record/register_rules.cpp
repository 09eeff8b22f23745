// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/register_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/metrology/ruling.h"

namespace spanwright {

namespace {

// A hundred years; anything longer is a slip, and the calendar ends some centuries on.
constexpr int kLongestMonths = 1200;
constexpr int kLongestDays = 36525;
constexpr int kHoursOfWeek = 168;
// How far outside its span a channel is followed (see PointModel::expected).
constexpr double kLowestPercent = -5.0;
constexpr double kHighestPercent = 105.0;
constexpr double kLongestSettling = 86400.0;
constexpr double kLongestVisit = 10080.0;  // minutes of a week
constexpr int kMostRepeats = 100;

Problem problem(std::string_view field, std::string what, std::string todo = "correct it") {
  Problem made{{}, std::move(what), std::move(todo)};
  made.where.field = field;
  return made;
}

class Problems {
 public:
  void require(bool holds, std::string_view field, std::string what, std::string todo = "correct it") {
    if (!holds) {
      list_.push_back(problem(field, std::move(what), std::move(todo)));
    }
  }
  void add(std::string_view field, std::string what, std::string todo = "correct it") {
    require(false, field, std::move(what), std::move(todo));
  }
  std::vector<Problem> take() { return std::move(list_); }

 private:
  std::vector<Problem> list_;
};

std::vector<Problem> named(std::vector<SetupFault> faults) {
  std::vector<Problem> problems;
  for (SetupFault& fault : faults) {
    problems.push_back(problem(fault.field, std::move(fault.what)));
  }
  return problems;
}

bool needsPoints(const ChannelSetup& setup) {
  return !std::holds_alternative<ThresholdSetup>(setup.kind) &&
         !std::holds_alternative<DiscreteOutputSetup>(setup.kind);
}

bool hasCounts(const ChannelSetup& setup) {
  if (const auto* input = std::get_if<AnalogInputSetup>(&setup.kind)) {
    return input->counts.has_value();
  }
  const auto* output = std::get_if<AnalogOutputSetup>(&setup.kind);
  return output != nullptr && output->counts.has_value();
}

void pointProblems(const TestScheme& scheme, Problems& problems) {
  for (std::size_t i = 0; i < scheme.percents.size(); ++i) {
    const double percent = scheme.percents[i];
    problems.require(std::isfinite(percent) && percent >= kLowestPercent && percent <= kHighestPercent,
                     "points", "a test point must lie between -5 and 105 % of span");
    problems.require(i == 0 || scheme.percents[i - 1] < percent, "points",
                     "the test points must rise without repeats", "the order of doing them is told apart");
  }
  problems.require(scheme.repeats >= 1 && scheme.repeats <= kMostRepeats, "repeats",
                   fmt::format("repeats must be from 1 to {}", kMostRepeats));
}

bool statedIsUsable(const std::optional<double>& stated) {
  return !stated || (*stated > 0.0 && std::isfinite(*stated));
}

void setupsOf(const Channel& channel, Problems& problems) {
  problems.require(!channel.setups.empty(), "setup", "has no setup", "say how it is set up and since when");
  for (std::size_t i = 0; i < channel.setups.size(); ++i) {
    for (const Problem& each : setupProblems(channel.setups[i].setup)) {
      problems.add("setup." + each.where.field, fmt::format("setup {}: {}", i + 1, each.what));
    }
    problems.require(i == 0 || channel.setups[i].inForceFrom > channel.setups[i - 1].inForceFrom,
                     "setup.from", fmt::format("setup {}: is not later than the one before it", i + 1),
                     "give a later moment");
  }
}

void fittingsOf(const Channel& channel, const RegisterNames& names, Problems& problems) {
  const Fitting* before = nullptr;
  for (const Fitting& fitting : channel.fittings) {
    problems.require(names.hasSensor(fitting.sensor), "fitting",
                     fmt::format("the sensor \"{}\" is not described", fitting.sensor));
    problems.require(!fitting.until || *fitting.until > fitting.from, "fitting",
                     fmt::format("sensor \"{}\" comes off before it is fitted", fitting.sensor));
    if (before != nullptr && overlap(*before, fitting)) {
      problems.add("fitting", fmt::format("sensor \"{}\" is fitted while \"{}\" still is", fitting.sensor,
                                          before->sensor));
    }
    before = &fitting;
  }
}

void routinesOf(const Channel& channel, const RegisterNames& names, Problems& problems) {
  std::set<Subject> seen;
  for (const Routine& routine : channel.routines) {
    const std::string field = fmt::format("routine.{}", text(routine.subject));
    problems.require(seen.insert(routine.subject).second, field,
                     fmt::format("two routines for the same subject \"{}\"", text(routine.subject)));
    const Plan* plan = names.plan(routine.plan);
    problems.require(plan != nullptr, field + ".plan",
                     routine.plan.empty() ? fmt::format("the {} has no plan", text(routine.subject))
                                          : fmt::format("the plan \"{}\" is not described", routine.plan),
                     "choose one of the plans");
    problems.require(names.hasInterval(routine.interval), field + ".interval",
                     routine.interval.empty()
                         ? fmt::format("the {} has no interval policy", text(routine.subject))
                         : fmt::format("the interval policy \"{}\" is not described", routine.interval),
                     "choose one of the policies");
    problems.require(routine.subject == Subject::channel || !channel.fittings.empty(), field,
                     fmt::format("a {} routine needs a sensor fitted", text(routine.subject)),
                     "fit a sensor first");
    if (plan != nullptr && !channel.setups.empty()) {
      for (const Problem& each : planFitProblems(*plan, routine.subject, channel.setups.back().setup)) {
        problems.add(field + ".plan", each.what, each.todo);
      }
    }
  }
}

}  // namespace

std::vector<Problem> siteProblems(const SiteInfo& site) {
  Problems problems;
  const bool wellFormed =
      site.code.size() >= 2 && site.code.size() <= 8 &&
      site.code.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") == std::string::npos;
  constexpr auto kForm = "2 to 8 capital letters (A to Z) and digits are expected";
  problems.require(!site.code.empty(), "code", "the site has no code", kForm);
  problems.require(site.code.empty() || wellFormed, "code",
                   fmt::format("the site's code is \"{}\"", site.code), kForm);
  problems.require(!site.name.empty(), "name", "the site has no name", "give it one");
  return problems.take();
}

std::vector<Problem> calendarProblems(const CalendarRules& calendar) {
  Problems problems;
  const auto& days = calendar.workingWeekdays;
  problems.require(
      !days.empty() && std::none_of(days.begin(), days.end(), [](int day) { return day < 0 || day > 6; }),
      "working_days", "the calendar needs at least one working weekday, each from Sunday to Saturday");
  for (const DayRange& closed : calendar.closed) {
    problems.require(closed.last >= closed.first, "closed",
                     fmt::format("the closed days \"{}\" end before they begin", closed.name));
  }
  problems.require(calendar.dueSoonDays >= 0 && calendar.graceDays >= 0 && calendar.earlyDays >= 0,
                   "due_soon_days", "due-soon, grace and early days must not be negative");
  return problems.take();
}

std::vector<Problem> placePathProblems(std::string_view path) {
  Problems problems;
  int depth = 0;
  bool wellFormed = true;
  for (std::size_t from = 0; from != std::string_view::npos; ++depth) {
    const auto cut = path.find(" / ", from);
    const auto part = path.substr(from, cut == std::string_view::npos ? cut : cut - from);
    wellFormed = wellFormed && !part.empty() && part.front() != ' ' && part.back() != ' ' &&
                 part.front() != '/' && part.back() != '/';
    from = cut == std::string_view::npos ? cut : cut + 3;
  }
  problems.require(
      wellFormed && depth <= kDeepestPlace, "path",
      path.empty() ? "the place has no name" : fmt::format("the place is \"{}\"", path),
      fmt::format("parts joined by \" / \" are expected, none of them empty, at most {}", kDeepestPlace));
  return problems.take();
}

std::vector<Problem> personProblems(const Person& person) {
  Problems problems;
  problems.require(!person.login.empty(), "login", "the person has no login",
                   "give the short name by which signatures and the journal call them");
  if (person.hoursPerWeek) {
    problems.require(*person.hoursPerWeek > 0.0 && *person.hoursPerWeek <= kHoursOfWeek, "hours_per_week",
                     fmt::format("the hours per week must be above 0 and at most {}", kHoursOfWeek));
    problems.require(
        std::find(person.roles.begin(), person.roles.end(), Role::technician) != person.roles.end(),
        "hours_per_week",
        "has hours for calibrations and is no technician; only technicians are sent to visits",
        "leave the hours out, or add the role of a technician");
  }
  for (const DayRange& away : person.away) {
    problems.require(away.last >= away.first, "away",
                     fmt::format("the days away \"{}\" end before they begin", away.name),
                     "exchange the two days");
  }
  return problems.take();
}

std::vector<Problem> planProblems(const Plan& plan) {
  Problems problems;
  problems.require(!plan.code.empty(), "code", "the plan has no code", "give it a short name");
  if (const auto fault = toleranceFault(plan.tolerance)) {
    problems.add("tolerance", *fault,
                 "give at least one of absolute, % of reading, % of span, counts above zero");
  }
  pointProblems(plan.scheme, problems);
  problems.require(plan.adjustLimit > 0.0 && plan.adjustLimit <= 1.0, "adjust_limit",
                   "the adjust limit is a fraction of tolerance above 0, at most 1");
  if (const auto fault = planRuleFault(plan.decisionRule)) {
    problems.add("decision_rule", *fault);
  }
  problems.require(plan.settleSeconds >= 0.0 && plan.settleSeconds <= kLongestSettling, "settle_seconds",
                   "the time to settle must be from 0 to 86400 s");
  problems.require(plan.minutes > 0.0 && plan.minutes <= kLongestVisit, "minutes",
                   "the working time of a visit must be above 0 and at most 10080 minutes");
  problems.require(statedIsUsable(plan.junctionUncertainty), "reference_junction_uncertainty",
                   "the uncertainty of the reference junction must be above zero K, or left out");
  problems.require(statedIsUsable(plan.leadHalfWidth), "lead_resistance_half_width",
                   "the half-width of the leads must be above zero ohm, or left out");
  return problems.take();
}

std::vector<Problem> intervalProblems(const IntervalPolicy& policy) {
  Problems problems;
  problems.require(!policy.code.empty(), "code", "the interval policy has no code", "give it a short name");
  problems.require(policy.months > 0 || policy.days > 0, "months", "needs months or days above zero");
  problems.require(policy.months <= kLongestMonths && policy.days <= kLongestDays, "months",
                   "is longer than a hundred years");
  if (const auto fault = policyFault(policy)) {
    const auto tells = [&fault](std::string_view part) { return fault->find(part) != std::string::npos; };
    const std::string_view length = policy.months > 0 ? "months" : "days";
    problems.add(tells("to start with") ? length
                 : tells("limit")       ? "minimum_days"
                 : tells("step")        ? "lengthen"
                                        : "target",
                 *fault);
  }
  return problems.take();
}

std::vector<Problem> sensorProblems(const Sensor& sensor) {
  auto problems = named(sensorFaultsByField(sensor.range));
  if (sensor.serial.empty()) {
    problems.insert(problems.begin(), problem("serial", "the sensor has no serial number", "give it"));
  }
  return problems;
}

std::vector<Problem> standardProblems(const Standard& standard) {
  Problems problems;
  problems.require(!standard.serial.empty(), "serial", "the standard has no serial number", "give it");
  return problems.take();
}

std::vector<Problem> setupProblems(const ChannelSetup& setup) {
  return named(setupFaultsByField(setup));
}

RegisterNames::RegisterNames(const Register& site) {
  for (const Place& each : site.places) {
    places_.insert(each.path);
  }
  for (const IntervalPolicy& each : site.intervals) {
    intervals_.insert(each.code);
  }
  for (const Sensor& each : site.sensors) {
    sensors_.insert(each.serial);
  }
  for (const Plan& each : site.plans) {
    plans_.emplace(each.code, &each);
  }
}

const Plan* RegisterNames::plan(std::string_view code) const {
  const auto found = plans_.find(code);
  return found == plans_.end() ? nullptr : found->second;
}

std::vector<Problem> channelProblems(const Channel& channel, const RegisterNames& names) {
  Problems problems;
  problems.require(!channel.tag.empty(), "tag", "the channel has no tag", "give it");
  problems.require(names.hasPlace(channel.place), "place",
                   channel.place.empty() ? "the channel has no place"
                                         : fmt::format("the place \"{}\" is not described", channel.place),
                   "choose one of the places");
  setupsOf(channel, problems);
  fittingsOf(channel, names, problems);
  routinesOf(channel, names, problems);
  return problems.take();
}

std::vector<Problem> planFitProblems(const Plan& plan, Subject subject, const ChannelSetup& setup) {
  Problems problems;
  const bool bench = subject == Subject::sensor;
  problems.require(
      !plan.scheme.percents.empty() || (!bench && !needsPoints(setup)), "plan",
      fmt::format("names the plan \"{}\", which has no points", plan.code),
      fmt::format("{} needs a plan with points",
                  bench ? std::string("a sensor") : fmt::format("a channel set up as {}", kindName(setup))));
  const bool inCounts = plan.tolerance.plus.counts > 0.0 || plan.tolerance.minus.counts > 0.0;
  problems.require(!inCounts || (!bench && hasCounts(setup)), "plan",
                   fmt::format("names the plan \"{}\", whose tolerance has counts", plan.code),
                   "take a plan without, or give the setup its counts");
  return problems.take();
}

bool overlap(const Fitting& earlier, const Fitting& later) {
  return !earlier.until || later.from < *earlier.until;
}

}  // namespace spanwright
