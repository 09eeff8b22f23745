// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/signing.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace spanwright {
namespace {

using boost::posix_time::hours;
using boost::posix_time::seconds;
using boost::posix_time::time_duration;

Moment wholeSeconds(Moment value) {
  return {value.date(), seconds(value.time_of_day().total_seconds())};
}

[[noreturn]] void refuse(const Problem& problem) {
  throw InputError({problem});
}

const Person& knownPerson(const Store& store, std::string_view login) {
  const Person* person = store.site().person(login);
  if (person == nullptr) {
    throw InputError(fmt::format("there is no person \"{}\" in the record", login), "check the login");
  }
  return *person;
}

/// Why this person does not work here, or nothing.
std::optional<Problem> absence(const Person* person, std::string_view login, Date today) {
  if (person == nullptr) {
    return Problem{{}, fmt::format("there is no person \"{}\" in the record", login), "check the login"};
  }
  if (person->leftOn && *person->leftOn <= today) {
    return Problem{{},
                   fmt::format("{} left on {}", login, formatDate(*person->leftOn)),
                   "let somebody do it who is here"};
  }
  return std::nullopt;
}

/// The person, who must still work here.
const Person& presentPerson(const Store& store, std::string_view login, Date today) {
  const Person* person = store.site().person(login);
  if (const auto absent = absence(person, login, today)) {
    refuse(*absent);
  }
  return *person;
}

bool hasRole(const Person& person, Role role) {
  return std::find(person.roles.begin(), person.roles.end(), role) != person.roles.end();
}

std::string waitText(const time_duration& wait) {
  const auto total = std::max<std::int64_t>(1, wait.total_seconds());
  return total < 120    ? fmt::format("{} seconds", total)
         : total < 7200 ? fmt::format("{} minutes", (total + 59) / 60)
                        : fmt::format("{} hours", (total + 3599) / 3600);
}

void refuseWhileWaiting(const Store& store, std::string_view login, Moment nowUtc) {
  const PassphraseTries tries = store.passphraseTries(login);
  if (const time_duration wait = waitingTime(tries, nowUtc); wait > seconds(0)) {
    throw InputError(fmt::format("the passphrase of {} was wrong {} times in a row, so none is tried for {}",
                                 login, tries.wrong, waitText(wait)),
                     tries.wrong >= kTriesUntilLock ? "ask an administrator for a new passphrase, or wait"
                                                    : "wait, then try again");
  }
}

struct Unlocked {
  std::int64_t key = 0;
  SecretKey secret;
};

/// The person's secret half. Not inside a transaction: a wrong passphrase must stay in the journal.
Unlocked unlockKey(Store& store, const Signer& signer, bool mayBeTemporary) {
  refuseWhileWaiting(store, signer.person, store.clock().utcNow());
  const auto stored = store.personKey(signer.person);
  if (!stored) {
    throw InputError(fmt::format("{} has no passphrase yet", signer.person), "set one first");
  }
  auto secret = [&] {
    try {
      return unlock(stored->lock, signer.passphrase);
    } catch (const std::runtime_error& error) {
      throw StorageError(fmt::format("The key of {} in {} cannot be used: {}; check the record with verify.",
                                     signer.person, quoted(store.file()), error.what()));
    }
  }();
  if (!secret) {
    store.noteWrongPassphrase(signer.person);
    throw InputError(fmt::format("the passphrase of {} is wrong", signer.person),
                     "type it again; that a wrong one was tried stands in the journal");
  }
  if (stored->lock.mustChange && !mayBeTemporary) {
    throw InputError(fmt::format("{} has a passphrase that somebody else chose", signer.person),
                     "change it with the passphrase command, then sign");
  }
  return {stored->id, std::move(*secret)};
}

void refuseBadPassphrase(std::string_view passphrase) {
  if (const auto fault = passphraseFault(passphrase)) {
    throw InputError(*fault, "choose another");
  }
}

/// Makes the first key of a person who has none.
void makeFirstKey(Store& store, const Signer& signer) {
  if (store.personKey(signer.person)) {
    return;
  }
  refuseBadPassphrase(signer.passphrase);
  const SecretKey secret = SecretKey::make();
  store.addKey(signer.person, secret.publicKey(), secret.lock(signer.passphrase, signer.cost), signer.person);
}

void requireAdministrator(const Store& store, std::string_view login, Date today) {
  if (!hasRole(presentPerson(store, login, today), Role::administrator)) {
    throw InputError(fmt::format("{} is not an administrator of this site", login),
                     "ask a person with the role of an administrator");
  }
}

}  // namespace

