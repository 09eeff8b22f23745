// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "cli/commands/commands.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

/// "NAME=REST" apart; the name may hold "=" itself, the rest may not.
std::pair<std::string, std::string> parts(const std::string& text, const char* option, const char* form) {
  const std::size_t at = text.rfind('=');
  if (at == std::string::npos || at == 0) {
    throw CLI::ValidationError(option, fmt::format("\"{}\" is not understood; write {}", text, form));
  }
  return {text.substr(0, at), text.substr(at + 1)};
}

std::map<std::string, std::vector<DaySpan>> spans(const std::vector<std::string>& texts, const char* option,
                                                  const char* form) {
  std::map<std::string, std::vector<DaySpan>> map;
  for (const std::string& text : texts) {
    const auto [name, range] = parts(text, option, form);
    const std::size_t between = range.find("..");
    const auto first = parseDate(range.substr(0, between));
    const auto last = between == std::string::npos ? first : parseDate(range.substr(between + 2));
    if (!first || !last || *last < *first) {
      throw CLI::ValidationError(
          option,
          fmt::format("\"{}\" does not name days; write {} with dates like 2026-12-01, the earlier first",
                      text, form));
    }
    map[name].push_back({*first, *last});
  }
  return map;
}

std::string channelText(const PlannedSubject& visit) {
  return visit.subject == Subject::channel ? visit.channel
                                           : fmt::format("{} ({})", visit.channel, text(visit.subject));
}

std::string joined(const std::vector<PlannedSubject>& visits) {
  std::vector<std::string> names;
  std::transform(visits.begin(), visits.end(), std::back_inserter(names), channelText);
  return fmt::format("{}", fmt::join(names, ", "));
}

Json hoursJson(int minutes) {
  return static_cast<double>(minutes) / 60.0;
}

Json visitJson(const PlannedSubject& visit) {
  return {{"channel", visit.channel},
          {"place", visit.place},
          {"subject", text(visit.subject)},
          {"plan", visit.plan},
          {"hours", hoursJson(visit.minutes)},
          {"state", text(visit.state)},
          {"due_on", orNull(visit.due)},
          {"needs", visit.needs},
          {"time", text(visit.time)},
          {"reason", visit.reason.empty() ? Json(nullptr) : Json(visit.reason)},
          {"reason_proven", visit.reasonProven},
          {"other_standards", visit.otherStandards}};
}

/// Each tag once, in walking order.
Json tags(const std::vector<PlannedSubject>& visits) {
  Json list = Json::array();
  for (const PlannedSubject& visit : visits) {
    if (std::find(list.begin(), list.end(), visit.channel) == list.end()) {
      list.push_back(visit.channel);
    }
  }
  return list;
}

class PlanCommand : public Command {
 public:
  std::string name() const override { return "plan"; }
  std::string description() const override { return "what is due, fitted into the technicians' weeks"; }
  void declare(CLI::App& app) override {
    app.add_option("RECORD", record_, "the record file")->required();
    app.add_option("--from", from_, "first day (default: today)");
    app.add_option("--weeks", weeks_, "how many weeks")->check(CLI::Range(1, 520))->capture_default_str();
    app.add_option("--hours", hours_, "PERSON=H: what if the person had H hours a week (0: none)");
    app.add_option("--hours-factor", factor_, "what if everybody had so much of their hours (0.5: half)")
        ->check(CLI::NonNegativeNumber);
    app.add_option("--away", away_, "SERIAL=FROM..UNTIL: what if the standard were away");
    app.add_option("--person-away", personAway_, "PERSON=FROM..UNTIL: what if the person were away");
    app.add_option("--only", only_, "CHANNEL=FROM..UNTIL: may be visited on these days only");
    app.add_option("--not", not_, "CHANNEL=FROM..UNTIL: may not be visited on these days");
    app.add_option("--working-days", weekdays_, "what if these were the working days: mon,tue,wed")
        ->delimiter(',')
        ->check(CLI::IsMember(std::vector<std::string>(kWeekdayCodes.begin(), kWeekdayCodes.end())));
    app.add_option("--ics", ics_, "also write the visits as a calendar (iCalendar)");
    app.add_flag("--json", json_, "print one JSON document");
  }
  int execute(const Surroundings& surroundings) override {
    const Store store = Store::open(record_, Store::Mode::readOnly, surroundings.clock);
    const SitePlan plan = sitePlan(store, question(surroundings));
    if (!ics_.empty()) {
      const Register& site = store.site();
      writeWhole(ics_, calendarText(planEvents(plan, site), site.site.name + ": calibration visits",
                                    surroundings.clock.utcNow()));
    }
    json_ ? printDocument(surroundings, plan) : print(surroundings.out, plan);
    return plan.notPlanned.empty() ? kDone : kFound;
  }

 private:
  PlanQuestion question(const Surroundings& surroundings) const {
    PlanQuestion asked;
    asked.from = dayOf(from_, surroundings, "--from");
    asked.weeks = weeks_;
    asked.hoursFactor = factor_;
    for (const std::string& text : hours_) {
      const auto [person, number] = parts(text, "--hours", "PERSON=H");
      constexpr double kHoursOfWeek = 168.0;
      const auto hours = parseNumber(number);
      if (!hours || hours->value < 0.0 || hours->value > kHoursOfWeek) {
        throw CLI::ValidationError(
            "--hours",
            fmt::format("\"{}\" does not name the hours of a week; write PERSON=H, 0 to 168", text));
      }
      asked.hours[person] = hours->value;
    }
    asked.standardsAway = spans(away_, "--away", "SERIAL=FROM..UNTIL");
    asked.peopleAway = spans(personAway_, "--person-away", "PERSON=FROM..UNTIL");
    asked.onlyOn = spans(only_, "--only", "CHANNEL=FROM..UNTIL");
    asked.notOn = spans(not_, "--not", "CHANNEL=FROM..UNTIL");
    if (!weekdays_.empty()) {
      std::vector<int>& days = asked.workingWeekdays.emplace();
      for (const std::string& day : weekdays_) {
        days.push_back(static_cast<int>(std::find(kWeekdayCodes.begin(), kWeekdayCodes.end(), day) -
                                        kWeekdayCodes.begin()));
      }
    }
    return asked;
  }

