// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/register_changes.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/record/register_rules.h"
#include "core/tasks/register_parts.h"

namespace spanwright {

namespace {

void refuseTaken(FieldReader& reader, bool is, std::string_view field, std::string_view what,
                 std::string_view name) {
  if (is) {
    reader.wrong(field, fmt::format("there is a {} \"{}\" already", what, name), "choose another name");
  }
}

[[noreturn]] void notThere(RegisterKind kind, std::string_view name) {
  throw InputError(fmt::format("there is no {} \"{}\" in the record any more",
                               kind == RegisterKind::place ? "place" : nameField(kind), name),
                   "open the list again");
}

/// Where the place would stand: below one that is there, not within itself.
void checkParent(const Register& site, const Place& place, std::string_view was, FieldReader& reader) {
  if (!place.parentPath.empty() && placeOf(site, place.parentPath) == nullptr) {
    reader.wrong("within", fmt::format("the place \"{}\" is not described", place.parentPath),
                 "choose one of the places");
  }
  const std::string inside = std::string(was) + " / ";
  if (!was.empty() && (place.parentPath == was || place.parentPath.starts_with(inside))) {
    reader.wrong("within", "a place cannot lie within itself", "choose another place");
  }
  if (place.path != was) {
    refuseTaken(reader, placeOf(site, place.path) != nullptr, "name", "place", place.path);
  }
}

/// The last one among its neighbours.
int nextOrder(const Register& site, const std::string& parent) {
  int last = 0;
  for (const Place& place : site.places) {
    last = place.parentPath == parent ? std::max(last, place.order) : last;
  }
  return last + 1;
}

/// A procedure that was not named may be added: what was done does not change by that.
bool madeAlike(const Plan& now, const Plan& was) {
  const DecisionRule &p = now.decisionRule, &q = was.decisionRule;
  return (now.procedure == was.procedure || was.procedure.empty()) &&
         now.scheme.percents == was.scheme.percents && now.scheme.order == was.scheme.order &&
         now.scheme.repeats == was.scheme.repeats && now.scheme.alarms == was.scheme.alarms &&
         now.scheme.loss == was.scheme.loss && now.tolerance == was.tolerance && p.basis == q.basis &&
         p.factor == q.factor && p.falseAcceptLimit == q.falseAcceptLimit &&
         now.junctionUncertainty == was.junctionUncertainty && now.leadHalfWidth == was.leadHalfWidth;
}

/// A plan that is in use must go on fitting where it is used.
void checkUsers(const Register& site, const Plan& plan, FieldReader& reader) {
  for (const Channel& channel : site.channels) {
    for (const Routine& routine : channel.routines) {
      if (routine.plan != plan.code || channel.retired || channel.setups.empty()) {
        continue;
      }
      const auto wrong = planFitProblems(plan, routine.subject, channel.setups.back().setup);
      if (!wrong.empty()) {
        reader.wrong(plan.scheme.percents.empty() ? "points" : "tolerance",
                     fmt::format("channel {} {}", channel.tag, wrong.front().what), wrong.front().todo);
        return;
      }
    }
  }
}

/// A new channel with what stands below "setup." and, when a sensor is chosen, "fitting.".
Channel newChannel(const Register& site, FieldReader& reader) {
  Channel channel = readChannel(reader);
  FieldReader below = reader.below("setup");
  const std::size_t before = reader.problems().size();
  SetupVersion setup = readSetupVersion(below);
  setup.version = 1;
  if (const std::string sensor = reader.text("fitting.sensor"); !sensor.empty()) {
    channel.fittings.push_back({sensor, setup.inForceFrom, {}});
  }
  // A setup that could not be read was reported; what else is wrong is told all the same.
  const bool readable = reader.problems().size() == before;
  channel.setups.push_back(std::move(setup));
  for (const Problem& each : channelProblems(channel, RegisterNames(site))) {
    if (readable || !each.where.field.starts_with("setup")) {
      reader.problems().push_back(each);
    }
  }
  refuseTaken(reader, site.channel(channel.tag) != nullptr, "tag", "channel", channel.tag);
  return channel;
}

/// A sensor sits in one place at a time.
void checkFree(const Register& site, std::string_view channel, const Fitting& fitting, std::string_view field,
               FieldReader& reader) {
  for (const Channel& each : site.channels) {
    for (const Fitting& known : each.fittings) {
      if (each.tag != channel && known.sensor == fitting.sensor && known.from >= fitting.from) {
        reader.wrong(field,
                     fmt::format("{} is on {} from {}, not before this", fitting.sensor, each.tag,
                                 formatMoment(known.from)),
                     "give a later moment or choose another sensor");
        return;
      }
    }
  }
}

template <class Item, class Keep>
std::string keep(FieldReader& reader, Store& store, std::string_view by, const Item& item, std::string name,
                 Keep write) {
  throwIfAny(reader);
  const ActingAs acting(store, by);
  (store.*write)(item);
  return name;
}

void checkPeopleAfter(const Register& site, const Person& changed, Date today, FieldReader& reader) {
  Register after = site;
  for (Person& person : after.people) {
    if (person.login == changed.login) {
      person.roles = changed.roles;
    }
  }
  if (anybodyMay(site, RegisterKind::person, today) && !anybodyMay(after, RegisterKind::person, today)) {
    reader.wrong("role.administrator", "nobody would be left who is an administrator",
                 "give somebody else the role first");
  }
}

/// Somebody who may do nothing could neither sign nor be sent anywhere.
void needRole(FieldReader& reader, const Person& person) {
  if (person.roles.empty()) {
    reader.wrong("role.technician", "the person has no role", "tick what they do here");
  }
}

std::string changePerson(Store& store, std::string_view name, FieldReader& reader, std::string_view by) {
  const Person* was = store.site().person(name);
  if (was == nullptr) {
    notThere(RegisterKind::person, name);
  }
  const Person person = readPerson(reader);
  needRole(reader, person);
  checkPeopleAfter(store.site(), person, store.clock().localNow().date(), reader);
  return keep(reader, store, by, person, person.login, &Store::changePerson);
}

std::string changePlan(Store& store, std::string_view name, FieldReader& reader, std::string_view by) {
  const Plan* was = store.site().plan(name);
  if (was == nullptr) {
    notThere(RegisterKind::plan, name);
  }
  const Plan plan = readPlan(reader);
  if (reader.sound() && plan.revision == was->revision && !madeAlike(plan, *was)) {
    reader.wrong("revision",
                 fmt::format("points, tolerance, rule or procedure change, and the revision is still {}",
                             plan.revision),
                 "give the next revision");
  }
  if (reader.sound()) {
    checkUsers(store.site(), plan, reader);
  }
  return keep(reader, store, by, plan, plan.code, &Store::changePlan);
}

std::string changeChannel(Store& store, std::string_view name, FieldReader& reader, std::string_view by) {
  Channel channel = channelOf(store.site(), name);
  const Channel typed = readChannel(reader);
  channel.place = typed.place;
  channel.terminal = typed.terminal;
  channel.title = typed.title;
  channel.retired = typed.retired;
  channel.routines = typed.routines;
  for (const Problem& each : channelProblems(channel, RegisterNames(store.site()))) {
    reader.problems().push_back(each);
  }
  return keep(reader, store, by, channel, channel.tag, &Store::changeChannel);
}

std::string changeSensor(Store& store, std::string_view name, FieldReader& reader, std::string_view by) {
  if (store.site().sensor(name) == nullptr) {
    notThere(RegisterKind::sensor, name);
  }
  const Sensor sensor = readSensor(reader);
  return keep(reader, store, by, sensor, sensor.serial, &Store::changeSensor);
}

std::string changePlace(Store& store, std::string_view name, FieldReader& reader, std::string_view by) {
  if (placeOf(store.site(), name) == nullptr) {
    notThere(RegisterKind::place, name);
  }
  const Place place = readPlace(reader);
  checkParent(store.site(), place, name, reader);
  throwIfAny(reader);
  const ActingAs acting(store, by);
  store.changePlace(name, place);
  return place.path;
}

std::string changeSite(Store& store, FieldReader& reader, std::string_view by) {
  const SiteInfo info = readSiteInfo(reader);
  const CalendarRules calendar = readCalendar(reader);
  throwIfAny(reader);
  const ActingAs acting(store, by);
  store.changeSite(info, calendar);
  return info.code;
}

std::string addPlace(Store& store, FieldReader& reader, std::string_view by) {
  Place place = readPlace(reader);
  checkParent(store.site(), place, {}, reader);
  if (!reader.has("order")) {
    place.order = nextOrder(store.site(), place.parentPath);
  }
  return keep(reader, store, by, place, place.path, &Store::addPlace);
}

std::string addChannel(Store& store, FieldReader& reader, std::string_view by) {
  const Channel channel = newChannel(store.site(), reader);
  for (const Fitting& fitting : channel.fittings) {
    checkFree(store.site(), channel.tag, fitting, "fitting.sensor", reader);
  }
  throwIfAny(reader);
  const ActingAs acting(store, by);
  Store::Transaction whole(store);
  Channel bare = channel;
  bare.fittings.clear();
  store.addChannel(bare);
  for (const Fitting& fitting : channel.fittings) {
    store.addFitting(channel.tag, fitting);  // the sensor leaves where it was
  }
  whole.commit();
  return channel.tag;
}

/// The fields with the name they cannot change.
TypedFields withName(RegisterKind kind, std::string_view name, const TypedFields& fields) {
  TypedFields fixed = fields;
  if (kind != RegisterKind::place && kind != RegisterKind::site) {
    fixed[std::string(nameField(kind))] = name;
  }
  return fixed;
}

}  // namespace

std::string addToRegister(Store& store, RegisterKind kind, const TypedFields& fields, std::string_view by) {
  store.refresh();
  FieldReader reader(fields);
  checkEditor(store, by, kind, reader);
  const Register& site = store.site();
  switch (kind) {
    case RegisterKind::site:
      break;  // a record is about one site, which is there
    case RegisterKind::place:
      return addPlace(store, reader, by);
    case RegisterKind::person: {
      const Person person = readPerson(reader);
      needRole(reader, person);
      refuseTaken(reader, site.person(person.login) != nullptr, "login", "person", person.login);
      return keep(reader, store, by, person, person.login, &Store::addPerson);
    }
    case RegisterKind::standard: {
      const Standard standard = readStandard(reader);
      refuseTaken(reader, site.standard(standard.serial) != nullptr, "serial", "standard", standard.serial);
      return keep(reader, store, by, standard, standard.serial, &Store::addStandard);
    }
    case RegisterKind::sensor: {
      const Sensor sensor = readSensor(reader);
      refuseTaken(reader, site.sensor(sensor.serial) != nullptr, "serial", "sensor", sensor.serial);
      return keep(reader, store, by, sensor, sensor.serial, &Store::addSensor);
    }
    case RegisterKind::plan: {
      const Plan plan = readPlan(reader);
      refuseTaken(reader, site.plan(plan.code) != nullptr, "code", "plan", plan.code);
      return keep(reader, store, by, plan, plan.code, &Store::addPlan);
    }
    case RegisterKind::interval: {
      const IntervalPolicy policy = readInterval(reader);
      refuseTaken(reader, site.interval(policy.code) != nullptr, "code", "interval policy", policy.code);
      return keep(reader, store, by, policy, policy.code, &Store::addInterval);
    }
    case RegisterKind::channel:
      return addChannel(store, reader, by);
  }
  return changeSite(store, reader, by);
}

std::string changeInRegister(Store& store, RegisterKind kind, std::string_view name,
                             const TypedFields& fields, std::string_view by) {
  store.refresh();
  const TypedFields fixed = withName(kind, name, fields);
  FieldReader reader(fixed);
  checkEditor(store, by, kind, reader);
  switch (kind) {
    case RegisterKind::site:
      break;
    case RegisterKind::place:
      return changePlace(store, name, reader, by);
    case RegisterKind::person:
      return changePerson(store, name, reader, by);
    case RegisterKind::standard: {
      if (store.site().standard(name) == nullptr) {
        notThere(kind, name);
      }
      const Standard standard = readStandard(reader);
      return keep(reader, store, by, standard, standard.serial, &Store::changeStandard);
    }
    case RegisterKind::sensor:
      return changeSensor(store, name, reader, by);
    case RegisterKind::plan:
      return changePlan(store, name, reader, by);
    case RegisterKind::interval: {
      if (store.site().interval(name) == nullptr) {
        notThere(kind, name);
      }
      const IntervalPolicy policy = readInterval(reader);
      return keep(reader, store, by, policy, policy.code, &Store::changeInterval);
    }
    case RegisterKind::channel:
      return changeChannel(store, name, reader, by);
  }
  return changeSite(store, reader, by);
}

}  // namespace spanwright
