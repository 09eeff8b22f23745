// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan_question.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace spanwright {
namespace {

using boost::gregorian::days;

template <typename Map, typename Known>
void refuseUnknown(const Map& map, const char* what, const Known& known, std::vector<Problem>& problems) {
  for (const auto& [name, value] : map) {
    if (!known(name)) {
      problems.push_back(
          {{}, fmt::format("there is no {} \"{}\" in the register", what, name), "correct the name"});
    }
  }
}

}  // namespace

void refuseFaulty(const Register& site, const PlanQuestion& question) {
  std::vector<Problem> problems;
  constexpr int kMostWeeks = 520;
  if (question.weeks < 1 || question.weeks > kMostWeeks) {
    problems.push_back({{},
                        fmt::format("{} weeks cannot be planned", question.weeks),
                        fmt::format("give 1 to {}", kMostWeeks)});
  }
  const auto technician = [&](const std::string& login) {
    const Person* person = site.person(login);
    return person != nullptr &&
           std::find(person->roles.begin(), person->roles.end(), Role::technician) != person->roles.end();
  };
  const auto channel = [&](const std::string& tag) { return site.channel(tag) != nullptr; };
  refuseUnknown(question.hours, "technician", technician, problems);
  refuseUnknown(question.peopleAway, "technician", technician, problems);
  refuseUnknown(
      question.standardsAway, "standard",
      [&](const std::string& serial) { return site.standard(serial) != nullptr; }, problems);
  refuseUnknown(question.onlyOn, "channel", channel, problems);
  refuseUnknown(question.notOn, "channel", channel, problems);
  if (!problems.empty()) {
    throw InputError(std::move(problems));
  }
}

std::vector<DaySpan> daysOf(const std::map<std::string, std::vector<DaySpan>>& map, const std::string& name) {
  const auto at = map.find(name);
  return at == map.end() ? std::vector<DaySpan>{} : at->second;
}

std::vector<PlanTechnician> techniciansOf(const Register& site, const PlanQuestion& question) {
  std::vector<PlanTechnician> technicians;
  for (const Person& person : site.people) {
    const auto supposed = question.hours.find(person.login);
    const double hours =
        question.hoursFactor *
        (supposed != question.hours.end() ? supposed->second : person.hoursPerWeek.value_or(0.0));
    if (!(hours > 0.0) || (person.leftOn && *person.leftOn < question.from)) {
      continue;
    }
    PlanTechnician technician{person.login, static_cast<int>(std::floor(60.0 * hours)), 60 * kLongestDay,
                              daysOf(question.peopleAway, person.login)};
    for (const DayRange& away : person.away) {
      technician.away.push_back({away.first, away.last});
    }
    if (person.leftOn) {
      technician.away.push_back({*person.leftOn + days(1), question.from + days(7 * question.weeks)});
    }
    technicians.push_back(std::move(technician));
  }
  return technicians;
}

}  // namespace spanwright