  /// Stops in order; what did not fit follows, without week and date.
  static void printDocument(const Surroundings& surroundings, const SitePlan& plan) {
    Json list = Json::array();
    for (const PlannedStop& stop : plan.stops) {
      Json visits = Json::array();
      std::transform(stop.visits.begin(), stop.visits.end(), std::back_inserter(visits), visitJson);
      list.push_back({{"week", stop.week},
                      {"date", formatDate(stop.day)},
                      {"place", stop.cabinet},
                      {"channels", tags(stop.visits)},
                      {"hours", hoursJson(stop.minutes())},
                      {"standards", stop.standards},
                      {"technician", stop.person},
                      {"visits", visits},
                      {"reason", nullptr}});
    }
    for (const PlannedSubject& visit : plan.notPlanned) {
      list.push_back({{"week", nullptr},
                      {"date", nullptr},
                      {"place", cabinetOf(visit.place)},
                      {"channels", tags({visit})},
                      {"hours", hoursJson(visit.minutes)},
                      {"standards", Json::array()},
                      {"technician", nullptr},
                      {"visits", Json::array({visitJson(visit)})},
                      {"reason", visit.reason}});
    }
    printJson(surroundings, list);
  }

  static void print(std::ostream& out, const SitePlan& plan) {
    out << fmt::format("{} to {}: {} visits planned, {} not.\n", formatDate(plan.from),
                       formatDate(plan.until), plan.visits(), plan.notPlanned.size());
    printStops(out, plan);
    printOtherStandards(out, plan);
    printLate(out, plan);
    printNotPlanned(out, plan);
    printWeeks(out, plan);
  }

  static void printStops(std::ostream& out, const SitePlan& plan) {
    if (plan.stops.empty()) {
      return;
    }
    Table table(
        {{"week"}, {"date"}, {"technician"}, {"place"}, {"channels"}, {"hours", kRight}, {"standards"}});
    for (const PlannedStop& stop : plan.stops) {
      table.add({stop.week, formatDate(stop.day), stop.person, stop.cabinet, joined(stop.visits),
                 hoursText(stop.minutes()), fmt::format("{}", fmt::join(stop.standards, ", "))});
    }
    out << '\n';
    table.print(out);
  }

  static void printOtherStandards(std::ostream& out, const SitePlan& plan) {
    Table table({{"channel"}, {"date"}, {"needs"}, {"standards of the day"}});
    for (const PlannedStop& stop : plan.stops) {
      for (const PlannedSubject& visit : stop.visits) {
        if (visit.otherStandards) {
          table.add({channelText(visit), formatDate(stop.day), visit.needs,
                     fmt::format("{}", fmt::join(stop.standards, ", "))});
        }
      }
    }
    if (!table.empty()) {
      out << "\nWith other models of standards than were used last; see whether they will do:\n";
      table.print(out);
    }
  }

  static void printLate(std::ostream& out, const SitePlan& plan) {
    Table table({{"channel"}, {"due"}, {"planned"}, {""}, {"why not by its due day"}});
    for (const PlannedStop& stop : plan.stops) {
      for (const PlannedSubject& visit : stop.visits) {
        if (visit.time != PlanTime::onTime) {
          table.add({channelText(visit), visit.due ? formatDate(*visit.due) : "", formatDate(stop.day),
                     visit.time == PlanTime::late ? "late" : "in grace", visit.reason});
        }
      }
    }
    if (!table.empty()) {
      out << "\nAfter their due day, or later than at once:\n";
      table.print(out);
    }
  }

  static void printNotPlanned(std::ostream& out, const SitePlan& plan) {
    if (plan.notPlanned.empty()) {
      return;
    }
    Table table({{"channel"}, {"state"}, {"due"}, {"place"}, {"hours", kRight}, {"why"}});
    for (const PlannedSubject& visit : plan.notPlanned) {
      table.add({channelText(visit), std::string(text(visit.state)), visit.due ? formatDate(*visit.due) : "",
                 visit.place, visit.minutes == 0 ? "" : hoursText(visit.minutes), visit.reason});
    }
    out << "\nNot planned:\n";
    table.print(out);
  }

  static void printWeeks(std::ostream& out, const SitePlan& plan) {
    Table table({{"week"}, {"technician"}, {"planned", kRight}, {"of", kRight}});
    for (const PlannedWeek& week : plan.weeks) {
      if (week.planned > 0) {
        table.add({week.week, week.person, hoursText(week.planned), hoursText(week.hours)});
      }
    }
    if (!table.empty()) {
      out << "\nHours:\n";
      table.print(out);
    }
  }

  std::string record_, from_, ics_;
  int weeks_ = 4;
  double factor_ = 1.0;
  std::vector<std::string> hours_, away_, personAway_, only_, not_, weekdays_;
  bool json_ = false;
};

}  // namespace

std::unique_ptr<Command> planCommand() {
  return std::make_unique<PlanCommand>();
}

}  // namespace spanwright
