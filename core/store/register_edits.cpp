// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Store's part about things of the register that are added, and about what is changed of them. The name
// by which others know a thing (login, serial, code, tag) stays: signatures and what was handed out tell it.
#include <fmt/format.h>

#include "core/store/row_ids.h"
#include "core/store/store_impl.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

/// The row of `table` whose `column` holds `name`, or nothing.
std::optional<std::int64_t> idOf(Connection& connection, std::string_view table, std::string_view column,
                                 std::string_view site, std::string_view name) {
  Query row = connection.query(fmt::format("SELECT id FROM {} WHERE site = $1 AND {} = $2", table, column));
  return row.bind(site, name).step() ? std::optional(row.integer(0)) : std::nullopt;
}

std::int64_t needId(Connection& connection, std::string_view table, std::string_view column,
                    std::string_view site, std::string_view kind, std::string_view name) {
  if (const auto id = idOf(connection, table, column, site, name)) {
    return *id;
  }
  throw InputError(fmt::format("there is no {} \"{}\" in the record", kind, name), "check the name");
}

void refuseSecond(Connection& connection, std::string_view table, std::string_view column,
                  std::string_view site, std::string_view kind, std::string_view name) {
  if (idOf(connection, table, column, site, name)) {
    throw InputError(fmt::format("there is one {} \"{}\" in the record already", kind, name),
                     "choose another name");
  }
}

std::optional<std::int64_t> placeId(Connection& connection, std::string_view site, std::string_view path) {
  return path.empty() ? std::nullopt
                      : std::optional(needId(connection, "place", "path", site, "place", path));
}

void writeRoutines(Connection& connection, std::string_view site, std::int64_t channel,
                   const std::vector<Routine>& routines) {
  std::int64_t id = 0;
  for (const Routine& routine : routines) {
    writeRoutine(connection, site, channel, ++id, routine.subject,
                 needId(connection, "plan", "code", site, "plan", routine.plan),
                 needId(connection, "interval_policy", "code", site, "interval policy", routine.interval));
  }
}

}  // namespace

void Store::addPlace(const Place& place) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    refuseSecond(connection, "place", "path", site, "place", place.path);
    const std::int64_t id = nextId(connection, "place", site);
    writePlace(connection, site, id, place, placeId(connection, site, place.parentPath));
    impl.enter({acts::kAdded, {"place", {id}}, place.path});
  });
}

void Store::changePlace(std::string_view path, const Place& place) {
  Impl& impl = *impl_;
  const std::string was(path);
  impl.editRegister([&](Connection& connection, std::string_view site) {
    const std::int64_t id = needId(connection, "place", "path", site, "place", was);
    if (place.path != was) {
      refuseSecond(connection, "place", "path", site, "place", place.path);
    }
    const auto parent = placeId(connection, site, place.parentPath);
    impl.enterChange({"place", {id}}, [&] {
      connection
          .query(
              "UPDATE place SET path = $1, name = $2, parent = $3, walking_order = $4 WHERE site = $5 AND "
              "id = $6")
          .run(place.path, place.name, parent, place.order, site, id);
    });
    // What lies within it is called after it.
    for (const Place& each : impl.loaded.site.places) {
      if (place.path != was && each.path.starts_with(was + " / ")) {
        const std::int64_t inner = needId(connection, "place", "path", site, "place", each.path);
        impl.enterChange({"place", {inner}}, [&] {
          connection.query("UPDATE place SET path = $1 WHERE site = $2 AND id = $3")
              .run(place.path + each.path.substr(was.size()), site, inner);
        });
      }
    }
  });
}

void Store::addPerson(const Person& person) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    refuseSecond(connection, "person", "login", site, "person", person.login);
    const std::int64_t id = nextId(connection, "person", site);
    writePerson(connection, site, id, person);
    impl.enter({acts::kAdded, {"person", {id}}, person.login});
  });
}

void Store::changePerson(const Person& person) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    const std::int64_t id = needId(connection, "person", "login", site, "person", person.login);
    impl.enterChange({"person", {id}}, [&] {
      connection
          .query("UPDATE person SET name = $1, roles = $2, hours_per_week = $3 WHERE site = $4 AND id = $5")
          .run(person.name, storedJson(person.roles), person.hoursPerWeek, site, id);
      connection.query("DELETE FROM person_away WHERE site = $1 AND person = $2").run(site, id);
      writeAway(connection, site, id, person.away);
    });
  });
}

void Store::addStandard(const Standard& standard) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    refuseSecond(connection, "standard", "serial", site, "standard", standard.serial);
    const std::int64_t id = nextId(connection, "standard", site);
    writeStandard(connection, site, id, standard);
    impl.enter({acts::kAdded, {"standard", {id}}, standard.serial});
  });
}

void Store::changeStandard(const Standard& standard) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    const std::int64_t id = needId(connection, "standard", "serial", site, "standard", standard.serial);
    impl.enterChange({"standard", {id}}, [&] {
      connection
          .query(
              "UPDATE standard SET maker = $1, model = $2, description = $3, location = $4 WHERE site = $5 "
              "AND id = $6")
          .run(standard.maker, standard.model, standard.description, standard.location, site, id);
    });
  });
}

void Store::addSensor(const Sensor& sensor) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    refuseSecond(connection, "sensor", "serial", site, "sensor", sensor.serial);
    const std::int64_t id = nextId(connection, "sensor", site);
    writeSensor(connection, site, id, sensor);
    impl.enter({acts::kAdded, {"sensor", {id}}, sensor.serial});
  });
}

