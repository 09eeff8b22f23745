// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/life.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace spanwright {
namespace {

constexpr std::array kActs{std::pair{LifeAct::performed, std::string_view("performed")},
                           std::pair{LifeAct::reviewed, std::string_view("reviewed")},
                           std::pair{LifeAct::approved, std::string_view("approved")},
                           std::pair{LifeAct::sentBack, std::string_view("sent back")},
                           std::pair{LifeAct::withdrawn, std::string_view("withdrawn")},
                           std::pair{LifeAct::superseded, std::string_view("superseded")}};

Problem problem(std::string what, std::string todo) {
  return {{}, std::move(what), std::move(todo)};
}

bool hasRole(const Person& person, Role role) {
  return std::find(person.roles.begin(), person.roles.end(), role) != person.roles.end();
}

bool blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

/// Who last signed it as performed, besides the person named in it.
bool performedBy(const Calibration& calibration, std::span<const LifeEvent> events, std::string_view login) {
  return calibration.person == login ||
         std::any_of(events.begin(), events.end(), [login](const LifeEvent& event) {
           return event.act == LifeAct::performed && event.person == login;
         });
}

/// The states an act may follow, in words for the refusal.
struct Precondition {
  std::vector<LifeState> states;
  std::string_view todo;
};
Precondition before(LifeAct act) {
  using S = LifeState;
  switch (act) {
    case LifeAct::performed:
      return {{S::recorded, S::sentBack}, "its technician signs it once, before anybody else does"};
    case LifeAct::reviewed:
      return {{S::performed}, "a review follows the technician's signature, once"};
    case LifeAct::approved:
      return {{S::reviewed}, "an approval follows a review, once"};
    case LifeAct::sentBack:
      return {{S::performed, S::reviewed},
              "only what was performed or reviewed goes back; withdraw what is approved"};
    case LifeAct::withdrawn:
      return {{S::recorded, S::performed, S::reviewed, S::approved, S::sentBack}, "its end has come already"};
    case LifeAct::superseded:
      break;
  }
  return {{}, "the record does that itself when a correction is made"};
}

std::optional<Problem> roleFault(const Calibration& calibration, std::span<const LifeEvent> events,
                                 const ActRequest& request, const Person& person) {
  const bool own = performedBy(calibration, events, person.login);
  if (request.act == LifeAct::performed) {
    if (calibration.person != person.login) {
      return problem(fmt::format("calibration {} was made by {}, not by {}", calibration.id,
                                 calibration.person, person.login),
                     fmt::format("let {} sign it as performed", calibration.person));
    }
    if (!hasRole(person, Role::technician)) {
      return problem(fmt::format("{} is not a technician of this site", person.login),
                     "give the role in the site's description, or let a technician do it");
    }
    return std::nullopt;
  }
  const LifeState state = stateAfter(events);
  const bool unsignedYet = state == LifeState::recorded || state == LifeState::sentBack;
  if (request.act == LifeAct::withdrawn && own && unsignedYet) {
    return std::nullopt;  // what nobody relies on yet may be taken back by who made it
  }
  if (own) {
    return problem(fmt::format("{} performed calibration {} and cannot mark their own work as {}",
                               person.login, calibration.id, text(request.act)),
                   "ask another reviewer");
  }
  if (!hasRole(person, Role::reviewer)) {
    return problem(fmt::format("{} is not a reviewer of this site", person.login),
                   "ask a person with the role of a reviewer");
  }
  return std::nullopt;
}

}  // namespace

LifeState stateAfter(LifeAct last) {
  switch (last) {
    case LifeAct::performed:
      return LifeState::performed;
    case LifeAct::reviewed:
      return LifeState::reviewed;
    case LifeAct::approved:
      return LifeState::approved;
    case LifeAct::sentBack:
      return LifeState::sentBack;
    case LifeAct::withdrawn:
      return LifeState::withdrawn;
    case LifeAct::superseded:
      break;
  }
  return LifeState::superseded;
}

LifeState stateAfter(std::span<const LifeEvent> events) {
  return events.empty() ? LifeState::recorded : stateAfter(events.back().act);
}

bool counts(LifeState state) {
  return state != LifeState::withdrawn && state != LifeState::superseded;
}

bool proves(LifeState state) {
  return counts(state) && state != LifeState::sentBack;
}

std::optional<Problem> actFault(const Register& site, const Calibration& calibration,
                                std::span<const LifeEvent> events, const ActRequest& request) {
  const Person* person = site.person(request.person);
  if (person == nullptr) {
    return problem(fmt::format("there is no person \"{}\" in the record", request.person), "check the login");
  }
  if (person->leftOn && *person->leftOn <= request.today) {
    return problem(fmt::format("{} left on {}", person->login, formatDate(*person->leftOn)),
                   "let somebody do it who is here");
  }
  const LifeState state = stateAfter(events);
  const Precondition needed = before(request.act);
  if (std::find(needed.states.begin(), needed.states.end(), state) == needed.states.end()) {
    return problem(fmt::format("calibration {} is {} and cannot be {} now", calibration.id, text(state),
                               text(request.act)),
                   std::string(needed.todo));
  }
  if ((request.act == LifeAct::sentBack || request.act == LifeAct::withdrawn) && blank(request.reason)) {
    return problem(
        fmt::format("calibration {} cannot be {} without a reason", calibration.id, text(request.act)),
        "say why");
  }
  return roleFault(calibration, events, request, *person);
}

std::optional<Problem> correctionFault(const Calibration& corrected, std::span<const LifeEvent> events,
                                       const Calibration& correction) {
  if (const LifeState state = stateAfter(events); !counts(state)) {
    return problem(fmt::format("calibration {} is {} and takes no correction", corrected.id, text(state)),
                   "correct the one that stands, or enter a new visit");
  }
  if (corrected.channel != correction.channel || corrected.subject != correction.subject) {
    return problem(
        fmt::format("calibration {} is of the {} of {}, the correction of the {} of {}", corrected.id,
                    text(corrected.subject), corrected.channel, text(correction.subject), correction.channel),
        "give the number of the calibration it corrects");
  }
  if (blank(correction.correctionReason)) {
    return problem(fmt::format("the correction of calibration {} gives no reason", corrected.id), "say why");
  }
  return std::nullopt;
}

std::string signedText(std::string_view site, const LifeEvent& event, std::string_view publicKey) {
  const auto line = [](std::string_view name, std::string_view value) {
    return fmt::format("{}:{}:{}\n", name, value.size(), value);
  };
  return "spanwright signature 1\n" + line("site", site) +
         fmt::format("calibration:{}\n", event.calibration) + line("meaning", text(event.act)) +
         line("person", event.person) + line("at", formatMoment(event.atUtc) + "Z") +
         line("reason", event.reason) + line("digest", event.digest) + line("key", publicKey);
}

std::string_view text(LifeAct act) {
  for (const auto& [value, word] : kActs) {
    if (value == act) {
      return word;
    }
  }
  return {};
}

std::optional<LifeAct> parseLifeAct(std::string_view text) {
  for (const auto& [value, word] : kActs) {
    if (word == text) {
      return value;
    }
  }
  return std::nullopt;
}

std::string_view text(LifeState state) {
  for (const auto& [act, word] : kActs) {
    if (stateAfter(act) == state) {
      return word;
    }
  }
  return "recorded";
}

std::optional<LifeState> parseLifeState(std::string_view text) {
  if (text == "recorded") {
    return LifeState::recorded;
  }
  const auto act = parseLifeAct(text);
  return act ? std::optional(stateAfter(*act)) : std::nullopt;
}

}  // namespace spanwright