time_duration waitingTime(const PassphraseTries& tries, Moment nowUtc) {
  if (tries.wrong < kTriesWithoutWaiting || !tries.lastUtc) {
    return seconds(0);
  }
  const time_duration wait = tries.wrong >= kTriesUntilLock
                                 ? time_duration(hours(24))
                                 : time_duration(seconds(2L << (tries.wrong - kTriesWithoutWaiting)));
  // A clock set back must not lock anybody out for longer than that.
  const Moment since = std::min(*tries.lastUtc, nowUtc);
  return std::max(time_duration(seconds(0)), since + wait - nowUtc);
}

std::optional<std::string> passphraseFault(std::string_view passphrase) {
  const auto characters =
      static_cast<std::size_t>(std::count_if(passphrase.begin(), passphrase.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
      }));
  if (characters < kShortestPassphrase) {
    return fmt::format("the passphrase has fewer than {} characters", kShortestPassphrase);
  }
  if (characters > kLongestPassphrase) {
    return fmt::format("the passphrase has more than {} characters", kLongestPassphrase);
  }
  return std::nullopt;
}

LifeEvent signCalibration(Store& store, CalibrationId id, LifeAct act, const Signer& signer,
                          std::string_view reason) {
  const auto mayAct = [&](const Calibration& calibration) {
    return actFault(store.site(), calibration, store.life(id),
                    {act, signer.person, std::string(reason), store.clock().localNow().date()});
  };
  const auto known = [&] {
    auto calibration = store.calibration(id);
    if (!calibration) {
      throw InputError(fmt::format("there is no calibration {} in the record", id),
                       "give the number of one that \"show\" lists for its channel");
    }
    return *std::move(calibration);
  };
  // Asked before the passphrase is tried, so that nobody is told only afterwards.
  if (const auto fault = mayAct(known())) {
    refuse(*fault);
  }
  makeFirstKey(store, signer);
  const Unlocked key = unlockKey(store, signer, false);
  Store::Transaction transaction(store);
  const Calibration calibration = known();
  if (const auto fault = mayAct(calibration)) {
    refuse(*fault);  // somebody else signed in the meantime
  }
  LifeEvent event;
  event.calibration = id;
  event.act = act;
  event.person = signer.person;
  event.atUtc = wholeSeconds(store.clock().utcNow());
  event.reason = reason;
  event.digest = store.calibrationDigest(id).view();
  event.key = key.key;
  event.signature = key.secret.sign(signedText(store.site().site.code, event, key.secret.publicKey()));
  event.id = store.addLifeEvent(event);
  if (act == LifeAct::performed && calibration.corrects != 0) {
    supersedeCorrected(store, calibration);
  }
  transaction.commit();
  return event;
}

void supersedeCorrected(Store& store, const Calibration& correction) {
  const LifeState state = store.state(correction.corrects);
  if (!counts(state)) {
    return;
  }
  const bool signedUnder = state != LifeState::recorded && state != LifeState::sentBack;
  if (signedUnder && store.state(correction.id) == LifeState::recorded) {
    return;  // what people signed stands until somebody signs what replaces it
  }
  LifeEvent event;
  event.calibration = correction.corrects;
  event.act = LifeAct::superseded;
  event.person = correction.person;
  event.atUtc = wholeSeconds(store.clock().utcNow());
  event.reason = correction.correctionReason;
  event.correction = correction.id;
  event.digest = store.calibrationDigest(correction.corrects).view();
  store.addLifeEvent(event);
}

