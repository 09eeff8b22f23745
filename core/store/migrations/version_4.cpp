// SPDX-License-Identifier: GPL-3.0-or-later
//
// Frozen: what version 4 adds: policies that propose intervals, intervals that people accepted, and how many
// hours people have for calibrations.
//
// What holds besides, in every record, whoever writes to it:
// (11) An accepted interval is never changed or deleted, the next one follows it.
#include "core/store/migrations/migrations.h"

namespace spanwright::migration {

const char* const kVersion4 = R"sql(
-- 0: does not belong to the policy.
ALTER TABLE interval_policy ADD COLUMN lengthen REAL NOT NULL DEFAULT 0;    -- factor of a step up
ALTER TABLE interval_policy ADD COLUMN shorten REAL NOT NULL DEFAULT 0;     -- factor of a step down
ALTER TABLE interval_policy ADD COLUMN target REAL NOT NULL DEFAULT 0;      -- probability to be in tolerance
ALTER TABLE interval_policy ADD COLUMN confidence REAL NOT NULL DEFAULT 0;  -- of the limits of the estimate
ALTER TABLE interval_policy ADD COLUMN least_outcomes INTEGER NOT NULL DEFAULT 0;

CREATE TABLE accepted_interval (
  site TEXT NOT NULL,
  id INTEGER NOT NULL,
  channel INTEGER NOT NULL,
  subject TEXT NOT NULL CHECK (subject IN ('channel', 'sensor', 'loop')),
  days INTEGER NOT NULL,              -- this or months
  months INTEGER NOT NULL,
  from_day TEXT NOT NULL,
  interval_policy INTEGER NOT NULL,   -- in force then
  proposed_days INTEGER,              -- NULL: it proposed nothing
  evidence TEXT NOT NULL,             -- its words then
  person INTEGER NOT NULL,
  at_utc TEXT NOT NULL,
  reason TEXT NOT NULL CHECK (reason <> ''),
  PRIMARY KEY (site, id),
  CHECK (days >= 0 AND months >= 0 AND (days > 0) + (months > 0) = 1),
  FOREIGN KEY (site, channel) REFERENCES channel (site, id),
  FOREIGN KEY (site, interval_policy) REFERENCES interval_policy (site, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX accepted_interval_by_channel ON accepted_interval (site, channel, id);

ALTER TABLE person ADD COLUMN hours_per_week REAL;  -- for calibrations; NULL: none are planned
CREATE TABLE person_away (
  site TEXT NOT NULL,
  person INTEGER NOT NULL,
  id INTEGER NOT NULL,
  first_day TEXT NOT NULL,
  last_day TEXT NOT NULL,
  name TEXT NOT NULL,
  PRIMARY KEY (site, person, id),
  FOREIGN KEY (site, person) REFERENCES person (site, id)
) STRICT, WITHOUT ROWID;

ALTER TABLE site ADD COLUMN early_days INTEGER NOT NULL DEFAULT 30;

-- (11)
CREATE TRIGGER accepted_interval_not_changed BEFORE UPDATE ON accepted_interval
BEGIN SELECT RAISE(ABORT, 'an accepted interval is never changed, the next one follows it'); END;
CREATE TRIGGER accepted_interval_not_deleted BEFORE DELETE ON accepted_interval
BEGIN SELECT RAISE(ABORT, 'an accepted interval is never deleted'); END;
CREATE TRIGGER accepted_interval_not_replaced BEFORE INSERT ON accepted_interval
WHEN EXISTS (SELECT 1 FROM accepted_interval a WHERE a.site = NEW.site AND a.id >= NEW.id)
BEGIN SELECT RAISE(ABORT, 'an accepted interval is never replaced, the next one follows it'); END;
)sql";

}  // namespace spanwright::migration
