// SPDX-License-Identifier: GPL-3.0-or-later
//
// One thing of the register as a row.
#include "core/store/register_rows.h"
#include "core/store/stored_forms.h"

namespace spanwright {

void writePlace(Connection& connection, std::string_view site, std::int64_t id, const Place& place,
                std::optional<std::int64_t> parent) {
  static const std::string kPlace = insertInto("place", "site, id, path, name, parent, walking_order");
  connection.query(kPlace).run(site, id, place.path, place.name, parent, place.order);
}

void writeAway(Connection& connection, std::string_view site, std::int64_t person,
               const std::vector<DayRange>& away) {
  static const std::string kAway = insertInto("person_away", "site, person, id, first_day, last_day, name");
  std::int64_t id = 0;
  for (const DayRange& days : away) {
    connection.query(kAway).run(site, person, ++id, stored(days.first), stored(days.last), days.name);
  }
}

void writeClosedDays(Connection& connection, std::string_view site, const std::vector<DayRange>& closed) {
  static const std::string kClosed = insertInto("closed_days", "site, id, first_day, last_day, name");
  std::int64_t id = 0;
  for (const DayRange& days : closed) {
    connection.query(kClosed).run(site, ++id, stored(days.first), stored(days.last), days.name);
  }
}

void writePerson(Connection& connection, std::string_view site, std::int64_t id, const Person& person) {
  static const std::string kPerson =
      insertInto("person", "site, id, login, name, roles, left_on, hours_per_week");
  connection.query(kPerson).run(site, id, person.login, person.name, storedJson(person.roles),
                                person.leftOn ? stored(*person.leftOn) : std::nullopt, person.hoursPerWeek);
  writeAway(connection, site, id, person.away);
}

void writeStandard(Connection& connection, std::string_view site, std::int64_t id, const Standard& standard) {
  static const std::string kStandard =
      insertInto("standard", "site, id, serial, maker, model, description, location");
  const Standard& s = standard;
  connection.query(kStandard).run(site, id, s.serial, s.maker, s.model, s.description, s.location);
}

void writeSensor(Connection& connection, std::string_view site, std::int64_t id, const Sensor& sensor) {
  static const std::string kSensor =
      insertInto("sensor", "site, id, serial, maker, model, description, range");
  const Sensor& s = sensor;
  connection.query(kSensor).run(site, id, s.serial, s.maker, s.model, s.description, storedJson(s.range));
}

void writePlan(Connection& connection, std::string_view site, std::int64_t id, const Plan& plan) {
  static const std::string kPlan = insertInto(
      "plan",
      "site, id, code, revision, title, procedure, scheme, tolerance, adjust_limit, decision_rule, "
      "cautions, settle_seconds, minutes, junction_uncertainty, lead_half_width");
  const Plan& p = plan;
  connection.query(kPlan).run(site, id, p.code, p.revision, p.title, p.procedure, storedJson(p.scheme),
                              storedJson(p.tolerance), p.adjustLimit, storedRule(p.decisionRule),
                              storedJson(p.cautions), p.settleSeconds, p.minutes, p.junctionUncertainty,
                              p.leadHalfWidth);
}

void writeInterval(Connection& connection, std::string_view site, std::int64_t id,
                   const IntervalPolicy& interval) {
  static const std::string kInterval =
      insertInto("interval_policy",
                 "site, id, code, policy, days, months, minimum_days, maximum_days, lengthen, shorten, "
                 "target, confidence, least_outcomes");
  const IntervalPolicy& i = interval;
  connection.query(kInterval).run(site, id, i.code, text(i.kind), i.days, i.months, i.minimumDays,
                                  i.maximumDays, i.lengthen, i.shorten, i.target, i.confidence,
                                  i.leastOutcomes);
}

void writeChannel(Connection& connection, std::string_view site, std::int64_t id, const Channel& channel,
                  std::optional<std::int64_t> place) {
  static const std::string kChannel = insertInto("channel", "site, id, tag, place, terminal, title, retired");
  connection.query(kChannel).run(site, id, channel.tag, place, channel.terminal, channel.title,
                                 channel.retired);
}

void writeRoutine(Connection& connection, std::string_view site, std::int64_t channel, std::int64_t id,
                  Subject subject, std::optional<std::int64_t> plan, std::optional<std::int64_t> interval) {
  static const std::string kRoutine =
      insertInto("routine", "site, channel, id, subject, plan, interval_policy");
  connection.query(kRoutine).run(site, channel, id, stored(subject), plan, interval);
}

}  // namespace spanwright