std::optional<Problem> decisionFault(const Register& site, const StandardEvent& wanted, Date today) {
  const auto fault = [](std::string what, std::string todo) {
    return Problem{{}, std::move(what), std::move(todo)};
  };
  const Person* person = site.person(wanted.person);
  if (auto absent = absence(person, wanted.person, today)) {
    return absent;
  }
  const Standard* standard = site.standard(wanted.standard);
  if (standard == nullptr) {
    return fault(fmt::format("there is no standard \"{}\" in the record", wanted.standard),
                 "check the serial number");
  }
  if (wanted.reason.find_first_not_of(" \t\r\n") == std::string::npos) {
    return fault(fmt::format("\"{}\" of standard {} needs a reason", text(wanted.act), wanted.standard),
                 "say why");
  }
  if (wanted.act != StandardAct::outOfService && !hasRole(*person, Role::reviewer)) {
    return fault(fmt::format("{} is not a reviewer of this site", person->login),
                 "ask a person with the role of a reviewer");
  }
  const StandardUse now = standardUse(*standard, wanted.firstDay.is_special() ? today : wanted.firstDay);
  const bool isOut = now.event != nullptr && now.event->act == StandardAct::outOfService;
  if ((wanted.act == StandardAct::outOfService && isOut) ||
      (wanted.act == StandardAct::backInService && !isOut)) {
    return fault(fmt::format("standard {} is {} service already", wanted.standard, isOut ? "out of" : "in"),
                 "nothing needs changing");
  }
  const bool allows = wanted.act == StandardAct::useAllowed;
  if (wanted.firstDay.is_special() ||
      (allows && (wanted.lastDay.is_special() || wanted.lastDay < wanted.firstDay))) {
    return fault(fmt::format("\"{}\" of standard {} has no proper days", text(wanted.act), wanted.standard),
                 allows ? "give the first and the last day" : "give the day");
  }
  if (allows && standard->certificates.empty()) {
    return fault(
        fmt::format("standard {} has no certificate at all, so nothing vouches for it", wanted.standard),
        "enter its certificate first");
  }
  return std::nullopt;
}

StandardEvent decideOnStandard(Store& store, StandardEvent wanted, const Signer& signer) {
  const Date today = store.clock().localNow().date();
  wanted.person = signer.person;
  const auto check = [&] {
    if (const auto fault = decisionFault(store.site(), wanted, today)) {
      refuse(*fault);
    }
  };
  check();
  makeFirstKey(store, signer);
  const Unlocked key = unlockKey(store, signer, false);
  Store::Transaction transaction(store);
  store.refresh();
  check();
  wanted.atUtc = wholeSeconds(store.clock().utcNow());
  wanted.key = key.key;
  wanted.signature = key.secret.sign(signedText(store.site().site.code, wanted, key.secret.publicKey()));
  store.addStandardEvent(wanted);
  transaction.commit();
  return wanted;
}

void changePassphrase(Store& store, const Signer& signer, std::string_view next) {
  presentPerson(store, signer.person, store.clock().localNow().date());
  refuseBadPassphrase(next);
  if (!store.personKey(signer.person)) {
    makeFirstKey(store, {signer.person, std::string(next), signer.cost});
    return;
  }
  if (next == signer.passphrase) {
    throw InputError("the new passphrase is the old one", "choose another");
  }
  const Unlocked key = unlockKey(store, signer, true);
  store.changeKeyLock(signer.person, key.key, key.secret.lock(next, signer.cost));
}

void resetPassphrase(Store& store, std::string_view person, std::string_view temporary,
                     const Signer& administrator) {
  const Date today = store.clock().localNow().date();
  presentPerson(store, person, today);
  requireAdministrator(store, administrator.person, today);
  if (person == administrator.person) {
    throw InputError(fmt::format("{} cannot reset their own passphrase", person),
                     "change it, or ask another administrator");
  }
  refuseBadPassphrase(temporary);
  makeFirstKey(store, administrator);
  unlockKey(store, administrator, false);
  const SecretKey secret = SecretKey::make();
  KeyLock lock = secret.lock(temporary, administrator.cost);
  lock.mustChange = true;
  store.addKey(person, secret.publicKey(), lock, administrator.person);
}

void setPersonLeft(Store& store, std::string_view person, Date leftOn, const Signer& administrator) {
  knownPerson(store, person);
  requireAdministrator(store, administrator.person, store.clock().localNow().date());
  makeFirstKey(store, administrator);
  unlockKey(store, administrator, false);
  store.actAs(administrator.person);
  store.setPersonLeft(person, leftOn);
}

std::vector<Signature> signatures(const Store& store, CalibrationId calibration) {
  std::vector<Signature> found;
  for (LifeEvent& event : store.life(calibration)) {
    const Person* person = store.site().person(event.person);
    const std::string key =
        event.key == 0 ? std::string() : keyMark(store.publicKey(event.person, event.key));
    found.push_back({std::move(event), person != nullptr ? person->name : event.person, key});
  }
  return found;
}

}  // namespace spanwright
