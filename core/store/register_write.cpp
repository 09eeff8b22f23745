// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/record/problem.h"
#include "core/store/register_rows.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

/// Writes the lists of one register; rows are numbered from 1 in the order of the lists.
class RegisterWriter {
 public:
  RegisterWriter(Connection& connection, const Register& site) : connection_(connection), site_(site) {}

  void write(Moment createdUtc) {
    writeSite(createdUtc);
    writePlaces();
    writePeople();
    writeStandards();
    writeSensors();
    writePlans();
    writeIntervals();
    writeChannels();
  }

 private:
  const std::string& code() const { return site_.site.code; }

  void writeSite(Moment createdUtc) {
    static const std::string kSite = insertInto(
        "site",
        "code, name, address, issuer, issuer_address, customer, customer_contact, note, due_date_agreed, "
        "working_weekdays, due_soon_days, grace_days, register_revision, created_utc, created_by, "
        "early_days");
    const SiteInfo& s = site_.site;
    const CalendarRules& c = site_.calendar;
    connection_.query(kSite).run(s.code, s.name, storedJson(s.address), s.issuer, storedJson(s.issuerAddress),
                                 s.customer, s.customerContact, s.note, s.dueDateAgreed,
                                 storedJson(c.workingWeekdays), c.dueSoonDays, c.graceDays, 1,
                                 storedUtc(createdUtc), "spanwright " SPANWRIGHT_VERSION, c.earlyDays);
    writeClosedDays(connection_, code(), c.closed);
  }

  void writePlaces() {
    for (const Place& place : site_.places) {
      places_.emplace(place.path, std::ssize(places_) + 1);
    }
    for (const Place& place : site_.places) {
      writePlace(connection_, code(), places_.at(place.path), place,
                 optionalKeyOf(places_, "place", place.parentPath));
    }
  }

  void writePeople() {
    std::int64_t id = 0;
    for (const Person& person : site_.people) {
      writePerson(connection_, code(), ++id, person);
    }
  }

  void writeStandards() {
    std::int64_t id = 0;
    for (const Standard& s : site_.standards) {
      writeStandard(connection_, code(), ++id, s);
      std::int64_t certificate = 0;
      for (const StandardCertificate& c : s.certificates) {
        writeStandardCertificate(connection_, code(), id, ++certificate, c);
      }
    }
  }

  void writeSensors() {
    for (const Sensor& s : site_.sensors) {
      const std::int64_t id = std::ssize(sensors_) + 1;
      writeSensor(connection_, code(), id, s);
      sensors_.emplace(s.serial, id);
    }
  }

  void writePlans() {
    for (const Plan& p : site_.plans) {
      const std::int64_t id = std::ssize(plans_) + 1;
      writePlan(connection_, code(), id, p);
      plans_.emplace(p.code, id);
    }
  }

  void writeIntervals() {
    for (const IntervalPolicy& i : site_.intervals) {
      const std::int64_t id = std::ssize(intervals_) + 1;
      writeInterval(connection_, code(), id, i);
      intervals_.emplace(i.code, id);
    }
  }

  void writeChannels() {
    std::int64_t id = 0;
    for (const Channel& channel : site_.channels) {
      writeChannel(connection_, code(), ++id, channel, optionalKeyOf(places_, "place", channel.place));
      for (const SetupVersion& setup : channel.setups) {
        writeSetup(connection_, code(), id, setup);
      }
      std::int64_t fitting = 0;
      for (const Fitting& f : channel.fittings) {
        writeFitting(connection_, code(), id, ++fitting, keyOf(sensors_, "sensor", f.sensor), f);
      }
      std::int64_t routine = 0;
      for (const Routine& r : channel.routines) {
        writeRoutine(connection_, code(), id, ++routine, r.subject, optionalKeyOf(plans_, "plan", r.plan),
                     optionalKeyOf(intervals_, "interval", r.interval));
      }
    }
  }

  Connection& connection_;
  const Register& site_;
  Keys::Map places_, sensors_, plans_, intervals_;
};

}  // namespace

