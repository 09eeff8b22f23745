// SPDX-License-Identifier: GPL-3.0-or-later
//
// One site's record on disk. Keeps, does not judge: what is handed in has already been checked and computed.
// Use a Store from one thread; several Stores (threads, programs) may have one file open.
// Any call may throw StorageError; "no such row" is an answer. Every call that writes is one transaction
// unless a Transaction is open, and is on disk when it returns (SQLite WAL, synchronous=FULL).
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/calibration.h"
#include "core/record/life.h"
#include "core/record/register.h"
#include "core/store/journal.h"
#include "core/store/keys.h"
#include "core/units/time.h"

namespace spanwright {

/// A visit being typed. Every value is on disk as soon as it was entered.
struct DraftValue {
  Phase phase = Phase::asFound;
  int sequence = 0;         ///< of the test point
  std::string appliedText;  ///< empty: the nominal value
  std::string indicatedText;
  std::string skipReason;
};
struct Draft {
  std::int64_t id = 0;
  std::string channel;
  Subject subject = Subject::channel;
  std::string person;
  Moment started;  ///< site local time
  int setupVersion = 0;
  std::vector<std::string> standards;
  Conditions conditions;
  bool cautionsConfirmed = false;
  Adjustment adjustment;
  std::string remarks;
  std::vector<DraftValue> values;
};

/// A certificate as it was last issued. Issued again after the calibration's signatures changed, it is a new
/// revision under the same number (ISO/IEC 17025:2017 7.8.8).
struct IssuedCertificate {
  std::string number;  ///< allotted once, for instance "LARK-2026-0014"
  CalibrationId calibration = 0;
  Moment issuedUtc;  ///< of the first revision
  int revision = 1;
  JournalHead journal;  ///< the entry that issued this revision
  Moment revisedUtc;    ///< of this revision
};

/// A person's key in force.
struct StoredKey {
  std::int64_t id = 0;
  std::string publicKey;  ///< Ed25519, 32 bytes
  KeyLock lock;
};

/// Wrong passphrases of one person since the last right one.
struct PassphraseTries {
  int wrong = 0;
  std::optional<Moment> lastUtc;  ///< of the last wrong one
};

/// A file kept in the record, about exactly one thing.
struct Attachment {
  std::int64_t id = 0;
  std::string standard, certificate;  ///< serial and number of a standard's certificate
  CalibrationId calibration = 0;
  std::string channel;
  std::string name;       ///< as the file was called
  std::string mediaType;  ///< "application/pdf"
  std::string note;
  std::string person;  ///< login; may be empty
  Moment addedUtc;
  Digest sha256;
  std::int64_t size = 0;
};

/// A list of channels to visit, in walking order.
struct RoundStop {
  std::string channel;
  Subject subject = Subject::channel;
};
struct Round {
  std::int64_t id = 0;
  std::string name, reason;
  std::string person;  ///< login; may be empty
  Moment madeUtc;
  std::optional<Moment> closedUtc;
  std::vector<RoundStop> stops;
};

/// What lists need of a calibration without its readings.
struct CalibrationSummary {
  CalibrationId id = 0;
  std::string channel;
  Subject subject = Subject::channel;
  int setupVersion = 0;
  std::string sensor;
  Moment performed;
  std::string person;
  bool adjusted = false;
  bool repaired = false;
  Verdict foundVerdict = Verdict::notJudged;
  Verdict leftVerdict = Verdict::notJudged;
  LifeState state = LifeState::recorded;
  Moment recordedUtc = {};
};

/// What a calibration proves, for whoever goes through all of them.
struct ProofRow {
  CalibrationId id = 0;
  std::size_t channel = 0;  ///< its place in the register's list
  Subject subject = Subject::channel;
  int setupVersion = 0;
  std::string_view sensor;  ///< serial; may be empty; lives as long as the call that hands it out
  Moment performed;
  Verdict leftVerdict = Verdict::notJudged;
};

/// A history row waiting to be grouped into visits during an import; kept in a private temporary database so
/// that memory does not grow with the file. `key` orders rows: rows of one visit share it.
struct StagedRow {
  std::string key;
  std::int64_t order = 0;  ///< position in the source
  std::string payload;     ///< the importer's own encoding
};

class Store {
 public:
  /// Makes a new record; StorageError when the file is already there. The register must have no
  /// registerFaults.
  static Store create(const std::filesystem::path& file, const Register& site,
                      const Clock& clock = systemClock());
  /// Opens an existing record, migrating an older one; refuses files that are not records, are damaged or
  /// were written by a newer program. `readOnly` never writes.
  enum class Mode { readWrite, readOnly };
  /// Which damage is looked for. `whole`: every page and reference of the file, which takes long when it is
  /// large. `head`: the head of the file and the register; whoever opens so, sees to it that checkWholeFile
  /// (core/store/verify.h) follows, and calls stopWriting when that finds something. A record that must be
  /// migrated is always checked whole before.
  enum class Check { whole, head };
  static Store open(const std::filesystem::path& file, Mode mode = Mode::readWrite,
                    const Clock& clock = systemClock(), Check check = Check::whole);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  /// Everything undone on destruction unless commit() was called. Not nested.
  class Transaction {
   public:
    explicit Transaction(Store& store);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