void Store::changeSensor(const Sensor& sensor) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    const std::int64_t id = needId(connection, "sensor", "serial", site, "sensor", sensor.serial);
    impl.enterChange({"sensor", {id}}, [&] {
      connection
          .query(
              "UPDATE sensor SET maker = $1, model = $2, description = $3, range = $4 WHERE site = $5 AND "
              "id = $6")
          .run(sensor.maker, sensor.model, sensor.description, storedJson(sensor.range), site, id);
    });
  });
}

void Store::addPlan(const Plan& plan) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    refuseSecond(connection, "plan", "code", site, "plan", plan.code);
    const std::int64_t id = nextId(connection, "plan", site);
    writePlan(connection, site, id, plan);
    impl.enter({acts::kAdded, {"plan", {id}}, plan.code});
  });
}

void Store::changePlan(const Plan& plan) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    const Plan& p = plan;
    const std::int64_t id = needId(connection, "plan", "code", site, "plan", p.code);
    impl.enterChange({"plan", {id}}, [&] {
      connection
          .query(
              "UPDATE plan SET revision = $1, title = $2, procedure = $3, scheme = $4, tolerance = $5, "
              "adjust_limit = $6, decision_rule = $7, cautions = $8, settle_seconds = $9, minutes = $10, "
              "junction_uncertainty = $11, lead_half_width = $12 WHERE site = $13 AND id = $14")
          .run(p.revision, p.title, p.procedure, storedJson(p.scheme), storedJson(p.tolerance), p.adjustLimit,
               storedRule(p.decisionRule), storedJson(p.cautions), p.settleSeconds, p.minutes,
               p.junctionUncertainty, p.leadHalfWidth, site, id);
    });
  });
}

void Store::addInterval(const IntervalPolicy& interval) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    refuseSecond(connection, "interval_policy", "code", site, "interval policy", interval.code);
    const std::int64_t id = nextId(connection, "interval_policy", site);
    writeInterval(connection, site, id, interval);
    impl.enter({acts::kAdded, {"interval", {id}}, interval.code});
  });
}

void Store::changeInterval(const IntervalPolicy& interval) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    const IntervalPolicy& i = interval;
    const std::int64_t id = needId(connection, "interval_policy", "code", site, "interval policy", i.code);
    impl.enterChange({"interval", {id}}, [&] {
      connection
          .query(
              "UPDATE interval_policy SET policy = $1, days = $2, months = $3, minimum_days = $4, "
              "maximum_days = $5, lengthen = $6, shorten = $7, target = $8, confidence = $9, "
              "least_outcomes = $10 WHERE site = $11 AND id = $12")
          .run(text(i.kind), i.days, i.months, i.minimumDays, i.maximumDays, i.lengthen, i.shorten, i.target,
               i.confidence, i.leastOutcomes, site, id);
    });
  });
}

void Store::addChannel(const Channel& channel) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    refuseSecond(connection, "channel", "tag", site, "channel", channel.tag);
    const std::int64_t id = nextId(connection, "channel", site);
    writeChannel(connection, site, id, channel, placeId(connection, site, channel.place));
    writeRoutines(connection, site, id, channel.routines);
    impl.enter({acts::kAdded, {"channel", {id}}, channel.tag});
    for (const SetupVersion& setup : channel.setups) {
      writeSetup(connection, site, id, setup);
      impl.enter({acts::kAdded, {"setup", {id, setup.version}}, setup.remark});
    }
    std::int64_t fitting = 0;
    for (const Fitting& each : channel.fittings) {
      writeFitting(connection, site, id, ++fitting,
                   needId(connection, "sensor", "serial", site, "sensor", each.sensor), each);
      impl.enter({acts::kAdded, {"fitting", {id, fitting}}, each.sensor});
    }
  });
}

void Store::changeChannel(const Channel& channel) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    const std::int64_t id = needId(connection, "channel", "tag", site, "channel", channel.tag);
    const auto place = placeId(connection, site, channel.place);
    impl.enterChange({"channel", {id}}, [&] {
      connection
          .query(
              "UPDATE channel SET place = $1, terminal = $2, title = $3, retired = $4 WHERE site = $5 AND "
              "id = $6")
          .run(place, channel.terminal, channel.title, channel.retired, site, id);
      connection.query("DELETE FROM routine WHERE site = $1 AND channel = $2").run(site, id);
      writeRoutines(connection, site, id, channel.routines);
    });
  });
}

void Store::changeSite(const SiteInfo& info, const CalendarRules& calendar) {
  Impl& impl = *impl_;
  impl.editRegister([&](Connection& connection, std::string_view site) {
    impl.enterChange({"site", {}}, [&] {
      connection
          .query(
              "UPDATE site SET name = $1, address = $2, issuer = $3, issuer_address = $4, customer = $5, "
              "customer_contact = $6, note = $7, due_date_agreed = $8, working_weekdays = $9, "
              "due_soon_days = $10, grace_days = $11, early_days = $12 WHERE code = $13")
          .run(info.name, storedJson(info.address), info.issuer, storedJson(info.issuerAddress),
               info.customer, info.customerContact, info.note, info.dueDateAgreed,
               storedJson(calendar.workingWeekdays), calendar.dueSoonDays, calendar.graceDays,
               calendar.earlyDays, site);
      connection.query("DELETE FROM closed_days WHERE site = $1").run(site);
      writeClosedDays(connection, site, calendar.closed);
    });
  });
}

}  // namespace spanwright
