// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <array>
#include <ostream>
#include <utility>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/record/problem.h"
#include "core/store/store.h"
#include "core/tasks/intervals.h"
#include "core/tasks/site_calendar.h"

namespace spanwright {

namespace {

std::optional<Subject> subjectOf(const std::string& word) {
  for (const Subject subject : {Subject::channel, Subject::sensor, Subject::loop}) {
    if (text(subject) == word) {
      return subject;
    }
  }
  return std::nullopt;
}

class Intervals : public Command {
 public:
  std::string name() const override { return "intervals"; }
  std::string description() const override {
    return "which interval each policy proposes and why; accept one; compare the policies";
  }
  bool writes() const override { return !choice_.channel.empty(); }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--on", on_, "as of this day (default: today); an accepted interval holds from it on");
    app.add_flag("--json", json_, "print one JSON document");
    CLI::Option* const channel = app.add_option("--channel", channel_, "only this channel");
    CLI::Option* const compare =
        app.add_flag("--compare", compare_,
                     "simulate what visits would find under each policy, on the drift of this record");
    app.add_option("--years", simulation_.years, "how many years each run lasts (10)")
        ->check(CLI::Range(1, 100))
        ->needs(compare);
    app.add_option("--runs", simulation_.runs, "how many runs (100)")
        ->check(CLI::Range(1, 10000))
        ->needs(compare);
    app.add_option("--seed", simulation_.seed, "of the random numbers (1)")->needs(compare);
    CLI::Option* const accept =
        app.add_option("--accept", choice_.channel, "put an interval in force for this channel")
            ->excludes(channel)
            ->excludes(compare);
    app.add_option("--subject", subject_, "of the channel's routines: channel, sensor, loop")
        ->check(CLI::IsMember({"channel", "sensor", "loop"}))
        ->needs(accept);
    CLI::Option* const days = app.add_option("--days", choice_.days, "other than the proposed length")
                                  ->check(CLI::PositiveNumber)
                                  ->needs(accept);
    app.add_option("--months", choice_.months, "likewise; the same day of the month")
        ->check(CLI::PositiveNumber)
        ->needs(accept)
        ->excludes(days);
    CLI::Option* const person =
        app.add_option("--person", choice_.person, "who accepts (login of a planner or administrator)")
            ->needs(accept);
    app.add_option("--reason", choice_.reason, "why; needed for another length than the proposed one")
        ->needs(accept);
    accept->needs(person);
  }
  int execute(const Surroundings& surroundings) override {
    const Date day = dayOf(on_, surroundings);
    if (!choice_.channel.empty()) {
      return accept(surroundings, day);
    }
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    if (compare_) {
      const FleetComparison comparison = comparePolicies(store, day, simulation_);
      json_ ? printComparisonJson(surroundings, comparison) : printComparison(surroundings, comparison);
      return kDone;
    }
    const std::vector<IntervalItem> items = intervalReport(store, channel_, day);
    json_ ? printItemsJson(surroundings, items) : printItems(surroundings, items, day);
    return kDone;
  }

 private:
  int accept(const Surroundings& surroundings, Date day) {
    choice_.subject = subjectOf(subject_);
    Store store = openRecord(record_, Store::Mode::readWrite, surroundings);
    const AcceptedInterval made = acceptInterval(store, choice_, day);
    if (json_) {
      printJson(surroundings,
                {{"channel", choice_.channel},
                 {"subject", text(made.subject)},
                 {"policy", made.policy},
                 {"days", made.days > 0 ? Json(made.days) : Json(nullptr)},
                 {"months", made.months > 0 ? Json(made.months) : Json(nullptr)},
                 {"from", formatDate(made.fromDay)},
                 {"proposed_days", made.proposedDays ? Json(*made.proposedDays) : Json(nullptr)},
                 {"person", made.person},
                 {"reason", made.reason},
                 {"evidence", made.evidence}});
    } else {
      surroundings.out << fmt::format("{} ({}): {} from {} on, accepted by {}: {}.\n", choice_.channel,
                                      text(made.subject), lengthText(fixedInterval(made)),
                                      formatDate(made.fromDay), made.person, made.reason);
    }
    return kDone;
  }

  static Json countsJson(const OutcomeCounts& counts) {
    return {{"counted", counts.counted},
            {"out_of_tolerance", counts.out},
            {"first", counts.first},
            {"not_judged", counts.notJudged},
            {"after_no_passing_as_left", counts.unprovenBefore},
            {"by_another_plan", counts.otherPlan},
            {"same_day", counts.sameDay}};
  }

  static void printItemsJson(const Surroundings& surroundings, const std::vector<IntervalItem>& items) {
    Json list = Json::array();
    for (const IntervalItem& item : items) {
      list.push_back({{"channel", item.channel},
                      {"place", item.place},
                      {"subject", text(item.subject)},
                      {"policy", item.policy},
                      {"kind", text(item.kind)},
                      {"now_days", item.nowDays},
                      {"accepted_from", orNull(item.acceptedFrom)},
                      {"proposed_days", item.proposal.days ? Json(*item.proposal.days) : Json(nullptr)},
                      {"evidence", item.proposal.evidence},
                      {"group", item.group},
                      {"visits", countsJson(item.counts)}});
    }
    printJson(surroundings, list);
  }

