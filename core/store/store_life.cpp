// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Store's part about people's keys and what they sign.
#include <fmt/format.h>

#include <algorithm>

#include "core/store/calibration_rows.h"
#include "core/store/life_rows.h"
#include "core/store/store_impl.h"
#include "core/store/stored_forms.h"

namespace spanwright {
namespace {

/// What a signed act says to people who read the journal.
std::string detailOf(std::string_view what, std::string_view reason) {
  return reason.empty() ? std::string(what) : fmt::format("{}: {}", what, reason);
}

}  // namespace

void Store::actAs(std::string login) {
  impl_->actor = std::move(login);
}

void Store::setPersonLeft(std::string_view login, Date leftOn) {
  Impl& impl = *impl_;
  const auto person = [&]() -> Person& {
    for (Person& p : impl.loaded.site.people) {
      if (p.login == login) {
        return p;
      }
    }
    throw InputError(fmt::format("there is no person \"{}\" in the record", login), "check the login");
  };
  impl.changeRegister(
      [&] {
        if (const auto& left = person().leftOn) {
          throw InputError(fmt::format("{} left on {} already", login, formatDate(*left)),
                           "nothing needs changing");
        }
        const std::int64_t key = keyOrNone(impl.loaded.keys.people, login);
        impl.enterChange({"person", {key}}, [&] {
          impl.connection->query("UPDATE person SET left_on = $1 WHERE site = $2 AND id = $3")
              .run(stored(leftOn), impl.code(), key);
        });
      },
      [&] { person().leftOn = leftOn; });
}

void Store::addStandardEvent(const StandardEvent& event) {
  Impl& impl = *impl_;
  StandardEvent added = event;
  impl.changeRegister(
      [&] {
        added.id = writeStandardEvent(*impl.connection, impl.code(), impl.loaded.keys, event);
        impl.enter({acts::kSigned, {"standard event", {added.id}}, detailOf(text(event.act), event.reason)},
                   event.person);
      },
      [&] {
        for (Standard& standard : impl.loaded.site.standards) {
          if (standard.serial == event.standard) {
            standard.events.push_back(added);
          }
        }
      });
}

std::int64_t Store::addLifeEvent(const LifeEvent& event) {
  Impl& impl = *impl_;
  return impl.write([&] {
    const std::int64_t id = writeLifeEvent(*impl.connection, impl.code(), impl.loaded.keys, event);
    const std::string what =
        event.correction == 0
            ? fmt::format("calibration {} {}", event.calibration, text(event.act))
            : fmt::format("calibration {} {} by {}", event.calibration, text(event.act), event.correction);
    impl.enter({event.signature.empty() ? acts::kFollowed : acts::kSigned,
                {"life", {id}},
                detailOf(what, event.reason)},
               event.person);
    return id;
  });
}

std::vector<LifeEvent> Store::life(CalibrationId calibration) const {
  return readLife(*impl_->connection, impl_->code(), calibration);
}

LifeState Store::state(CalibrationId calibration) const {
  const auto events = life(calibration);
  return stateAfter(events);
}

std::vector<CalibrationSummary> Store::inState(LifeState state) const {
  return readInState(*impl_->connection, impl_->code(), state);
}

Digest Store::calibrationDigest(CalibrationId calibration) const {
  const auto unit = unitDigest(*impl_->connection, impl_->code(), {"calibration", {calibration}});
  if (!unit) {
    throw InputError(fmt::format("there is no calibration {} in the record", calibration),
                     "check its number");
  }
  return unit->digest;
}

std::optional<StoredKey> Store::personKey(std::string_view login) const {
  return readPersonKey(*impl_->connection, impl_->code(), keyOrNone(impl_->loaded.keys.people, login));
}

std::int64_t Store::addKey(std::string_view login, std::string_view publicKey, const KeyLock& lock,
                           std::string_view by) {
  Impl& impl = *impl_;
  return impl.write([&] {
    const Moment now = impl.clock->utcNow();
    const std::int64_t person = keyOf(impl.loaded.keys.people, "person", std::string(login));
    const std::int64_t key = writePersonKey(*impl.connection, impl.code(), person, publicKey, now);
    const std::int64_t lockId = writeKeyLock(*impl.connection, impl.code(), person, key, lock, now);
    impl.enter({acts::kAdded, {"key", {person, key}}, fmt::format("key {}", keyMark(publicKey))}, by);
    impl.enter({acts::kPassphraseSet,
                {"key lock", {person, key, lockId}},
                lock.mustChange ? "to be changed by its owner" : ""},
               login);
    return key;
  });
}

void Store::changeKeyLock(std::string_view login, std::int64_t key, const KeyLock& lock) {
  Impl& impl = *impl_;
  impl.write([&] {
    const std::int64_t person = keyOf(impl.loaded.keys.people, "person", std::string(login));
    const std::int64_t id =
        writeKeyLock(*impl.connection, impl.code(), person, key, lock, impl.clock->utcNow());
    impl.enter({acts::kPassphraseChanged, {"key lock", {person, key, id}}}, login);
  });
}

void Store::noteWrongPassphrase(std::string_view login) {
  Impl& impl = *impl_;
  impl.write([&] {
    const std::int64_t person = keyOf(impl.loaded.keys.people, "person", std::string(login));
    impl.enter({acts::kPassphraseWrong, {"person", {person}}, "", false}, login);
  });
}

PassphraseTries Store::passphraseTries(std::string_view login) const {
  // The words of the index journal_of_passphrases, so that years of other entries are not walked through.
  Query row = impl_->connection->query(
      "SELECT act, at_utc FROM journal WHERE site = $1 AND person = $2 AND act IN ('signed', 'passphrase "
      "set', "
      "'passphrase changed', 'passphrase wrong') ORDER BY entry DESC LIMIT 100");
  row.bind(impl_->code(), login);
  PassphraseTries tries;
  while (row.step() && row.textView(0) == acts::kPassphraseWrong) {
    ++tries.wrong;
    if (!tries.lastUtc) {
      tries.lastUtc = utcAt(row, 1);
    }
  }
  return tries;
}

std::string Store::publicKey(std::string_view login, std::int64_t key) const {
  Query row = impl_->connection->query(
      "SELECT public_key FROM person_key WHERE site = $1 AND person = $2 AND id = $3");
  row.bind(impl_->code(), keyOrNone(impl_->loaded.keys.people, login), key);
  return row.step() ? row.bytes(0) : std::string();
}

}  // namespace spanwright
