// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Store's part about attachments, rounds and the journal.
#include <fmt/format.h>

#include "core/store/row_ids.h"
#include "core/store/store_impl.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

/// The number of a standard's certificate among those of the standard.
std::int64_t certificateKey(Connection& connection, std::string_view site, std::int64_t standard,
                            const Attachment& attachment) {
  Query row = connection.query(
      "SELECT id FROM standard_certificate WHERE site = $1 AND standard = $2 AND number = $3");
  if (!row.bind(site, standard, attachment.certificate).step()) {
    throw InputError(fmt::format("standard {} has no certificate {} in the record", attachment.standard,
                                 attachment.certificate),
                     "check the number, or enter the certificate first");
  }
  return row.integer(0);
}

}  // namespace

std::int64_t Store::addAttachment(const Attachment& attachment, std::string_view content) {
  static const std::string kInsert = insertInto("attachment",
                                                "site, id, standard, certificate, calibration, channel, "
                                                "name, media_type, sha256, content, note, person, "
                                                "added_utc");
  Impl& impl = *impl_;
  const Attachment& a = attachment;
  if (int{!a.standard.empty()} + int{a.calibration != 0} + int{!a.channel.empty()} != 1) {
    throw InputError("an attachment is about one certificate of a standard, one calibration or one channel",
                     "name exactly one of them");
  }
  return impl.write([&] {
    const Keys& keys = impl.loaded.keys;
    const auto standard = optionalKeyOf(keys.standards, "standard", a.standard);
    const auto channel = optionalKeyOf(keys.channels, "channel", a.channel);
    const auto person = optionalKeyOf(keys.people, "person", a.person);
    std::optional<std::int64_t> certificate;
    if (standard) {
      certificate = certificateKey(*impl.connection, impl.code(), *standard, a);
    }
    if (a.calibration != 0 && !calibration(a.calibration)) {
      throw InputError(fmt::format("there is no calibration {} in the record", a.calibration),
                       "check its number");
    }
    const std::int64_t id = nextId(*impl.connection, "attachment", impl.code());
    impl.connection->query(kInsert).run(impl.code(), id, standard, certificate,
                                        a.calibration == 0 ? std::nullopt : std::optional(a.calibration),
                                        channel, a.name, a.mediaType, Bytes{sha256(content).view()},
                                        Bytes{content}, a.note, person, storedUtc(impl.clock->utcNow()));
    impl.enter({acts::kAdded, {"attachment", {id}}, a.name}, a.person);
    return id;
  });
}

std::vector<Attachment> Store::attachments() const {
  Query row = impl_->connection->query(
      "SELECT a.id, s.serial, c.number, a.calibration, h.tag, a.name, a.media_type, a.note, p.login, "
      "a.added_utc, "
      "a.sha256, length(a.content) FROM attachment a "
      "LEFT JOIN standard s ON s.site = a.site AND s.id = a.standard "
      "LEFT JOIN standard_certificate c ON c.site = a.site AND c.standard = a.standard AND c.id = "
      "a.certificate "
      "LEFT JOIN channel h ON h.site = a.site AND h.id = a.channel "
      "LEFT JOIN person p ON p.site = a.site AND p.id = a.person WHERE a.site = $1 ORDER BY a.id");
  row.bind(impl_->code());
  std::vector<Attachment> all;
  while (row.step()) {
    const auto digest = digestOf(row.bytesView(10));
    if (!digest) {
      row.damaged(fmt::format("attachment {} has no proper digest", row.integer(0)));
    }
    all.push_back({row.integer(0), row.text(1), row.text(2), row.integer(3), row.text(4), row.text(5),
                   row.text(6), row.text(7), row.text(8), utcAt(row, 9), *digest, row.integer(11)});
  }
  return all;
}

