// SPDX-License-Identifier: GPL-3.0-or-later
//
// The journal: everything done to the record, in order, each entry chained to the one before.
//
// An entry's content is the row of `journal` without its hash, written as covered.h says; its hash is
//     SHA-256( hash of the entry before ‖ SHA-256(content) )
// with 32 zero bytes before the first. So the hash of an entry stands for everything up to it, and a chain
// can be shown with the contents of some entries only and the content digests of the rest.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/covered.h"
#include "core/store/digest.h"
#include "core/units/time.h"

namespace spanwright {

/// Where the journal stands: printed on certificates, kept by whoever wants to prove later that nothing
/// before it was rewritten or cut off.
struct JournalHead {
  std::int64_t entry = 0;  ///< 0: nothing was written yet
  Digest hash;
  friend bool operator==(const JournalHead&, const JournalHead&) = default;
};

struct JournalEntry {
  std::int64_t entry = 0;
  Moment atUtc;
  std::string person;  ///< login; empty: the program
  std::string act;     ///< "recorded", "signed", "changed" ...
  std::string unit;    ///< covered.h; empty: the record as a whole
  std::string unitKey;
  std::optional<Digest> digest;
  std::string rowDigests;
  std::string detail;
  Digest hash;
};

/// What was done, as the store hands it to the journal.
struct Act {
  std::string_view act;
  UnitKey about;  ///< an empty unit: the record as a whole
  std::string detail = {};
  bool digested = true;  ///< false: nothing of the unit's rows was changed
};

namespace acts {
// Words of the record's form: they stay as they are.
inline constexpr std::string_view kMade = "record made";
inline constexpr std::string_view kTakenOver = "taken over";
inline constexpr std::string_view kAdded = "added";
inline constexpr std::string_view kChanged = "changed";
inline constexpr std::string_view kRecorded = "recorded";
inline constexpr std::string_view kAccepted = "accepted";
inline constexpr std::string_view kIssued = "issued";
inline constexpr std::string_view kSigned = "signed";
inline constexpr std::string_view kFollowed = "followed";
inline constexpr std::string_view kPassphraseSet = "passphrase set";
inline constexpr std::string_view kPassphraseChanged = "passphrase changed";
inline constexpr std::string_view kPassphraseWrong = "passphrase wrong";
inline constexpr std::string_view kClockBack = "clock went back";
}  // namespace acts

/// Appends to the journal of one record. Needs an open transaction that writes.
class Journal {
 public:
  Journal(Connection& connection, std::string site) : connection_(connection), site_(std::move(site)) {}

  /// A clock behind the last entry's is noted by an entry of its own before this one.
  JournalHead append(const Act& act, std::string_view person, Moment nowUtc);
  /// An entry for every unit there is of the kinds that `chosen` wants: of a new record, or of one from
  /// before there was a journal.
  void cover(std::string_view act, const std::function<bool(std::string_view unit)>& chosen,
             std::string_view person, Moment nowUtc);

 private:
  JournalHead write(const JournalHead& last, const Act& act, std::string_view person, Moment nowUtc);

  Connection& connection_;
  std::string site_;
};

JournalHead journalHead(Connection& connection, std::string_view site);
/// Entries from `first` on, in order; stops when `visit` says false.
void forEachEntry(Connection& connection, std::string_view site, std::int64_t first,
                  const std::function<bool(const JournalEntry&)>& visit);
/// Those about one unit, oldest first.
std::vector<JournalEntry> entriesAbout(Connection& connection, std::string_view site, const UnitKey& key);
/// The digest of an entry without its hash.
Digest contentDigest(std::string_view site, const JournalEntry& entry);

/// {"column": [before, after]} of every column that differs between two texts of unitJson, for `detail`.
std::string changeDetail(std::string_view before, std::string_view after);

/// "57:3f2a..." and back; nothing for a text that is none.
std::string headText(const JournalHead& head);
std::optional<JournalHead> parseHead(std::string_view text);

}  // namespace spanwright
