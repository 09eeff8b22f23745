-- SPDX-License-Identifier: GPL-3.0-or-later
-- A record of version 3 with one calibration (invented), as the program of that version made it, dumped to text.
-- Frozen: programs to come must open it.
PRAGMA application_id = 1397774162;
PRAGMA user_version = 3;
BEGIN TRANSACTION;
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
  readings INTEGER NOT NULL, reference_junction REAL,          -- how many rows of reading it has
  PRIMARY KEY (site, id),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id),
  FOREIGN KEY (site, channel, setup_version) REFERENCES channel_setup (site, channel, version),
  FOREIGN KEY (site, sensor) REFERENCES sensor (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT, WITHOUT ROWID;
INSERT INTO "calibration" VALUES('KEPT',1,1,'channel',1,NULL,'AI-3','1','2025-06-03T09:30:00',1,NULL,NULL,'',1,0,0,'','pass','pass','','entered','2026-11-25T17:44:48Z',3,NULL);
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
INSERT INTO "calibration_standard" VALUES('KEPT',1,1,1,'CA-1');
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
INSERT INTO "channel" VALUES('KEPT',1,'PT-2',1,'1','Steam pressure',0);
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
INSERT INTO "channel_setup" VALUES('KEPT',1,1,'2023-05-02T08:00:00','analog-input','{"signal":{"low":4.0,"high":20.0,"unit":"mA"},"bits":0,"units":{"low":0.0,"high":6.0,"unit":"bar"},"transfer":"linear","cut_off_percent":0.0,"reads_as":"units","resolution":0.001,"alarms":{"dead_band":0.0}}',0.0,'commissioning');
CREATE TABLE closed_days (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  first_day TEXT NOT NULL,
  last_day TEXT NOT NULL,
  name TEXT NOT NULL,
  PRIMARY KEY (site, id)
) STRICT, WITHOUT ROWID;
INSERT INTO "closed_days" VALUES('KEPT',1,'2026-12-24','2027-01-02','winter shutdown');
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
CREATE TABLE counter (
  site TEXT NOT NULL REFERENCES site (code),
  name TEXT NOT NULL,
  last INTEGER NOT NULL,
  PRIMARY KEY (site, name)
) STRICT, WITHOUT ROWID;
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
  remarks TEXT NOT NULL, reference_junction REAL,
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
INSERT INTO "interval_policy" VALUES('KEPT',1,'yearly','fixed',0,12,180,730);
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
INSERT INTO "journal" VALUES('KEPT',1,'2026-11-25T17:44:48Z','','record made','','',NULL,NULL,'spanwright 0.1.0',X'7BEFC13FED9C408FDAADD46EA04EE2AC37EEE7BC71E7B9494F65A6AEBD8EA142');
INSERT INTO "journal" VALUES('KEPT',2,'2026-11-25T17:44:48Z','','added','site','',X'A99D4819C3AE74302696CF2435E7966C11D74C3CA6233E1FCF3A368D89CA8D0E',X'A1F2304854C7641EA3D8FBAEEC1C1E4B','',X'7688E83E74307E674C09E2B31B6C5385E4BC4FFEA2C3A0FF4A79C226F690C72A');
INSERT INTO "journal" VALUES('KEPT',3,'2026-11-25T17:44:48Z','','added','place','1',X'AD2ABD99A77D0C494FEF059202AD91625D74F0C8C8978368EF154E4D96B1C2D4',X'F09C593FD7C7A989','',X'5EF9CACF8A27A07077DD6440DBCD592BDF968B2622F64132D1C335EA20BDC3E3');
INSERT INTO "journal" VALUES('KEPT',4,'2026-11-25T17:44:48Z','','added','person','1',X'9F2990A387897EA3DEBBE20FFD94CF98B4F17916537A6AD9FBA82B668255AC8D',X'E8510997012BECBB','',X'6F354ABB3D16210A4E423D3E59A80BAE53BF55D67114A9A4D46D75F452C165EA');
INSERT INTO "journal" VALUES('KEPT',5,'2026-11-25T17:44:48Z','','added','standard','1',X'CA37644EFE2DAFA79D8513F74525679D70031D517B81F8152BD4C2D81DEABDC4',X'15F1CB9EAFE87C20','',X'9D33689054AE5E53550CA2E672D8098083033D6CEDDC29F8CB95100478C1022C');
INSERT INTO "journal" VALUES('KEPT',6,'2026-11-25T17:44:48Z','','added','standard certificate','1/1',X'EE6953068EAE077314166DF9996C855069EE645B6D62762E7C08BBB4A2F4D321',X'886CE97437D58DDCC722A2DA7DB437138712A32B0140E4139E066CDE520B384F','',X'EEFF2D41808990181D62CFA1EE32203A2DD664717A2407F17C44EA7D72819D3B');
INSERT INTO "journal" VALUES('KEPT',7,'2026-11-25T17:44:48Z','','added','plan','1',X'467FAD725E4F948B62C44DC66A0C8BA8E5AC877438B54B153462A5506A78EB43',X'B058D18807B5C64F','',X'57140A7481453DED85CD257529B79E70C658E25D492C1B391155D8C7A39E7677');
INSERT INTO "journal" VALUES('KEPT',8,'2026-11-25T17:44:48Z','','added','interval','1',X'FCFB9364275A784AB81FFB33A9F8929F43D867EE46DB1DEB5E20134AA2942FF5',X'F527876EDA2724BF','',X'27F957AE7B2BF105393D4DAEF01B213927F66F87A33FD8C5CC226B4F038E8ED2');
INSERT INTO "journal" VALUES('KEPT',9,'2026-11-25T17:44:48Z','','added','channel','1',X'54CA00368E96A1E6B980BCC3C44E31F9781D24341343C7CC0D8446BB657020C2',X'94D81AA5DE9D79C9B09A43ED908E041C','',X'20AB0E5C87B209F68F533659ED05984ACB295210BC7DCDDB5D1BB5F3C196B2E7');
INSERT INTO "journal" VALUES('KEPT',10,'2026-11-25T17:44:48Z','','added','setup','1/1',X'5F8B4E312184792C64EFA914B4FF712722975927DC1CF5A6220E1B15F4A4C936',X'38E9A1B563CD48E5','',X'669C45070A941D1CC19E24669F21BDFA39D7DF624F25FCE96612F885686F6067');
INSERT INTO "journal" VALUES('KEPT',11,'2026-11-25T17:44:48Z','adale','recorded','calibration','1',X'0DEEF0A58CB1C4A7471220BEAD0D9178AEB0AF672FC31A07B53BA05CC9C54870',X'6A0FFBE63EDDC579818F609073F833CE2E7A754F6BB22CA8F93F2D692A731F3AF79CFBB82337FDC0','entered',X'EC28D9C1D853EB4BCD5A07A61AF85D0D4311D0D664716F070E1BCE28BF0D373E');
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
INSERT INTO "person" VALUES('KEPT',1,'adale','Asta Dale','["technician","planner"]',NULL);
CREATE TABLE person_key (
  site TEXT NOT NULL,
  person INTEGER NOT NULL,
  id INTEGER NOT NULL,
  public_key BLOB NOT NULL,           -- Ed25519
  made_utc TEXT NOT NULL,
  PRIMARY KEY (site, person, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
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
INSERT INTO "place" VALUES('KEPT',1,'Brew house','Brew house',NULL,1);
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
  minutes REAL NOT NULL, junction_uncertainty REAL, lead_half_width REAL,
  PRIMARY KEY (site, id),
  UNIQUE (site, code)
) STRICT, WITHOUT ROWID;
INSERT INTO "plan" VALUES('KEPT',1,'AI-3','1','Analog input','work sheet 1','{"percents":[0.0,50.0,100.0],"order":"up","repeats":1,"alarms":false,"loss":false}','{"plus":{"absolute":0.0,"percent_of_reading":0.0,"percent_of_span":0.25,"counts":0.0},"minus":{"absolute":0.0,"percent_of_reading":0.0,"percent_of_span":0.25,"counts":0.0}}',0.7,'simple','[]',0.0,15.0,NULL,0.05);
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
INSERT INTO "reading" VALUES('KEPT',1,'as found',1,'value',0.0,'up',1,NULL,'0 % up',4.0,4.0,'mA','',0.001,'bar','0.001','',0.0,-0.015,0.015,6.85717385905658741163e-04,2.00000000000000044408e+00,'pass',1,0);
INSERT INTO "reading" VALUES('KEPT',1,'as found',2,'value',50.0,'up',1,NULL,'50 % up',12.0,12.0,'mA','',3.002,'bar','3.002','',3.0,-0.015,0.015,7.21687836487023355765e-04,2.00000000000000044408e+00,'pass',0,0);
INSERT INTO "reading" VALUES('KEPT',1,'as found',3,'value',100.0,'up',1,NULL,'100 % up',20.0,20.0,'mA','',6.003,'bar','6.003','',6.0,-0.015,0.015,7.63353347626105345306e-04,2.00000000000000044408e+00,'pass',0,0);
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
INSERT INTO "routine" VALUES('KEPT',1,1,'channel',1,1);
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
INSERT INTO "site" VALUES('KEPT','Kept site (invented)','["Mill Path 1"]','workshop','["Mill Path 1"]','production','office','Invented.',0,'[1,2,3,4,5]',30,14,1,'2026-11-25T17:44:48Z','spanwright 0.1.0');
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
INSERT INTO "standard" VALUES('KEPT',1,'CAL-1','Invented Instruments','calibrator','','');
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
INSERT INTO "standard_certificate" VALUES('KEPT',1,1,'CA-1','laboratory (invented)','to the SI','2025-05-01','2025-05-01','2026-05-31',2.0);
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
INSERT INTO "standard_point" VALUES('KEPT',1,1,1,1,4.0,0.0,0.0008);
INSERT INTO "standard_point" VALUES('KEPT',1,1,1,2,20.0,0.0,0.0012);
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
INSERT INTO "standard_range" VALUES('KEPT',1,1,1,'mA',0.001);
CREATE INDEX calibration_by_channel ON calibration (site, channel, performed, subject);
CREATE INDEX calibration_standard_by_standard ON calibration_standard (site, standard, calibration);
CREATE TRIGGER setup_not_changed BEFORE UPDATE ON channel_setup
BEGIN SELECT RAISE(ABORT, 'a setup is never changed, a new version follows it'); END;
CREATE TRIGGER setup_not_deleted BEFORE DELETE ON channel_setup
BEGIN SELECT RAISE(ABORT, 'a setup is never deleted'); END;
CREATE TRIGGER setup_not_replaced BEFORE INSERT ON channel_setup
WHEN EXISTS (SELECT 1 FROM channel_setup s
             WHERE s.site = NEW.site AND s.channel = NEW.channel AND s.version >= NEW.version)
BEGIN SELECT RAISE(ABORT, 'a setup is never replaced, a new version follows it'); END;
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
CREATE TRIGGER fitting_not_changed BEFORE UPDATE OF site, channel, id, sensor, fitted_from ON fitting
BEGIN SELECT RAISE(ABORT, 'a fitting only gains its end'); END;
CREATE TRIGGER fitting_not_deleted BEFORE DELETE ON fitting
BEGIN SELECT RAISE(ABORT, 'a fitting is never deleted'); END;
CREATE TRIGGER fitting_not_replaced BEFORE INSERT ON fitting
WHEN EXISTS (SELECT 1 FROM fitting f WHERE f.site = NEW.site AND f.channel = NEW.channel AND f.id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'a fitting is never replaced'); END;
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
CREATE INDEX journal_by_unit ON journal (site, unit, unit_key, entry);
CREATE INDEX journal_of_passphrases ON journal (site, person, entry)
  WHERE act IN ('signed', 'passphrase set', 'passphrase changed', 'passphrase wrong');
CREATE INDEX life_event_by_calibration ON life_event (site, calibration, id);
CREATE INDEX correction_by_corrected ON correction (site, corrects);
CREATE TRIGGER journal_not_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END;
CREATE TRIGGER journal_not_deleted BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never cut'); END;
CREATE TRIGGER journal_not_replaced BEFORE INSERT ON journal
WHEN EXISTS (SELECT 1 FROM journal j WHERE j.site = NEW.site AND j.entry >= NEW.entry)
BEGIN SELECT RAISE(ABORT, 'the journal only grows at its end'); END;
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
CREATE TRIGGER correction_not_changed BEFORE UPDATE ON correction
BEGIN SELECT RAISE(ABORT, 'what a calibration corrects is never changed'); END;
CREATE TRIGGER correction_not_deleted BEFORE DELETE ON correction
BEGIN SELECT RAISE(ABORT, 'what a calibration corrects is never deleted'); END;
CREATE TRIGGER correction_not_added BEFORE INSERT ON correction
WHEN EXISTS (SELECT 1 FROM calibration c WHERE c.site = NEW.site AND c.id = NEW.calibration)
BEGIN SELECT RAISE(ABORT, 'a recorded calibration becomes no correction'); END;
CREATE TRIGGER attachment_not_changed BEFORE UPDATE ON attachment
BEGIN SELECT RAISE(ABORT, 'an attachment is never changed'); END;
CREATE TRIGGER attachment_not_deleted BEFORE DELETE ON attachment
BEGIN SELECT RAISE(ABORT, 'an attachment is never deleted'); END;
CREATE TRIGGER attachment_not_replaced BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM attachment a WHERE a.site = NEW.site AND a.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'an attachment is never replaced'); END;
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
CREATE VIEW calibration_state AS
SELECT c.site, c.id AS calibration,
       coalesce((SELECT l.act FROM life_event l WHERE l.site = c.site AND l.calibration = c.id
                 ORDER BY l.id DESC LIMIT 1), 'recorded') AS state
FROM calibration c;
COMMIT;