std::string Store::attachmentContent(std::int64_t id) const {
  Query row = impl_->connection->query("SELECT content, sha256 FROM attachment WHERE site = $1 AND id = $2");
  if (!row.bind(impl_->code(), id).step()) {
    throw InputError(fmt::format("there is no attachment {} in the record", id), "check its number");
  }
  if (sha256(row.bytesView(0)).view() != row.bytesView(1)) {
    row.damaged(fmt::format("attachment {} is not what was attached", id));
  }
  return row.bytes(0);
}

std::int64_t Store::addRound(const Round& round) {
  static const std::string kRound =
      insertInto("round", "site, id, name, reason, person, made_utc, closed_utc");
  static const std::string kStop = insertInto("round_stop", "site, round, id, channel, subject");
  Impl& impl = *impl_;
  if (round.stops.empty()) {
    throw InputError(fmt::format("the round \"{}\" has no channels", round.name), "name at least one");
  }
  return impl.write([&] {
    const std::int64_t id = nextId(*impl.connection, "round", impl.code());
    impl.connection->query(kRound).run(impl.code(), id, round.name, round.reason,
                                       optionalKeyOf(impl.loaded.keys.people, "person", round.person),
                                       storedUtc(impl.clock->utcNow()), nullptr);
    std::int64_t place = 0;
    for (const RoundStop& stop : round.stops) {
      impl.connection->query(kStop).run(impl.code(), id, ++place,
                                        keyOf(impl.loaded.keys.channels, "channel", stop.channel),
                                        stored(stop.subject));
    }
    impl.enter({acts::kAdded, {"round", {id}}, round.name}, round.person.empty() ? impl.actor : round.person);
    return id;
  });
}

void Store::closeRound(std::int64_t id) {
  Impl& impl = *impl_;
  impl.write([&] {
    Query open = impl.connection->query("SELECT closed_utc FROM round WHERE site = $1 AND id = $2");
    if (!open.bind(impl.code(), id).step()) {
      throw InputError(fmt::format("there is no round {} in the record", id), "check its number");
    }
    if (!open.isNull(0)) {
      throw InputError(fmt::format("round {} is closed already", id), "nothing needs changing");
    }
    impl.enterChange({"round", {id}}, [&] {
      impl.connection->query("UPDATE round SET closed_utc = $1 WHERE site = $2 AND id = $3")
          .run(storedUtc(impl.clock->utcNow()), impl.code(), id);
    });
  });
}

std::vector<Round> Store::rounds() const {
  Query row = impl_->connection->query(
      "SELECT r.id, r.name, r.reason, p.login, r.made_utc, r.closed_utc FROM round r "
      "LEFT JOIN person p ON p.site = r.site AND p.id = r.person WHERE r.site = $1 ORDER BY r.id DESC");
  row.bind(impl_->code());
  std::vector<Round> all;
  while (row.step()) {
    Round round{row.integer(0), row.text(1), row.text(2), row.text(3), utcAt(row, 4), {}, {}};
    if (!row.isNull(5)) {
      round.closedUtc = utcAt(row, 5);
    }
    Query stop = impl_->connection->query(
        "SELECT h.tag, s.subject FROM round_stop s JOIN channel h ON h.site = s.site AND h.id = s.channel "
        "WHERE s.site = $1 AND s.round = $2 ORDER BY s.id");
    stop.bind(impl_->code(), round.id);
    while (stop.step()) {
      round.stops.push_back({stop.text(0), subjectAt(stop, 1)});
    }
    all.push_back(std::move(round));
  }
  return all;
}

JournalHead Store::journalHead() const {
  return spanwright::journalHead(*impl_->connection, impl_->code());
}

void Store::forEachEntry(std::int64_t first, const std::function<bool(const JournalEntry&)>& visit) const {
  spanwright::forEachEntry(*impl_->connection, impl_->code(), first, visit);
}

std::vector<JournalEntry> Store::entriesAbout(const UnitKey& unit) const {
  return spanwright::entriesAbout(*impl_->connection, impl_->code(), unit);
}

std::string Store::unitRows(const UnitKey& unit) const {
  return unitJson(*impl_->connection, impl_->code(), unit);
}

}  // namespace spanwright