  static void printItems(const Surroundings& surroundings, const std::vector<IntervalItem>& items, Date day) {
    using Align = Table::Align;
    Table table({{"channel"},
                 {"subject"},
                 {"policy"},
                 {"now", Align::right},
                 {"proposed", Align::right},
                 {"visits", Align::right},
                 {"out", Align::right},
                 {"evidence"}});
    int changes = 0;
    OutcomeCounts passedOver;
    for (const IntervalItem& item : items) {
      changes += item.proposal.days.value_or(item.nowDays) != item.nowDays ? 1 : 0;
      passedOver.first += item.counts.first;
      passedOver.notJudged += item.counts.notJudged;
      passedOver.unprovenBefore += item.counts.unprovenBefore;
      passedOver.otherPlan += item.counts.otherPlan;
      passedOver.sameDay += item.counts.sameDay;
      table.add({item.channel, std::string(text(item.subject)), item.policy, std::to_string(item.nowDays),
                 item.proposal.days ? std::to_string(*item.proposal.days) : "-",
                 std::to_string(item.counts.counted), std::to_string(item.counts.out),
                 item.proposal.evidence});
    }
    if (items.empty()) {
      surroundings.out << "Nothing is calibrated here.\n";
      return;
    }
    table.print(surroundings.out);
    surroundings.out << fmt::format(
        "As of {}, in days; {} of {} proposals differ from what holds. Nothing changes until a person "
        "accepts it.\n",
        formatDate(day), changes, items.size());
    const std::array<std::pair<int, std::string_view>, 5> reasons{
        {{passedOver.first, "first under their setup or sensor"},
         {passedOver.notJudged, "not judged"},
         {passedOver.unprovenBefore, "without a passing as-left before"},
         {passedOver.otherPlan, "by another plan"},
         {passedOver.sameDay, "on the same day as the one before"}}};
    std::string words;
    for (const auto& [count, reason] : reasons) {
      words += count == 0 ? "" : fmt::format("{}{} {}", words.empty() ? "" : ", ", count, reason);
    }
    if (!words.empty()) {
      surroundings.out << fmt::format("Visits that tell nothing about an interval: {}.\n", words);
    }
  }

  static std::string policyName(const PolicyOutcome& policy) {
    return policy.kind ? fmt::format("{} ({})", policy.policy, text(*policy.kind)) : "as it is now";
  }

  static void printComparisonJson(const Surroundings& surroundings, const FleetComparison& comparison) {
    Json policies = Json::array();
    for (const PolicyOutcome& policy : comparison.policies) {
      policies.push_back({{"policy", policy.kind ? Json(policy.policy) : Json(nullptr)},
                          {"kind", policy.kind ? Json(text(*policy.kind)) : Json(nullptr)},
                          {"in_tolerance", policy.outcome.inTolerance},
                          {"in_tolerance_standard_error", policy.outcome.standardError},
                          {"visits_per_year", policy.outcome.visitsPerYear},
                          {"mean_interval_days", policy.outcome.meanIntervalDays}});
    }
    printJson(surroundings, {{"years", comparison.plan.years},
                             {"runs", comparison.plan.runs},
                             {"seed", comparison.plan.seed},
                             {"subjects", comparison.subjects},
                             {"left_out", comparison.leftOut},
                             {"observed_visits", comparison.observed},
                             {"observed_in_tolerance", comparison.observedIn},
                             {"policies", std::move(policies)}});
  }

  static void printComparison(const Surroundings& surroundings, const FleetComparison& comparison) {
    using Align = Table::Align;
    Table table({{"every routine under"},
                 {"found in tolerance", Align::right},
                 {"visits a year", Align::right},
                 {"mean interval at the end", Align::right}});
    for (const PolicyOutcome& policy : comparison.policies) {
      const FleetOutcome& o = policy.outcome;
      table.add(
          {policyName(policy),
           fmt::format("{:.1f} % (standard error {:.1f})", 100.0 * o.inTolerance, 100.0 * o.standardError),
           fmt::format("{:.1f}", o.visitsPerYear), fmt::format("{:.0f} days", o.meanIntervalDays)});
    }
    std::ostream& out = surroundings.out;
    table.print(out);
    out << fmt::format(
        "Simulated: {} runs of {} years, seed {}, {} subjects; {} left out, whose drift the record does not "
        "tell.\n"
        "Assumed: constant rates, drawn for each run from their estimates; normal scatter; points that drift "
        "on\n"
        "their own; adjustment to zero beyond the adjust limit; visits on their day; nothing breaks "
        "suddenly.\n",
        comparison.plan.runs, comparison.plan.years, comparison.plan.seed, comparison.subjects,
        comparison.leftOut);
    if (comparison.observed > 0) {
      out << fmt::format("The record itself: {} of {} visits found in tolerance ({:.1f} %).\n",
                         comparison.observedIn, comparison.observed,
                         100.0 * comparison.observedIn / comparison.observed);
    }
  }

  std::string record_, on_, channel_, subject_;
  IntervalChoice choice_;
  SimulationPlan simulation_;
  bool json_ = false, compare_ = false;
};

}  // namespace

std::unique_ptr<Command> intervalsCommand() {
  return std::make_unique<Intervals>();
}

}  // namespace spanwright
