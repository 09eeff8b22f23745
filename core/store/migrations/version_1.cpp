// SPDX-License-Identifier: GPL-3.0-or-later
//
// Frozen: the tables of version 1.
//
// What holds in every record, whoever writes to it:
// (1) A setup is never changed or deleted; another version follows it.
// (2) A calibration is closed by its own row, which is written after its readings and standards. From then on
//     neither it nor they are changed, deleted, replaced or added to.
// (3) An issued certificate keeps its number, its calibration and its moment.
// (4) A fitting only ever gains its end.
// (5) A standard's certificate is never changed or deleted.
// Every key begins with the site, so that tables can be divided by site.
#include "core/store/migrations/migrations.h"

namespace spanwright::migration {

const char* const kVersion1 = R"sql(
CREATE TABLE site (
  code TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL,
  address TEXT NOT NULL,              -- JSON list of lines
  issuer TEXT NOT NULL,
  issuer_address TEXT NOT NULL,       -- JSON list of lines
  customer TEXT NOT NULL,
  customer_contact TEXT NOT NULL,
  note TEXT NOT NULL,
  due_date_agreed INTEGER NOT NULL CHECK (due_date_agreed IN (0, 1)),
  working_weekdays TEXT NOT NULL,     -- JSON list, 0 Sunday .. 6 Saturday
  due_soon_days INTEGER NOT NULL,
  grace_days INTEGER NOT NULL,
  register_revision INTEGER NOT NULL, -- grows with every change of the register
  created_utc TEXT NOT NULL,
  created_by TEXT NOT NULL            -- program and version
) STRICT;

CREATE TABLE closed_days (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  first_day TEXT NOT NULL,
  last_day TEXT NOT NULL,
  name TEXT NOT NULL,
  PRIMARY KEY (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE place (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  path TEXT NOT NULL,
  name TEXT NOT NULL,
  parent INTEGER,
  walking_order INTEGER NOT NULL,
  PRIMARY KEY (site, id),
  UNIQUE (site, path),
  FOREIGN KEY (site, parent) REFERENCES place (site, id) DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE person (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  login TEXT NOT NULL,
  name TEXT NOT NULL,
  roles TEXT NOT NULL,                -- JSON list
  left_on TEXT,
  PRIMARY KEY (site, id),
  UNIQUE (site, login)
) STRICT, WITHOUT ROWID;

CREATE TABLE standard (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  serial TEXT NOT NULL,
  maker TEXT NOT NULL,
  model TEXT NOT NULL,
  description TEXT NOT NULL,
  location TEXT NOT NULL,
  PRIMARY KEY (site, id),
  UNIQUE (site, serial)
) STRICT, WITHOUT ROWID;

CREATE TABLE standard_certificate (
  site TEXT NOT NULL,
  standard INTEGER NOT NULL,
  id INTEGER NOT NULL,
  number TEXT NOT NULL,
  issuer TEXT NOT NULL,
  traceability TEXT NOT NULL,
  issued TEXT NOT NULL,
  valid_from TEXT NOT NULL,
  valid_until TEXT NOT NULL,
  coverage_factor REAL NOT NULL,
  PRIMARY KEY (site, standard, id),
  UNIQUE (site, standard, number),
  FOREIGN KEY (site, standard) REFERENCES standard (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE standard_range (
  site TEXT NOT NULL,
  standard INTEGER NOT NULL,
  certificate INTEGER NOT NULL,
  id INTEGER NOT NULL,
  unit TEXT NOT NULL,
  resolution REAL NOT NULL,
  PRIMARY KEY (site, standard, certificate, id),
  FOREIGN KEY (site, standard, certificate) REFERENCES standard_certificate (site, standard, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE standard_point (
  site TEXT NOT NULL,
  standard INTEGER NOT NULL,
  certificate INTEGER NOT NULL,
  range INTEGER NOT NULL,
  id INTEGER NOT NULL,
  nominal REAL NOT NULL,
  error REAL NOT NULL,
  uncertainty REAL NOT NULL,
  PRIMARY KEY (site, standard, certificate, range, id),
  FOREIGN KEY (site, standard, certificate, range) REFERENCES standard_range (site, standard, certificate, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE sensor (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  serial TEXT NOT NULL,
  maker TEXT NOT NULL,
  model TEXT NOT NULL,
  description TEXT NOT NULL,
  range TEXT NOT NULL,                -- JSON
  PRIMARY KEY (site, id),
  UNIQUE (site, serial)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  code TEXT NOT NULL,
  revision TEXT NOT NULL,
  title TEXT NOT NULL,
  procedure TEXT NOT NULL,
  scheme TEXT NOT NULL,               -- JSON
  tolerance TEXT NOT NULL,            -- JSON
  adjust_limit REAL NOT NULL,
  decision_rule TEXT NOT NULL,
  cautions TEXT NOT NULL,             -- JSON list
  settle_seconds REAL NOT NULL,
  minutes REAL NOT NULL,
  PRIMARY KEY (site, id),
  UNIQUE (site, code)
) STRICT, WITHOUT ROWID;

CREATE TABLE interval_policy (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  code TEXT NOT NULL,
  policy TEXT NOT NULL,
  days INTEGER NOT NULL,
  months INTEGER NOT NULL,
  minimum_days INTEGER NOT NULL,
  maximum_days INTEGER NOT NULL,
  PRIMARY KEY (site, id),
  UNIQUE (site, code)
) STRICT, WITHOUT ROWID;

CREATE TABLE channel (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  tag TEXT NOT NULL,
  place INTEGER,
  terminal TEXT NOT NULL,
  title TEXT NOT NULL,
  retired INTEGER NOT NULL CHECK (retired IN (0, 1)),
  PRIMARY KEY (site, id),
  UNIQUE (site, tag),
  FOREIGN KEY (site, place) REFERENCES place (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE channel_setup (
  site TEXT NOT NULL,
  channel INTEGER NOT NULL,
  version INTEGER NOT NULL CHECK (version > 0),
  in_force_from TEXT NOT NULL,        -- site local time
  kind TEXT NOT NULL,
  parameters TEXT NOT NULL,           -- JSON, keys by kind
  filter_seconds REAL NOT NULL,
  remark TEXT NOT NULL,
  PRIMARY KEY (site, channel, version),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE fitting (
  site TEXT NOT NULL,
  channel INTEGER NOT NULL,
  id INTEGER NOT NULL,
  sensor INTEGER NOT NULL,
  fitted_from TEXT NOT NULL,
  fitted_until TEXT,
  PRIMARY KEY (site, channel, id),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id),
  FOREIGN KEY (site, sensor) REFERENCES sensor (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE routine (
  site TEXT NOT NULL,
  channel INTEGER NOT NULL,
  id INTEGER NOT NULL,
  subject TEXT NOT NULL CHECK (subject IN ('channel', 'sensor', 'loop')),
  plan INTEGER,
  interval_policy INTEGER,
  PRIMARY KEY (site, channel, id),
  UNIQUE (site, channel, subject),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id),
  FOREIGN KEY (site, plan) REFERENCES plan (site, id),
  FOREIGN KEY (site, interval_policy) REFERENCES interval_policy (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE calibration (
  site TEXT NOT NULL,
  id INTEGER NOT NULL,
  channel INTEGER NOT NULL,
  subject TEXT NOT NULL CHECK (subject IN ('channel', 'sensor', 'loop')),
  setup_version INTEGER,
  sensor INTEGER,
  plan TEXT NOT NULL,                 -- code and revision as they were then
  plan_revision TEXT NOT NULL,
  performed TEXT NOT NULL,            -- site local time
  person INTEGER NOT NULL,
  temperature REAL,                   -- degC
  humidity REAL,                      -- % relative
  conditions_note TEXT NOT NULL,
  cautions_confirmed INTEGER NOT NULL CHECK (cautions_confirmed IN (0, 1)),
  adjusted INTEGER NOT NULL CHECK (adjusted IN (0, 1)),
  repaired INTEGER NOT NULL CHECK (repaired IN (0, 1)),
  adjustment TEXT NOT NULL,
  found_verdict TEXT NOT NULL CHECK (found_verdict IN ('pass', 'fail', 'not judged')),
  left_verdict TEXT NOT NULL CHECK (left_verdict IN ('pass', 'fail', 'not judged')),
  remarks TEXT NOT NULL,
  source TEXT NOT NULL,
  recorded_utc TEXT NOT NULL,
  readings INTEGER NOT NULL,          -- how many rows of reading it has
  PRIMARY KEY (site, id),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id),
  FOREIGN KEY (site, channel, setup_version) REFERENCES channel_setup (site, channel, version),
  FOREIGN KEY (site, sensor) REFERENCES sensor (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX calibration_by_channel ON calibration (site, channel, performed, subject);

CREATE TABLE calibration_standard (
  site TEXT NOT NULL,
  calibration INTEGER NOT NULL,
  id INTEGER NOT NULL,
  standard INTEGER NOT NULL,
  certificate TEXT NOT NULL,          -- number of the certificate valid on the day
  PRIMARY KEY (site, calibration, id),
  FOREIGN KEY (site, calibration) REFERENCES calibration (site, id) DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (site, standard) REFERENCES standard (site, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX calibration_standard_by_standard ON calibration_standard (site, standard, calibration);

CREATE TABLE reading (
  site TEXT NOT NULL,
  calibration INTEGER NOT NULL,
  phase TEXT NOT NULL CHECK (phase IN ('as found', 'as left')),
  sequence INTEGER NOT NULL,          -- of the test point, in the order done
  role TEXT NOT NULL,
  percent REAL NOT NULL,              -- nominal, % of span
  direction TEXT NOT NULL CHECK (direction IN ('none', 'up', 'down')),
  run INTEGER NOT NULL,
  alarm TEXT,
  label TEXT NOT NULL,
  nominal_applied REAL NOT NULL,      -- in applied_unit
  applied REAL,
  applied_unit TEXT NOT NULL,
  applied_text TEXT NOT NULL,         -- as typed or imported
  indicated REAL,
  indicated_unit TEXT NOT NULL,
  indicated_text TEXT NOT NULL,
  skip_reason TEXT NOT NULL,          -- not empty: skipped, applied and indicated are NULL
  expected REAL,                      -- this and what follows in indicated_unit; NULL when it could not be told
  limit_low REAL,                     -- lowest error allowed, NULL: open
  limit_high REAL,
  uncertainty REAL,                   -- expanded
  coverage REAL NOT NULL,
  verdict TEXT NOT NULL CHECK (verdict IN ('pass', 'fail', 'not judged')),
  within_one_step INTEGER NOT NULL CHECK (within_one_step IN (0, 1)),
  floored INTEGER NOT NULL CHECK (floored IN (0, 1)),
  PRIMARY KEY (site, calibration, phase, sequence),
  CHECK (skip_reason <> '' OR (applied IS NOT NULL AND indicated IS NOT NULL)),
  FOREIGN KEY (site, calibration) REFERENCES calibration (site, id) DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE issued_certificate (
  site TEXT NOT NULL,
  year INTEGER NOT NULL,
  running INTEGER NOT NULL,
  number TEXT NOT NULL,
  calibration INTEGER NOT NULL,
  issued_utc TEXT NOT NULL,
  revision INTEGER NOT NULL,
  PRIMARY KEY (site, year, running),
  UNIQUE (site, number),
  UNIQUE (site, calibration),
  FOREIGN KEY (site, calibration) REFERENCES calibration (site, id)
) STRICT, WITHOUT ROWID;

-- Drafts are the one thing that may change and go.
CREATE TABLE draft (
  site TEXT NOT NULL,
  id INTEGER NOT NULL,
  channel INTEGER NOT NULL,
  subject TEXT NOT NULL CHECK (subject IN ('channel', 'sensor', 'loop')),
  person INTEGER,
  started TEXT,
  setup_version INTEGER NOT NULL,
  temperature REAL,
  humidity REAL,
  conditions_note TEXT NOT NULL,
  cautions_confirmed INTEGER NOT NULL CHECK (cautions_confirmed IN (0, 1)),
  adjusted INTEGER NOT NULL CHECK (adjusted IN (0, 1)),
  repaired INTEGER NOT NULL CHECK (repaired IN (0, 1)),
  adjustment TEXT NOT NULL,
  remarks TEXT NOT NULL,
  PRIMARY KEY (site, id),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE draft_standard (
  site TEXT NOT NULL,
  draft INTEGER NOT NULL,
  id INTEGER NOT NULL,
  standard INTEGER NOT NULL,
  PRIMARY KEY (site, draft, id),
  FOREIGN KEY (site, draft) REFERENCES draft (site, id) ON DELETE CASCADE,
  FOREIGN KEY (site, standard) REFERENCES standard (site, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE draft_value (
  site TEXT NOT NULL,
  draft INTEGER NOT NULL,
  phase TEXT NOT NULL CHECK (phase IN ('as found', 'as left')),
  sequence INTEGER NOT NULL,
  applied_text TEXT NOT NULL,
  indicated_text TEXT NOT NULL,
  skip_reason TEXT NOT NULL,
  PRIMARY KEY (site, draft, phase, sequence),
  FOREIGN KEY (site, draft) REFERENCES draft (site, id) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

-- Numbers given out once and never again.
CREATE TABLE counter (
  site TEXT NOT NULL REFERENCES site (code),
  name TEXT NOT NULL,
  last INTEGER NOT NULL,
  PRIMARY KEY (site, name)
) STRICT, WITHOUT ROWID;

-- (1)
CREATE TRIGGER setup_not_changed BEFORE UPDATE ON channel_setup
BEGIN SELECT RAISE(ABORT, 'a setup is never changed, a new version follows it'); END;
CREATE TRIGGER setup_not_deleted BEFORE DELETE ON channel_setup
BEGIN SELECT RAISE(ABORT, 'a setup is never deleted'); END;
CREATE TRIGGER setup_not_replaced BEFORE INSERT ON channel_setup
WHEN EXISTS (SELECT 1 FROM channel_setup s
             WHERE s.site = NEW.site AND s.channel = NEW.channel AND s.version >= NEW.version)
BEGIN SELECT RAISE(ABORT, 'a setup is never replaced, a new version follows it'); END;

-- (2)
CREATE TRIGGER calibration_not_changed BEFORE UPDATE ON calibration
BEGIN SELECT RAISE(ABORT, 'a calibration is never changed, a correction is a new one'); END;
CREATE TRIGGER calibration_not_deleted BEFORE DELETE ON calibration
BEGIN SELECT RAISE(ABORT, 'a calibration is never deleted'); END;
CREATE TRIGGER calibration_not_replaced BEFORE INSERT ON calibration
WHEN EXISTS (SELECT 1 FROM calibration c WHERE c.site = NEW.site AND c.id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a calibration is never replaced, a correction is a new one'); END;

CREATE TRIGGER reading_not_changed BEFORE UPDATE ON reading
BEGIN SELECT RAISE(ABORT, 'a reading is never changed, a correction is a new calibration'); END;
CREATE TRIGGER reading_not_deleted BEFORE DELETE ON reading
BEGIN SELECT RAISE(ABORT, 'a reading is never deleted'); END;
CREATE TRIGGER reading_not_added BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM calibration c WHERE c.site = NEW.site AND c.id = NEW.calibration)
BEGIN SELECT RAISE(ABORT, 'a recorded calibration takes no more readings'); END;

CREATE TRIGGER calibration_standard_not_changed BEFORE UPDATE ON calibration_standard
BEGIN SELECT RAISE(ABORT, 'the standards of a calibration are never changed'); END;
CREATE TRIGGER calibration_standard_not_deleted BEFORE DELETE ON calibration_standard
BEGIN SELECT RAISE(ABORT, 'the standards of a calibration are never deleted'); END;
CREATE TRIGGER calibration_standard_not_added BEFORE INSERT ON calibration_standard
WHEN EXISTS (SELECT 1 FROM calibration c WHERE c.site = NEW.site AND c.id = NEW.calibration)
BEGIN SELECT RAISE(ABORT, 'a recorded calibration takes no more standards'); END;

-- (3)
CREATE TRIGGER issued_certificate_not_changed
BEFORE UPDATE OF site, year, running, number, calibration, issued_utc ON issued_certificate
BEGIN SELECT RAISE(ABORT, 'an issued certificate keeps its number'); END;
CREATE TRIGGER issued_certificate_not_deleted BEFORE DELETE ON issued_certificate
BEGIN SELECT RAISE(ABORT, 'an issued certificate is never deleted'); END;
CREATE TRIGGER issued_certificate_not_replaced BEFORE INSERT ON issued_certificate
WHEN EXISTS (SELECT 1 FROM issued_certificate i WHERE i.site = NEW.site AND
             (i.calibration = NEW.calibration OR i.number = NEW.number OR
              (i.year = NEW.year AND i.running = NEW.running)))
BEGIN SELECT RAISE(ABORT, 'an issued certificate is never replaced'); END;

-- (4)
CREATE TRIGGER fitting_not_changed BEFORE UPDATE OF site, channel, id, sensor, fitted_from ON fitting
BEGIN SELECT RAISE(ABORT, 'a fitting only gains its end'); END;
CREATE TRIGGER fitting_not_deleted BEFORE DELETE ON fitting
BEGIN SELECT RAISE(ABORT, 'a fitting is never deleted'); END;
CREATE TRIGGER fitting_not_replaced BEFORE INSERT ON fitting
WHEN EXISTS (SELECT 1 FROM fitting f WHERE f.site = NEW.site AND f.channel = NEW.channel AND f.id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a fitting is never replaced'); END;

-- (5)
CREATE TRIGGER standard_certificate_not_changed BEFORE UPDATE ON standard_certificate
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never changed'); END;
CREATE TRIGGER standard_certificate_not_deleted BEFORE DELETE ON standard_certificate
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never deleted'); END;
CREATE TRIGGER standard_certificate_not_replaced BEFORE INSERT ON standard_certificate
WHEN EXISTS (SELECT 1 FROM standard_certificate s WHERE s.site = NEW.site AND s.standard = NEW.standard AND
             (s.id = NEW.id OR s.number = NEW.number))
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never replaced'); END;
CREATE TRIGGER standard_range_not_changed BEFORE UPDATE ON standard_range
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never changed'); END;
CREATE TRIGGER standard_range_not_deleted BEFORE DELETE ON standard_range
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never deleted'); END;
CREATE TRIGGER standard_range_not_replaced BEFORE INSERT ON standard_range
WHEN EXISTS (SELECT 1 FROM standard_range s WHERE s.site = NEW.site AND s.standard = NEW.standard AND
             s.certificate = NEW.certificate AND s.id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never replaced'); END;
CREATE TRIGGER standard_point_not_changed BEFORE UPDATE ON standard_point
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never changed'); END;
CREATE TRIGGER standard_point_not_deleted BEFORE DELETE ON standard_point
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never deleted'); END;
CREATE TRIGGER standard_point_not_replaced BEFORE INSERT ON standard_point
WHEN EXISTS (SELECT 1 FROM standard_point s WHERE s.site = NEW.site AND s.standard = NEW.standard AND
             s.certificate = NEW.certificate AND s.range = NEW.range AND s.id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'the certificate of a standard is never replaced'); END;

-- For people with another SQL tool: names instead of keys.
CREATE VIEW calibration_list AS
SELECT c.site, c.id AS calibration, h.tag AS channel, c.subject, c.setup_version, s.serial AS sensor, c.plan,
       c.plan_revision, c.performed, p.login AS person, c.adjusted, c.repaired, c.found_verdict, c.left_verdict,
       c.source, c.recorded_utc
FROM calibration c
JOIN channel h ON h.site = c.site AND h.id = c.channel
JOIN person p ON p.site = c.site AND p.id = c.person
LEFT JOIN sensor s ON s.site = c.site AND s.id = c.sensor;

CREATE VIEW reading_list AS
SELECT h.tag AS channel, c.subject, c.performed, r.*, r.indicated - r.expected AS error
FROM reading r
JOIN calibration c ON c.site = r.site AND c.id = r.calibration
JOIN channel h ON h.site = c.site AND h.id = c.channel;
)sql";

}  // namespace spanwright::migration