std::int64_t keyOf(const Keys::Map& keys, std::string_view kind, const std::string& name) {
  const auto found = keys.find(name);
  if (found == keys.end()) {
    throw InputError(fmt::format("there is no {} \"{}\" in the record", kind, name),
                     "check the name, or put it into the site's description first");
  }
  return found->second;
}

std::optional<std::int64_t> optionalKeyOf(const Keys::Map& keys, std::string_view kind,
                                          const std::string& name) {
  if (name.empty()) {
    return std::nullopt;
  }
  return keyOf(keys, kind, name);
}

void writeRegister(Connection& connection, const Register& site, Moment createdUtc) {
  RegisterWriter(connection, site).write(createdUtc);
}

void writeSetup(Connection& connection, std::string_view site, std::int64_t channel,
                const SetupVersion& setup) {
  static const std::string kSetup = insertInto(
      "channel_setup", "site, channel, version, in_force_from, kind, parameters, filter_seconds, remark");
  const StoredSetup form = storedSetup(setup.setup.kind);
  connection.query(kSetup).run(site, channel, setup.version, stored(setup.inForceFrom), form.kind,
                               form.parameters, setup.setup.filterSeconds, setup.remark);
}

void writeFitting(Connection& connection, std::string_view site, std::int64_t channel, std::int64_t id,
                  std::int64_t sensor, const Fitting& fitting) {
  static const std::string kFitting =
      insertInto("fitting", "site, channel, id, sensor, fitted_from, fitted_until");
  connection.query(kFitting).run(site, channel, id, sensor, stored(fitting.from),
                                 fitting.until ? stored(*fitting.until) : std::nullopt);
}

void writeStandardCertificate(Connection& connection, std::string_view site, std::int64_t standard,
                              std::int64_t id, const StandardCertificate& certificate) {
  static const std::string kCertificate = insertInto(
      "standard_certificate",
      "site, standard, id, number, issuer, traceability, issued, valid_from, valid_until, coverage_factor");
  static const std::string kRange =
      insertInto("standard_range", "site, standard, certificate, id, unit, resolution");
  static const std::string kPoint =
      insertInto("standard_point", "site, standard, certificate, range, id, nominal, error, uncertainty");
  const StandardCertificate& c = certificate;
  connection.query(kCertificate)
      .run(site, standard, id, c.number, c.issuer, c.traceability, stored(c.issued), stored(c.validFrom),
           stored(c.validUntil), c.coverageFactor);
  std::int64_t range = 0;
  for (const CertificateRange& r : c.ranges) {
    connection.query(kRange).run(site, standard, id, ++range, stored(r.unit), r.resolution);
    std::int64_t point = 0;
    for (const CertificatePoint& p : r.points) {
      connection.query(kPoint).run(site, standard, id, range, ++point, p.nominal, p.error, p.uncertainty);
    }
  }
}

std::int64_t writeAcceptedInterval(Connection& connection, std::string_view site, const Keys& keys,
                                   std::string_view channel, const AcceptedInterval& accepted) {
  static const std::string kInsert =
      insertInto("accepted_interval",
                 "site, id, channel, subject, days, months, from_day, interval_policy, proposed_days, "
                 "evidence, person, at_utc, reason");
  Query next = connection.query("SELECT coalesce(max(id), 0) + 1 FROM accepted_interval WHERE site = $1");
  next.bind(site).step();
  const std::int64_t id = next.integer(0);
  const AcceptedInterval& a = accepted;
  connection.query(kInsert).run(site, id, keyOf(keys.channels, "channel", std::string(channel)),
                                stored(a.subject), a.days, a.months, stored(a.fromDay),
                                keyOf(keys.intervals, "interval", a.policy), a.proposedDays, a.evidence,
                                keyOf(keys.people, "person", a.person), storedUtc(a.atUtc), a.reason);
  return id;
}

void raiseRegisterRevision(Connection& connection) {
  connection.query("UPDATE site SET register_revision = register_revision + 1").run();
}

}  // namespace spanwright
