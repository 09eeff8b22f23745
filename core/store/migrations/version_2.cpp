// SPDX-License-Identifier: GPL-3.0-or-later
//
// Frozen: what version 2 adds to the tables.
//
// What holds besides, in every record, whoever writes to it:
// (6) The journal only grows; no entry is changed, deleted or replaced.
// (7) A person's key, what was signed with it, and what became of a calibration are never changed or deleted.
// (8) A calibration says when it is written which one it corrects, and never otherwise.
// (9) An attachment is never changed or deleted.
// (10) A round only ever gains its end.
#include "core/store/migrations/migrations.h"

namespace spanwright::migration {

const char* const kVersion2 = R"sql(
CREATE TABLE journal (
  site TEXT NOT NULL REFERENCES site (code),
  entry INTEGER NOT NULL CHECK (entry > 0),  -- 1, 2, 3 ... without gaps
  at_utc TEXT NOT NULL,
  person TEXT NOT NULL,               -- login; empty: the program
  act TEXT NOT NULL,
  unit TEXT NOT NULL,                 -- kind of thing it is about; empty: the record as a whole
  unit_key TEXT NOT NULL,
  digest BLOB,                        -- of the unit's rows as they stood after the act; NULL: rows untouched
  row_digests BLOB,                   -- the first eight bytes of each row's
  detail TEXT NOT NULL,
  hash BLOB NOT NULL,                 -- of the entry before it and of this one
  PRIMARY KEY (site, entry)
) STRICT, WITHOUT ROWID;
CREATE INDEX journal_by_unit ON journal (site, unit, unit_key, entry);
CREATE INDEX journal_of_passphrases ON journal (site, person, entry)
  WHERE act IN ('signed', 'passphrase set', 'passphrase changed', 'passphrase wrong');

CREATE TABLE person_key (
  site TEXT NOT NULL,
  person INTEGER NOT NULL,
  id INTEGER NOT NULL,
  public_key BLOB NOT NULL,           -- Ed25519
  made_utc TEXT NOT NULL,
  PRIMARY KEY (site, person, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT, WITHOUT ROWID;

-- The secret half of a key under a passphrase; the latest one counts.
CREATE TABLE key_lock (
  site TEXT NOT NULL,
  person INTEGER NOT NULL,
  key INTEGER NOT NULL,
  id INTEGER NOT NULL,
  salt BLOB NOT NULL,                 -- of Argon2id
  operations INTEGER NOT NULL,
  memory INTEGER NOT NULL,            -- bytes
  nonce BLOB NOT NULL,
  box BLOB NOT NULL,                  -- XSalsa20-Poly1305
  must_change INTEGER NOT NULL CHECK (must_change IN (0, 1)),
  made_utc TEXT NOT NULL,
  PRIMARY KEY (site, person, key, id),
  FOREIGN KEY (site, person, key) REFERENCES person_key (site, person, id)
) STRICT, WITHOUT ROWID;

-- What became of a calibration after it was recorded.
CREATE TABLE life_event (
  site TEXT NOT NULL,
  id INTEGER NOT NULL,
  calibration INTEGER NOT NULL,
  act TEXT NOT NULL CHECK (act IN ('performed', 'reviewed', 'approved', 'sent back', 'withdrawn', 'superseded')),
  person INTEGER NOT NULL,
  at_utc TEXT NOT NULL,
  reason TEXT NOT NULL,
  correction INTEGER,                 -- superseded: by which calibration
  digest BLOB NOT NULL,               -- of the calibration's rows
  key INTEGER,
  signature BLOB,                     -- Ed25519; NULL only for superseded, which follows from a signed or recorded act
  PRIMARY KEY (site, id),
  CHECK ((act = 'superseded') = (correction IS NOT NULL)),
  CHECK (act = 'superseded' OR (key IS NOT NULL AND signature IS NOT NULL)),
  FOREIGN KEY (site, calibration) REFERENCES calibration (site, id),
  FOREIGN KEY (site, correction) REFERENCES calibration (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id),
  FOREIGN KEY (site, person, key) REFERENCES person_key (site, person, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX life_event_by_calibration ON life_event (site, calibration, id);

CREATE TABLE correction (
  site TEXT NOT NULL,
  calibration INTEGER NOT NULL,
  corrects INTEGER NOT NULL,
  reason TEXT NOT NULL CHECK (reason <> ''),
  PRIMARY KEY (site, calibration),
  CHECK (corrects < calibration),
  FOREIGN KEY (site, calibration) REFERENCES calibration (site, id) DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (site, corrects) REFERENCES calibration (site, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX correction_by_corrected ON correction (site, corrects);

-- Out of service and back, and use allowed without a valid certificate.
CREATE TABLE standard_event (
  site TEXT NOT NULL,
  id INTEGER NOT NULL,
  standard INTEGER NOT NULL,
  act TEXT NOT NULL CHECK (act IN ('out of service', 'back in service', 'use allowed')),
  first_day TEXT NOT NULL,
  last_day TEXT,                      -- of an allowance
  person INTEGER NOT NULL,
  at_utc TEXT NOT NULL,
  reason TEXT NOT NULL CHECK (reason <> ''),
  key INTEGER NOT NULL,
  signature BLOB NOT NULL,
  PRIMARY KEY (site, id),
  CHECK ((act = 'use allowed') = (last_day IS NOT NULL)),
  FOREIGN KEY (site, standard) REFERENCES standard (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id),
  FOREIGN KEY (site, person, key) REFERENCES person_key (site, person, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE attachment (
  site TEXT NOT NULL,
  id INTEGER NOT NULL,
  standard INTEGER,
  certificate INTEGER,                -- of the standard
  calibration INTEGER,
  channel INTEGER,
  name TEXT NOT NULL,
  media_type TEXT NOT NULL,
  sha256 BLOB NOT NULL,
  content BLOB NOT NULL,
  note TEXT NOT NULL,
  person INTEGER,
  added_utc TEXT NOT NULL,
  PRIMARY KEY (site, id),
  CHECK ((standard IS NOT NULL) + (calibration IS NOT NULL) + (channel IS NOT NULL) = 1),
  CHECK ((standard IS NULL) = (certificate IS NULL)),
  FOREIGN KEY (site, standard, certificate) REFERENCES standard_certificate (site, standard, id),
  FOREIGN KEY (site, calibration) REFERENCES calibration (site, id),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT;

CREATE TABLE round (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  name TEXT NOT NULL,
  reason TEXT NOT NULL,
  person INTEGER,
  made_utc TEXT NOT NULL,
  closed_utc TEXT,
  PRIMARY KEY (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE round_stop (
  site TEXT NOT NULL,
  round INTEGER NOT NULL,
  id INTEGER NOT NULL,                -- in walking order
  channel INTEGER NOT NULL,
  subject TEXT NOT NULL CHECK (subject IN ('channel', 'sensor', 'loop')),
  PRIMARY KEY (site, round, id),
  FOREIGN KEY (site, round) REFERENCES round (site, id),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id)
) STRICT, WITHOUT ROWID;

-- Of mV of a couple, degC; NULL: they are emf referred to 0 degC.
ALTER TABLE calibration ADD COLUMN reference_junction REAL;
ALTER TABLE draft ADD COLUMN reference_junction REAL;

-- (6)
CREATE TRIGGER journal_not_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END;
CREATE TRIGGER journal_not_deleted BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never cut'); END;
CREATE TRIGGER journal_not_replaced BEFORE INSERT ON journal
WHEN EXISTS (SELECT 1 FROM journal j WHERE j.site = NEW.site AND j.entry >= NEW.entry)
BEGIN SELECT RAISE(ABORT, 'the journal only grows at its end'); END;

-- (7)
CREATE TRIGGER person_key_not_changed BEFORE UPDATE ON person_key
BEGIN SELECT RAISE(ABORT, 'a key is never changed, a new one follows it'); END;
CREATE TRIGGER person_key_not_deleted BEFORE DELETE ON person_key
BEGIN SELECT RAISE(ABORT, 'a key is never deleted, signatures rest on it'); END;
CREATE TRIGGER person_key_not_replaced BEFORE INSERT ON person_key
WHEN EXISTS (SELECT 1 FROM person_key k WHERE k.site = NEW.site AND k.person = NEW.person AND k.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'a key is never replaced, a new one follows it'); END;
CREATE TRIGGER key_lock_not_changed BEFORE UPDATE ON key_lock
BEGIN SELECT RAISE(ABORT, 'a passphrase is changed by a new row'); END;
CREATE TRIGGER key_lock_not_deleted BEFORE DELETE ON key_lock
BEGIN SELECT RAISE(ABORT, 'a passphrase is changed by a new row'); END;
CREATE TRIGGER key_lock_not_replaced BEFORE INSERT ON key_lock
WHEN EXISTS (SELECT 1 FROM key_lock k WHERE k.site = NEW.site AND k.person = NEW.person AND k.key = NEW.key AND
             k.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'a passphrase is changed by a new row'); END;
CREATE TRIGGER life_event_not_changed BEFORE UPDATE ON life_event
BEGIN SELECT RAISE(ABORT, 'what was signed is never changed'); END;
CREATE TRIGGER life_event_not_deleted BEFORE DELETE ON life_event
BEGIN SELECT RAISE(ABORT, 'what was signed is never deleted'); END;
CREATE TRIGGER life_event_not_replaced BEFORE INSERT ON life_event
WHEN EXISTS (SELECT 1 FROM life_event l WHERE l.site = NEW.site AND l.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'what was signed is never replaced'); END;
CREATE TRIGGER standard_event_not_changed BEFORE UPDATE ON standard_event
BEGIN SELECT RAISE(ABORT, 'what was signed is never changed'); END;
CREATE TRIGGER standard_event_not_deleted BEFORE DELETE ON standard_event
BEGIN SELECT RAISE(ABORT, 'what was signed is never deleted'); END;
CREATE TRIGGER standard_event_not_replaced BEFORE INSERT ON standard_event
WHEN EXISTS (SELECT 1 FROM standard_event e WHERE e.site = NEW.site AND e.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'what was signed is never replaced'); END;

-- (8)
CREATE TRIGGER correction_not_changed BEFORE UPDATE ON correction
BEGIN SELECT RAISE(ABORT, 'what a calibration corrects is never changed'); END;
CREATE TRIGGER correction_not_deleted BEFORE DELETE ON correction
BEGIN SELECT RAISE(ABORT, 'what a calibration corrects is never deleted'); END;
CREATE TRIGGER correction_not_added BEFORE INSERT ON correction
WHEN EXISTS (SELECT 1 FROM calibration c WHERE c.site = NEW.site AND c.id = NEW.calibration)
BEGIN SELECT RAISE(ABORT, 'a recorded calibration becomes no correction'); END;

-- (9)
CREATE TRIGGER attachment_not_changed BEFORE UPDATE ON attachment
BEGIN SELECT RAISE(ABORT, 'an attachment is never changed'); END;
CREATE TRIGGER attachment_not_deleted BEFORE DELETE ON attachment
BEGIN SELECT RAISE(ABORT, 'an attachment is never deleted'); END;
CREATE TRIGGER attachment_not_replaced BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM attachment a WHERE a.site = NEW.site AND a.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'an attachment is never replaced'); END;

-- (10)
CREATE TRIGGER round_not_changed BEFORE UPDATE OF site, id, name, reason, person, made_utc ON round
BEGIN SELECT RAISE(ABORT, 'a round only gains its end'); END;
CREATE TRIGGER round_not_opened_again BEFORE UPDATE OF closed_utc ON round
WHEN OLD.closed_utc IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a closed round stays closed'); END;
CREATE TRIGGER round_not_deleted BEFORE DELETE ON round
BEGIN SELECT RAISE(ABORT, 'a round is never deleted'); END;
CREATE TRIGGER round_not_replaced BEFORE INSERT ON round
WHEN EXISTS (SELECT 1 FROM round r WHERE r.site = NEW.site AND r.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'a round is never replaced'); END;
CREATE TRIGGER round_stop_not_changed BEFORE UPDATE ON round_stop
BEGIN SELECT RAISE(ABORT, 'the list of a round is never changed'); END;
CREATE TRIGGER round_stop_not_deleted BEFORE DELETE ON round_stop
BEGIN SELECT RAISE(ABORT, 'the list of a round is never changed'); END;

-- For people with another SQL tool.
CREATE VIEW calibration_state AS
SELECT c.site, c.id AS calibration,
       coalesce((SELECT l.act FROM life_event l WHERE l.site = c.site AND l.calibration = c.id
                 ORDER BY l.id DESC LIMIT 1), 'recorded') AS state
FROM calibration c;
)sql";

}  // namespace spanwright::migration
