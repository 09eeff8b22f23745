// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing: who may do what, with which passphrase, and what follows.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/life.h"
#include "core/store/store.h"

namespace spanwright {

/// A person about to sign. Where no key is in force yet, the first signature makes one under this passphrase
/// (typed twice, which the front end sees to).
struct Signer {
  std::string person;  ///< login
  std::string passphrase;
  KeyCost cost = {};  ///< of a key made now
};

/// Shortest passphrase taken, in characters (NIST SP 800-63B 5.1.1.2: at least 8), and the longest.
inline constexpr std::size_t kShortestPassphrase = 8;
inline constexpr std::size_t kLongestPassphrase = 200;
/// After so many wrong passphrases in a row each further try has to wait twice as long as the one before,
/// from two seconds on (common practice, no source).
inline constexpr int kTriesWithoutWaiting = 3;
/// After so many no try is taken for a day, unless an administrator sets a new passphrase (common practice,
/// no source).
inline constexpr int kTriesUntilLock = 10;

/// How long from `nowUtc` no passphrase of this person is tried; zero: not at all.
boost::posix_time::time_duration waitingTime(const PassphraseTries& tries, Moment nowUtc);

/// What keeps a passphrase from being used as a new one, a clause, or nothing.
std::optional<std::string> passphraseFault(std::string_view passphrase);

/// Signs; returns what was stored. InputError when the person may not (actFault), the passphrase is wrong
/// (noted in the journal), must be changed first, or is not tried yet. What a correction replaces is
/// superseded with its `performed`.
LifeEvent signCalibration(Store& store, CalibrationId calibration, LifeAct act, const Signer& signer,
                          std::string_view reason);

/// Why `wanted.person` may not decide so about the standard today, or nothing.
std::optional<Problem> decisionFault(const Register& site, const StandardEvent& wanted, Date today);

/// Takes a standard out of service, brings it back, or allows its use without a valid certificate; a
/// reviewer's act, but anybody with a key may take a standard out of service. InputError as above.
StandardEvent decideOnStandard(Store& store, StandardEvent wanted, const Signer& signer);

/// A person's own change of passphrase; makes the first key when there is none (then `old` is not looked at).
void changePassphrase(Store& store, const Signer& signer, std::string_view next);
/// An administrator, who signs with their own passphrase, gives a person a new key under a passphrase that
/// must be changed before it signs; for who forgot theirs. Signatures made before stay valid.
void resetPassphrase(Store& store, std::string_view person, std::string_view temporary,
                     const Signer& administrator);

/// Ends a person's time here, by an administrator.
void setPersonLeft(Store& store, std::string_view person, Date leftOn, const Signer& administrator);

/// After a correction was recorded or signed: its calibration's place is taken once nobody's signature stands
/// under the corrected one, or the correction itself is signed. Needs an open transaction.
void supersedeCorrected(Store& store, const Calibration& correction);

/// A calibration's signatures as people read them.
struct Signature {
  LifeEvent event;
  std::string name;     ///< the person's
  std::string keyMark;  ///< of the key that signed
};
std::vector<Signature> signatures(const Store& store, CalibrationId calibration);

}  // namespace spanwright
