-- SPDX-License-Identifier: GPL-3.0-or-later
-- A record of version 1 as makeSampleRecord (samples.cpp) made it when that version was released, dumped to text.
-- Frozen: programs to come must open it.
PRAGMA application_id = 1397774162;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
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
INSERT INTO "calibration" VALUES('LARK',1,1,'loop',1,2,'AI-5UD','2','2025-03-04T05:06:07',1,21.5,NULL,'draughty',0,1,0,'zero trimmed','pass','pass','','entered','2026-11-20T09:00:00Z',5);
INSERT INTO "calibration" VALUES('LARK',2,2,'channel',1,NULL,'AI-5UD','2','2026-01-01T08:00:00',1,NULL,NULL,'',0,0,0,'','pass','pass','','entered','2026-11-20T09:00:00Z',2);
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
INSERT INTO "calibration_standard" VALUES('LARK',1,1,1,'C-11873');
INSERT INTO "calibration_standard" VALUES('LARK',2,1,1,'C-11873');
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
INSERT INTO "channel" VALUES('LARK',1,'TT-101',3,'1','Holding tube',0);
INSERT INTO "channel" VALUES('LARK',2,'AI-001',4,'2','',0);
INSERT INTO "channel" VALUES('LARK',3,'AI-000',4,'2','',1);
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
INSERT INTO "channel_setup" VALUES('LARK',1,1,'2018-03-01T08:00:00','analog-input','{"signal":{"low":4.0,"high":20.0,"unit":"mA"},"counts":{"low":0.0,"high":32000.0,"unit":"count"},"bits":16,"units":{"low":0.0,"high":150.0,"unit":"degC"},"transfer":"linear","cut_off_percent":0.0,"reads_as":"units","resolution":0.1,"alarms":{"low_low":0.30000000000000004,"low":20.0,"high_high":90.0,"dead_band":1.0}}',0.5,'commissioning');
INSERT INTO "channel_setup" VALUES('LARK',1,2,'2019-03-01T08:00:00','analog-input','{"signal":{"low":4.0,"high":20.0,"unit":"mA"},"counts":{"low":0.0,"high":32000.0,"unit":"count"},"bits":16,"units":{"low":0.0,"high":120.0,"unit":"degC"},"transfer":"square-root","cut_off_percent":1.5,"reads_as":"counts","resolution":0.1,"alarms":{"dead_band":0.0}}',0.0,'flow instead');
INSERT INTO "channel_setup" VALUES('LARK',1,3,'2020-03-01T08:00:00','thermocouple-input','{"couple":"N","range":{"low":-50.0,"high":1100.0,"unit":"degC"},"resolution":0.1,"reads_tenths":true,"alarms":{"dead_band":0.0}}',3.33333333333333314829e-01,'couple °C');
INSERT INTO "channel_setup" VALUES('LARK',1,4,'2021-03-01T08:00:01','rtd-input','{"element":"pt1000","wires":4,"range":{"low":-20.0,"high":180.0,"unit":"degC"},"resolution":0.1,"reads_tenths":false,"alarms":{"high":150.0,"dead_band":0.0}}',2.0,'');
INSERT INTO "channel_setup" VALUES('LARK',1,5,'2022-03-01T08:00:00','analog-output','{"signal":{"low":0.0,"high":10.0,"unit":"V"},"counts":{"low":0.0,"high":4095.0,"unit":"count"},"bits":12,"commanded_as":"counts","on_loss":"hold"}',0.0,'now an output');
INSERT INTO "channel_setup" VALUES('LARK',1,6,'2023-03-01T08:00:00','discrete-output','{"supply_volts":24.0,"max_drop_volts":1.5,"max_off_volts":0.75,"on_loss":"hold"}',0.0,'');
INSERT INTO "channel_setup" VALUES('LARK',1,7,'2024-03-01T08:00:00','threshold-input','{"rated_volts":24.0,"on_level":15.0,"off_level":5.0,"input_type":3}',0.01,'switch');
INSERT INTO "channel_setup" VALUES('LARK',2,1,'2018-03-01T08:00:00','analog-input','{"signal":{"low":4.0,"high":20.0,"unit":"mA"},"counts":{"low":0.0,"high":32000.0,"unit":"count"},"bits":16,"units":{"low":0.0,"high":100.0,"unit":"degC"},"transfer":"linear","cut_off_percent":0.0,"reads_as":"units","resolution":0.1,"alarms":{"low_low":0.30000000000000004,"low":20.0,"high_high":90.0,"dead_band":1.0}}',0.0,'');
INSERT INTO "channel_setup" VALUES('LARK',3,1,'2018-03-01T08:00:00','analog-input','{"signal":{"low":4.0,"high":20.0,"unit":"mA"},"counts":{"low":0.0,"high":32000.0,"unit":"count"},"bits":16,"transfer":"linear","cut_off_percent":0.0,"reads_as":"counts","resolution":0.1,"alarms":{"dead_band":0.0}}',0.0,'');
CREATE TABLE closed_days (
  site TEXT NOT NULL REFERENCES site (code),
  id INTEGER NOT NULL,
  first_day TEXT NOT NULL,
  last_day TEXT NOT NULL,
  name TEXT NOT NULL,
  PRIMARY KEY (site, id)
) STRICT, WITHOUT ROWID;
INSERT INTO "closed_days" VALUES('LARK',1,'2026-12-24','2027-01-01','winter shutdown');
CREATE TABLE counter (
  site TEXT NOT NULL REFERENCES site (code),
  name TEXT NOT NULL,
  last INTEGER NOT NULL,
  PRIMARY KEY (site, name)
) STRICT, WITHOUT ROWID;
INSERT INTO "counter" VALUES('LARK','draft',1);
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
INSERT INTO "draft" VALUES('LARK',1,2,'channel',1,'2026-11-20T09:30:00',0,NULL,NULL,'',0,0,0,'','');
CREATE TABLE draft_standard (
  site TEXT NOT NULL,
  draft INTEGER NOT NULL,
  id INTEGER NOT NULL,
  standard INTEGER NOT NULL,
  PRIMARY KEY (site, draft, id),
  FOREIGN KEY (site, draft) REFERENCES draft (site, id) ON DELETE CASCADE,
  FOREIGN KEY (site, standard) REFERENCES standard (site, id)
) STRICT, WITHOUT ROWID;
INSERT INTO "draft_standard" VALUES('LARK',1,1,1);
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
INSERT INTO "draft_value" VALUES('LARK',1,'as found',1,'4.000 mA','0.1','');
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
INSERT INTO "fitting" VALUES('LARK',1,1,1,'2018-03-01T08:00:00','2020-03-01T08:00:00');
INSERT INTO "fitting" VALUES('LARK',1,2,2,'2020-03-01T08:00:00',NULL);
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
INSERT INTO "interval_policy" VALUES('LARK',1,'yearly','fixed',0,12,90,800);
INSERT INTO "interval_policy" VALUES('LARK',2,'days','staircase',180,0,0,0);
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
INSERT INTO "issued_certificate" VALUES('LARK',2026,1,'LARK-2026-0001',2,'2026-11-20T09:00:00Z',1);
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
INSERT INTO "person" VALUES('LARK',1,'zora','Zora Example','["reviewer","technician"]',NULL);
INSERT INTO "person" VALUES('LARK',2,'adam','Adam Example','["planner","administrator"]','2024-06-30');
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
INSERT INTO "place" VALUES('LARK',1,'Hall','Hall',NULL,2);
INSERT INTO "place" VALUES('LARK',2,'Hall / Cabinet P1','Cabinet P1',1,0);
INSERT INTO "place" VALUES('LARK',3,'Hall / Cabinet P1 / Station 1','Station 1',2,1);
INSERT INTO "place" VALUES('LARK',4,'Annex','Annex',NULL,1);
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
INSERT INTO "plan" VALUES('LARK',1,'AI-5UD','2','Five points','WI-012 rev 2','{"percents":[0.0,25.0,50.0,75.0,100.0],"order":"up-down","repeats":2,"alarms":true,"loss":false}','{"plus":{"absolute":0.1,"percent_of_reading":0.2,"percent_of_span":0.25,"counts":0.0},"minus":{"absolute":0.05,"percent_of_reading":0.0,"percent_of_span":0.25,"counts":0.0}}',0.7,'simple','["Put the loop in manual.","Line two, with \"quotes\"."]',10.0,30.0);
INSERT INTO "plan" VALUES('LARK',2,'AO','2','Five points','WI-012 rev 2','{"percents":[0.0,33.333333333333336,100.0],"order":"down-up","repeats":1,"alarms":false,"loss":true}','{"plus":{"absolute":0.5,"percent_of_reading":0.0,"percent_of_span":0.0,"counts":0.0},"minus":{"absolute":0.5,"percent_of_reading":0.0,"percent_of_span":0.0,"counts":0.0}}',0.7,'simple','[]',10.0,12.5);
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
INSERT INTO "reading" VALUES('LARK',1,'as found',1,'value',0.0,'up',1,NULL,'25 % up',0.0,5.0,'mA','5.000 mA',3.75428571428571444812e+01,'degC','37.4','',37.5,-0.375,0.375,0.01,2.0,'pass',0,0);
INSERT INTO "reading" VALUES('LARK',1,'as found',2,'value',25.0,'up',1,NULL,'25 % up',0.0,NULL,'mA','5.000 mA',NULL,'degC','37.4','not reachable',37.5,-0.375,0.375,0.01,2.0,'pass',0,0);
INSERT INTO "reading" VALUES('LARK',1,'as found',3,'value',50.0,'up',1,NULL,'25 % up',0.0,7.0,'mA','5.000 mA',3.78285714285714291804e+01,'degC','37.4','',37.5,NULL,0.1,0.01,2.0,'pass',0,0);
INSERT INTO "reading" VALUES('LARK',1,'as left',1,'value',0.0,'up',1,NULL,'25 % up',0.0,5.0,'mA','5.000 mA',3.75428571428571444812e+01,'degC','37.4','',37.5,-0.375,0.375,0.01,2.0,'pass',0,0);
INSERT INTO "reading" VALUES('LARK',1,'as left',2,'value',25.0,'up',1,NULL,'25 % up',0.0,6.0,'mA','5.000 mA',3.7685714285714283279e+01,'degC','37.4','',37.5,-0.375,0.375,0.01,2.0,'pass',0,0);
INSERT INTO "reading" VALUES('LARK',2,'as found',1,'value',0.0,'up',1,NULL,'25 % up',0.0,5.0,'mA','5.000 mA',3.75428571428571444812e+01,'degC','37.4','',37.5,-0.375,0.375,0.01,2.0,'pass',0,0);
INSERT INTO "reading" VALUES('LARK',2,'as found',2,'value',25.0,'up',1,NULL,'25 % up',0.0,6.0,'mA','5.000 mA',3.7685714285714283279e+01,'degC','37.4','',37.5,-0.375,0.375,0.01,2.0,'pass',0,0);
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
INSERT INTO "routine" VALUES('LARK',1,1,'loop',2,2);
INSERT INTO "routine" VALUES('LARK',1,2,'channel',1,1);
INSERT INTO "routine" VALUES('LARK',2,1,'channel',1,1);
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
INSERT INTO "sensor" VALUES('LARK',1,'TX-5510','Invented','head','transmitter','{"process":{"low":0.0,"high":150.0,"unit":"degC"},"output":{"low":4.0,"high":20.0,"unit":"mA"},"transfer":"linear"}');
INSERT INTO "sensor" VALUES('LARK',2,'TC-0002','Invented','mineral insulated','','{"process":{"low":-50.0,"high":1100.0,"unit":"degC"},"transfer":"linear","thermocouple":"N"}');
INSERT INTO "sensor" VALUES('LARK',3,'RT-0003','','','','{"process":{"low":-20.0,"high":180.0,"unit":"degC"},"transfer":"linear","rtd":"pt1000"}');
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
INSERT INTO "site" VALUES('LARK','Larkmead Creamery','["Dairy Lane 4","Larkmead"]','workshop','["Dairy Lane 4"]','production','office','Invented.',1,'[1,2,4,6]',21,7,1,'2026-11-20T09:00:00Z','spanwright 0.1.0');
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
INSERT INTO "standard" VALUES('LARK',1,'LC-2201','Invented Instruments','loop calibrator','current and voltage source','workshop');
INSERT INTO "standard" VALUES('LARK',2,'AA-0001','Invented','thermometer','','');
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
INSERT INTO "standard_certificate" VALUES('LARK',1,1,'C-11873','laboratory','to the SI','2023-02-12','2023-02-12','2024-02-28',2.0);
INSERT INTO "standard_certificate" VALUES('LARK',1,2,'C-12999','laboratory','to the SI','2024-02-10','2024-02-12','2026-12-31',2.13);
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
INSERT INTO "standard_point" VALUES('LARK',1,1,1,1,4.0,0.0002,0.0008);
INSERT INTO "standard_point" VALUES('LARK',1,1,1,2,20.0,-0.0005,0.0012);
INSERT INTO "standard_point" VALUES('LARK',1,2,1,1,0.0,5.55111512312578270211e-17,1.0e-05);
INSERT INTO "standard_point" VALUES('LARK',1,2,1,2,5.0,2.0e-05,1.0e-05);
INSERT INTO "standard_point" VALUES('LARK',1,2,1,3,10.0,3.0e-05,2.0e-05);
INSERT INTO "standard_point" VALUES('LARK',1,2,2,1,4.0,0.0002,0.0008);
INSERT INTO "standard_point" VALUES('LARK',1,2,2,2,20.0,-0.0005,0.0012);
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
INSERT INTO "standard_range" VALUES('LARK',1,1,1,'mA',0.001);
INSERT INTO "standard_range" VALUES('LARK',1,2,1,'V',0.0001);
INSERT INTO "standard_range" VALUES('LARK',1,2,2,'mA',0.001);
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
COMMIT;
