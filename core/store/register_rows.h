// SPDX-License-Identifier: GPL-3.0-or-later
//
// The register as rows. Private to the store.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "core/record/register.h"
#include "core/store/sqlite_connection.h"

namespace spanwright {

/// From the names people use to the keys of the rows.
struct Keys {
  using Map = std::unordered_map<std::string, std::int64_t>;
  Map channels, sensors, standards, people, intervals;
};

/// The key of `name`; InputError "there is no <kind> "name" in the record" when there is none.
std::int64_t keyOf(const Keys::Map& keys, std::string_view kind, const std::string& name);
/// The same; nothing for an empty name.
std::optional<std::int64_t> optionalKeyOf(const Keys::Map& keys, std::string_view kind,
                                          const std::string& name);

struct LoadedRegister {
  Register site;
  Keys keys;
  std::int64_t revision = 0;
};

LoadedRegister loadRegister(Connection& connection);
std::int64_t registerRevision(Connection& connection);
void raiseRegisterRevision(Connection& connection);

/// Writes the whole register into empty tables. InputError when something refers to what is not there.
void writeRegister(Connection& connection, const Register& site, Moment createdUtc);

// Parts that are also added one by one. Of a person with the days away, of a standard without certificates,
// of a channel without what belongs to it.
void writePlace(Connection& connection, std::string_view site, std::int64_t id, const Place& place,
                std::optional<std::int64_t> parent);
void writePerson(Connection& connection, std::string_view site, std::int64_t id, const Person& person);
void writeStandard(Connection& connection, std::string_view site, std::int64_t id, const Standard& standard);
void writeSensor(Connection& connection, std::string_view site, std::int64_t id, const Sensor& sensor);
void writePlan(Connection& connection, std::string_view site, std::int64_t id, const Plan& plan);
void writeInterval(Connection& connection, std::string_view site, std::int64_t id,
                   const IntervalPolicy& interval);
void writeChannel(Connection& connection, std::string_view site, std::int64_t id, const Channel& channel,
                  std::optional<std::int64_t> place);
void writeRoutine(Connection& connection, std::string_view site, std::int64_t channel, std::int64_t id,
                  Subject subject, std::optional<std::int64_t> plan, std::optional<std::int64_t> interval);
void writeClosedDays(Connection& connection, std::string_view site, const std::vector<DayRange>& closed);
/// The rows of `person_away` that belong to the person.
void writeAway(Connection& connection, std::string_view site, std::int64_t person,
               const std::vector<DayRange>& away);
void writeSetup(Connection& connection, std::string_view site, std::int64_t channel,
                const SetupVersion& setup);
void writeFitting(Connection& connection, std::string_view site, std::int64_t channel, std::int64_t id,
                  std::int64_t sensor, const Fitting& fitting);
void writeStandardCertificate(Connection& connection, std::string_view site, std::int64_t standard,
                              std::int64_t id, const StandardCertificate& certificate);
/// Returns its id.
std::int64_t writeAcceptedInterval(Connection& connection, std::string_view site, const Keys& keys,
                                   std::string_view channel, const AcceptedInterval& accepted);

}  // namespace spanwright