   private:
    Store* store_;
  };

  /// While it lives, everything is read as it was at one moment, the register too (it is read again),
  /// whatever others write. Not inside a Transaction, and nothing is written meanwhile.
  class Snapshot {
   public:
    explicit Snapshot(Store& store);
    ~Snapshot();
    Snapshot(const Snapshot&) = delete;
    Snapshot& operator=(const Snapshot&) = delete;

   private:
    Store* store_;
  };

  const std::filesystem::path& file() const;
  /// `tell` is called with true, once, when a call has waited half a second for another program that is
  /// writing, and with false when that wait is over. It runs inside the waiting call, on its thread, and must
  /// not use this Store.
  void onWaiting(std::function<void(bool waiting)> tell);
  const Clock& clock() const;  ///< the one it was opened with
  /// From now on every call that writes throws StorageError with this sentence; reading goes on.
  void stopWriting(std::string why);
  /// The whole register as last read. References into it live until the next call that changes the register,
  /// undoes such a change or refreshes: copy what must live longer.
  const Register& site() const;
  /// Another number after every change of the register.
  std::int64_t siteRevision() const;
  /// Reads the register again when another program changed it.
  void refresh();

  /// Whose name the journal gives to what is written from now on, where a call does not say itself; a login,
  /// or empty for the program.
  void actAs(std::string login);

  // Changes to the register; each keeps what was there and follows it with the new.
  /// Gives the setup the next version. InputError when it is not later than the newest, or impossible
  /// (setupFaults).
  void addSetup(std::string_view channel, const SetupVersion& setup);
  /// Ends the fitting before it, on this channel and of this sensor elsewhere. InputError when not later than
  /// it.
  void addFitting(std::string_view channel, const Fitting& fitting);
  /// InputError when the standard has a certificate of this number.
  void addStandardCertificate(std::string_view serial, const StandardCertificate& certificate);
  /// In force from its day on, instead of what held for the subject before; its id is given here. InputError
  /// when it has no length, no day, a day before that of the last one accepted for the subject, or no reason.
  void acceptInterval(std::string_view channel, const AcceptedInterval& accepted);
  /// The person works here no longer; what they signed stays. InputError when they left already.
  void setPersonLeft(std::string_view login, Date leftOn);
  void addStandardEvent(const StandardEvent& event);

  // Things of the register, added and changed; InputError when the name is taken, is not there, or something
  // named is not. What tells one from another (path apart) stays as it is. Judged by
  // core/tasks/register_changes.h.
  void addPlace(const Place& place);
  /// What lies within it is renamed with it.
  void changePlace(std::string_view path, const Place& place);
  void addPerson(const Person& person);
  /// Name, roles, hours and days away.
  void changePerson(const Person& person);
  void addStandard(const Standard& standard);  ///< without certificates
  void changeStandard(const Standard& standard);
  void addSensor(const Sensor& sensor);
  void changeSensor(const Sensor& sensor);
  void addPlan(const Plan& plan);
  void changePlan(const Plan& plan);
  void addInterval(const IntervalPolicy& interval);
  void changeInterval(const IntervalPolicy& interval);
  void addChannel(const Channel& channel);  ///< with its setups, fittings and routines
  /// Place, terminal, title, whether it is retired, and routines.
  void changeChannel(const Channel& channel);
  /// All but its code.
  void changeSite(const SiteInfo& info, const CalendarRules& calendar);

