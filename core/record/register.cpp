// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/register.h"

#include <algorithm>
#include <unordered_map>

namespace spanwright {

namespace {

using Positions = std::unordered_map<std::string, std::size_t>;

template <class Item, class Name>
Positions positions(const std::vector<Item>& items, Name name) {
  Positions found;
  found.reserve(items.size());
  for (std::size_t i = 0; i < items.size(); ++i) {
    found.emplace(items[i].*name, i);  // the first of a doubled name wins; registerFaults reports the double
  }
  return found;
}

template <class Item, class Name>
const Item* findLinear(const std::vector<Item>& items, Name name, std::string_view wanted) {
  const auto at =
      std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.*name == wanted; });
  return at == items.end() ? nullptr : &*at;
}

}  // namespace

// Serves only the list it was built over: a copy, or a list grown since, is noticed by address and size and
// searched linearly until indexed again.
struct Register::Index {
  template <class Item>
  struct Names {
    const Item* data = nullptr;
    std::size_t count = 0;
    Positions positions;

    template <class Name>
    Names(const std::vector<Item>& items, Name name)
        : data(items.data()), count(items.size()), positions(spanwright::positions(items, name)) {}
    bool serves(const std::vector<Item>& items) const {
      return data == items.data() && count == items.size();
    }
    template <class Name>
    const Item* find(Name name, std::string_view wanted) const {
      const auto at = positions.find(std::string(wanted));
      return at != positions.end() && data[at->second].*name == wanted ? data + at->second : nullptr;
    }
  };
  Names<Channel> channels;
  Names<Sensor> sensors;
};

void Register::index() {
  index_ = std::make_shared<const Index>(Index{{channels, &Channel::tag}, {sensors, &Sensor::serial}});
}

const Channel* Register::channel(std::string_view tag) const {
  return index_ && index_->channels.serves(channels) ? index_->channels.find(&Channel::tag, tag)
                                                     : findLinear(channels, &Channel::tag, tag);
}

const Sensor* Register::sensor(std::string_view serial) const {
  return index_ && index_->sensors.serves(sensors) ? index_->sensors.find(&Sensor::serial, serial)
                                                   : findLinear(sensors, &Sensor::serial, serial);
}
const Standard* Register::standard(std::string_view serial) const {
  return findLinear(standards, &Standard::serial, serial);
}
const Plan* Register::plan(std::string_view code) const {
  return findLinear(plans, &Plan::code, code);
}
const IntervalPolicy* Register::interval(std::string_view code) const {
  return findLinear(intervals, &IntervalPolicy::code, code);
}
const Person* Register::person(std::string_view login) const {
  return findLinear(people, &Person::login, login);
}

const SetupVersion* setupInForce(const Channel& channel, Moment when) {
  const SetupVersion* inForce = nullptr;
  for (const SetupVersion& setup : channel.setups) {
    if (setup.inForceFrom <= when) {
      inForce = &setup;
    }
  }
  return inForce;
}

const Fitting* fittingAt(const Channel& channel, Moment when) {
  for (const Fitting& fitting : channel.fittings) {
    if (fitting.from <= when && (!fitting.until || when < *fitting.until)) {
      return &fitting;
    }
  }
  return nullptr;
}

const Routine* routineFor(const Channel& channel, Subject subject) {
  const auto at = std::find_if(channel.routines.begin(), channel.routines.end(),
                               [&](const Routine& routine) { return routine.subject == subject; });
  return at == channel.routines.end() ? nullptr : &*at;
}

const AcceptedInterval* acceptedInterval(const Channel& channel, Subject subject, Date day) {
  const AcceptedInterval* inForce = nullptr;
  for (const AcceptedInterval& accepted : channel.acceptedIntervals) {
    if (accepted.subject == subject && accepted.fromDay <= day) {
      inForce = &accepted;
    }
  }
  return inForce;
}

const StandardCertificate* certificateOn(const Standard& standard, Date day) {
  const StandardCertificate* newest = nullptr;
  for (const StandardCertificate& certificate : standard.certificates) {
    if (certificate.validFrom <= day && day <= certificate.validUntil &&
        (!newest || newest->validFrom <= certificate.validFrom)) {
      newest = &certificate;
    }
  }
  return newest;
}

std::string_view text(PolicyKind kind) {
  switch (kind) {
    case PolicyKind::fixed:
      return "fixed";
    case PolicyKind::staircase:
      return "staircase";
    case PolicyKind::reliability:
      return "reliability";
    case PolicyKind::forecast:
      return "forecast";
  }
  return "";
}

std::optional<PolicyKind> parsePolicyKind(std::string_view wanted) {
  for (PolicyKind kind :
       {PolicyKind::fixed, PolicyKind::staircase, PolicyKind::reliability, PolicyKind::forecast}) {
    if (text(kind) == wanted) {
      return kind;
    }
  }
  return std::nullopt;
}

std::string_view text(Role role) {
  switch (role) {
    case Role::technician:
      return "technician";
    case Role::planner:
      return "planner";
    case Role::reviewer:
      return "reviewer";
    case Role::administrator:
      return "administrator";
  }
  return "";
}

std::optional<Role> parseRole(std::string_view wanted) {
  for (Role role : {Role::technician, Role::planner, Role::reviewer, Role::administrator}) {
    if (text(role) == wanted) {
      return role;
    }
  }
  return std::nullopt;
}

}  // namespace spanwright
