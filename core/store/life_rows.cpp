// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/life_rows.h"

#include <fmt/format.h>

#include "core/store/row_ids.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

std::optional<Bytes> bytesOrNull(const std::string& bytes) {
  return bytes.empty() ? std::nullopt : std::optional(Bytes{bytes});
}
std::optional<std::int64_t> numberOrNull(std::int64_t number) {
  return number == 0 ? std::nullopt : std::optional(number);
}

}  // namespace

std::int64_t writeLifeEvent(Connection& connection, std::string_view site, const Keys& keys,
                            const LifeEvent& event) {
  static const std::string kInsert = insertInto(
      "life_event", "site, id, calibration, act, person, at_utc, reason, correction, digest, key, signature");
  const std::int64_t id = nextId(connection, "life_event", site);
  connection.query(kInsert).run(site, id, event.calibration, text(event.act),
                                keyOf(keys.people, "person", event.person), storedUtc(event.atUtc),
                                event.reason, numberOrNull(event.correction), Bytes{event.digest},
                                numberOrNull(event.key), bytesOrNull(event.signature));
  return id;
}

std::vector<LifeEvent> readLife(Connection& connection, std::string_view site, CalibrationId calibration) {
  Query row = connection.query(
      "SELECT l.id, l.act, p.login, l.at_utc, l.reason, l.correction, l.digest, l.key, l.signature FROM "
      "life_event l "
      "JOIN person p ON p.site = l.site AND p.id = l.person WHERE l.site = $1 AND l.calibration = $2 ORDER "
      "BY l.id");
  row.bind(site, calibration);
  std::vector<LifeEvent> events;
  while (row.step()) {
    const auto act = parseLifeAct(row.textView(1));
    if (!act) {
      row.damaged(fmt::format("\"{}\" becomes of no calibration", row.text(1)));
    }
    events.push_back({row.integer(0), calibration, *act, row.text(2), utcAt(row, 3), row.text(4),
                      row.integer(5), row.bytes(6), row.integer(7), row.bytes(8)});
  }
  return events;
}

std::int64_t writePersonKey(Connection& connection, std::string_view site, std::int64_t person,
                            std::string_view publicKey, Moment nowUtc) {
  static const std::string kInsert = insertInto("person_key", "site, person, id, public_key, made_utc");
  Query next =
      connection.query("SELECT coalesce(max(id), 0) + 1 FROM person_key WHERE site = $1 AND person = $2");
  next.bind(site, person).step();
  const std::int64_t id = next.integer(0);
  connection.query(kInsert).run(site, person, id, Bytes{publicKey}, storedUtc(nowUtc));
  return id;
}

std::int64_t writeKeyLock(Connection& connection, std::string_view site, std::int64_t person,
                          std::int64_t key, const KeyLock& lock, Moment nowUtc) {
  static const std::string kInsert = insertInto(
      "key_lock", "site, person, key, id, salt, operations, memory, nonce, box, must_change, made_utc");
  Query next = connection.query(
      "SELECT coalesce(max(id), 0) + 1 FROM key_lock WHERE site = $1 AND person = $2 AND key = $3");
  next.bind(site, person, key).step();
  const std::int64_t id = next.integer(0);
  connection.query(kInsert).run(site, person, key, id, Bytes{lock.salt}, lock.cost.operations,
                                lock.cost.memory, Bytes{lock.nonce}, Bytes{lock.box}, lock.mustChange,
                                storedUtc(nowUtc));
  return id;
}

std::optional<StoredKey> readPersonKey(Connection& connection, std::string_view site, std::int64_t person) {
  Query row = connection.query(
      "SELECT k.id, k.public_key, l.salt, l.nonce, l.box, l.operations, l.memory, l.must_change FROM "
      "person_key k "
      "JOIN key_lock l ON l.site = k.site AND l.person = k.person AND l.key = k.id "
      "WHERE k.site = $1 AND k.person = $2 ORDER BY k.id DESC, l.id DESC LIMIT 1");
  if (!row.bind(site, person).step()) {
    return std::nullopt;
  }
  return StoredKey{
      row.integer(0), row.bytes(1),
      KeyLock{row.bytes(2), row.bytes(3), row.bytes(4), {row.integer(5), row.integer(6)}, row.flag(7)}};
}

std::int64_t writeStandardEvent(Connection& connection, std::string_view site, const Keys& keys,
                                const StandardEvent& event) {
  static const std::string kInsert =
      insertInto("standard_event",
                 "site, id, standard, act, first_day, last_day, person, at_utc, reason, key, signature");
  const std::int64_t id = nextId(connection, "standard_event", site);
  connection.query(kInsert).run(site, id, keyOf(keys.standards, "standard", event.standard), text(event.act),
                                stored(event.firstDay), stored(event.lastDay),
                                keyOf(keys.people, "person", event.person), storedUtc(event.atUtc),
                                event.reason, event.key, Bytes{event.signature});
  return id;
}

}  // namespace spanwright