  // Calibrations.
  CalibrationId add(const Calibration& calibration);
  std::optional<Calibration> calibration(CalibrationId id) const;
  /// The calibration of this channel and subject performed at exactly this moment.
  std::optional<CalibrationId> findCalibration(std::string_view channel, Subject subject,
                                               Moment performed) const;
  /// The same of those that count: neither withdrawn nor superseded.
  std::optional<CalibrationId> standingCalibration(std::string_view channel, Subject subject,
                                                   Moment performed) const;
  std::vector<CalibrationSummary> calibrations(std::string_view channel) const;  ///< oldest first
  /// With readings, oldest first; those that count (neither withdrawn nor superseded).
  std::vector<Calibration> history(std::string_view channel) const;
  /// Every calibration that counts, with readings, by channel then oldest first; stops when `visit` says
  /// false.
  void forEachCalibration(const std::function<bool(const Calibration&)>& visit) const;
  /// Every calibration that proves (core/record/life.h), in no order; stops when `visit` says false. Much
  /// quicker than asking channel by channel.
  void forEachProof(const std::function<bool(const ProofRow&)>& visit) const;
  /// The latest calibration per (channel, subject, setup version, sensor) that proves and whose standing
  /// as-left passed.
  std::vector<CalibrationSummary> latestPassing() const;
  std::vector<CalibrationId> calibrationsUsing(std::string_view standardSerial) const;
  std::int64_t calibrationCount() const;
  std::int64_t readingCount() const;

  // Drafts.
  std::int64_t saveDraft(const Draft& draft);  ///< inserts (id 0) or replaces the header, not the values
  void saveDraftValue(std::int64_t draft, const DraftValue& value);
  std::vector<Draft> drafts() const;
  std::optional<Draft> draft(std::int64_t id) const;
  void removeDraft(std::int64_t id);

  // What becomes of calibrations. Nothing is judged here: core/tasks/signing.h does.
  /// Returns its id.
  std::int64_t addLifeEvent(const LifeEvent& event);
  std::vector<LifeEvent> life(CalibrationId calibration) const;  ///< oldest first
  LifeState state(CalibrationId calibration) const;
  /// Those waiting in this state, oldest first; recorded: visits entered of late and not signed by anybody.
  std::vector<CalibrationSummary> inState(LifeState state) const;
  /// Of the calibration's rows as they stand: what a signature is bound to. Needs the calibration to be
  /// there.
  Digest calibrationDigest(CalibrationId calibration) const;

  // Keys.
  std::optional<StoredKey> personKey(std::string_view login) const;
  /// A new key; `by` is whoever chose its passphrase.
  std::int64_t addKey(std::string_view login, std::string_view publicKey, const KeyLock& lock,
                      std::string_view by);
  /// The same key under another passphrase.
  void changeKeyLock(std::string_view login, std::int64_t key, const KeyLock& lock);
  void noteWrongPassphrase(std::string_view login);
  PassphraseTries passphraseTries(std::string_view login) const;
  /// The public half of any key a person ever had; empty when there is none.
  std::string publicKey(std::string_view login, std::int64_t key) const;

  // Attachments.
  /// InputError when it is about nothing that is there, or about more than one thing.
  std::int64_t addAttachment(const Attachment& attachment, std::string_view content);
  std::vector<Attachment> attachments() const;
  std::string attachmentContent(std::int64_t id) const;

  // Rounds.
  std::int64_t addRound(const Round& round);
  void closeRound(std::int64_t id);
  std::vector<Round> rounds() const;  ///< newest first

  // The journal.
  JournalHead journalHead() const;
  void forEachEntry(std::int64_t first, const std::function<bool(const JournalEntry&)>& visit) const;
  std::vector<JournalEntry> entriesAbout(const UnitKey& unit) const;
  /// A unit's rows as JSON (unitJson); empty when there are none.
  std::string unitRows(const UnitKey& unit) const;

  // Certificates: the number is allotted at first issue and stays.
  IssuedCertificate issueCertificate(CalibrationId calibration);
  std::optional<IssuedCertificate> issuedCertificate(CalibrationId calibration) const;
  /// An earlier revision of it, or the present one.
  std::optional<IssuedCertificate> issuedRevision(CalibrationId calibration, int revision) const;

  // Import staging.
  void stage(const StagedRow& row);
  /// Rows by key then order; stops when `visit` says false. Staged rows vanish with clearStaging or the
  /// Store.
  void forEachStaged(const std::function<bool(const StagedRow&)>& visit) const;
  std::int64_t stagedCount() const;
  void clearStaging();

 private:
  struct Impl;
  explicit Store(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace spanwright
