-- The device's store: who this device is, the observation log, the frozen forecasts.
--
-- Rows of `entry` and `forecast` are written once. SQLite alone would still let a row be replaced by an insert that
-- clashes with it (INSERT OR REPLACE deletes the old row without firing a DELETE trigger unless recursive triggers
-- are on), and a table with a hidden rowid has one more key to clash on. Hence STRICT, WITHOUT ROWID, and a BEFORE
-- INSERT trigger that refuses a clash on every unique key before any conflict clause is looked at.

CREATE TABLE device (
  only_row   INTEGER NOT NULL PRIMARY KEY CHECK (only_row = 1),
  id         BLOB    NOT NULL CHECK (length(id) = 16),
  name       TEXT    NOT NULL,
  created_at TEXT    NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TRIGGER device_is_never_deleted BEFORE DELETE ON device
BEGIN SELECT RAISE(ABORT, 'this device keeps its id: the row cannot be deleted'); END;

CREATE TRIGGER device_keeps_its_id BEFORE UPDATE OF only_row, id, created_at ON device
BEGIN SELECT RAISE(ABORT, 'this device keeps its id: it cannot be changed'); END;

CREATE TRIGGER device_is_one BEFORE INSERT ON device WHEN EXISTS (SELECT 1 FROM device)
BEGIN SELECT RAISE(ABORT, 'this device keeps its id: a second one cannot be added'); END;

-- One row, one entry. `line` is the entry as frozen (one line of JSON, hashed and sealed as it stands); `hash` is its
-- SHA-256. The columns before them are what is searched and ordered by; the generated ones are read from the line
-- itself, so that they cannot say anything else. `hash` stands directly before `line` in the file: whoever has to
-- read a damaged file byte by byte can tell a whole line from a bent one.
CREATE TABLE entry (
  survey  BLOB    NOT NULL CHECK (length(survey) = 16),
  device  BLOB    NOT NULL CHECK (length(device) = 16),
  seq     INTEGER NOT NULL CHECK (seq >= 1),
  id      BLOB    NOT NULL UNIQUE CHECK (length(id) = 16),
  lamport INTEGER NOT NULL CHECK (lamport >= 1),
  prev    BLOB    CHECK (length(prev) = 32),
  hash    BLOB    NOT NULL UNIQUE CHECK (length(hash) = 32),
  line    TEXT    NOT NULL CHECK (json_valid(line)),

  at        TEXT    GENERATED ALWAYS AS (json_extract(line, '$.at')) VIRTUAL,
  by_whom   TEXT    GENERATED ALWAYS AS (json_extract(line, '$.by')) VIRTUAL,
  kind      TEXT    GENERATED ALWAYS AS (json_extract(line, '$.body.kind')) VIRTUAL,
  place     TEXT    GENERATED ALWAYS AS (json_extract(line, '$.body.place')) VIRTUAL,
  item      TEXT    GENERATED ALWAYS AS (json_extract(line, '$.body.item')) VIRTUAL,
  value     TEXT    GENERATED ALWAYS AS (json_extract(line, '$.body.value')) VIRTUAL,
  -- Lengths and tolerances count eighths of a micrometer (1/64 in = 3,175); numbers count thousandths of their unit.
  unit      TEXT    GENERATED ALWAYS AS (
              CASE WHEN json_type(line, '$.body.value.length') IS NOT NULL THEN 'um/8'
                   ELSE json_extract(line, '$.body.value.number.unit') END) VIRTUAL,
  tolerance INTEGER GENERATED ALWAYS AS (json_extract(line, '$.body.tolerance')) VIRTUAL,
  entered   TEXT    GENERATED ALWAYS AS (json_extract(line, '$.body.entered')) VIRTUAL,
  photos    TEXT    GENERATED ALWAYS AS (json_extract(line, '$.body.photos')) VIRTUAL,
  corrects  TEXT    GENERATED ALWAYS AS (json_extract(line, '$.body.corrects')) VIRTUAL,

  PRIMARY KEY (survey, device, seq),
  CHECK ((seq = 1) = (prev IS NULL))
) STRICT, WITHOUT ROWID;

-- The order every reader sorts by; the primary key (device, seq) follows by itself.
CREATE INDEX entry_order ON entry (survey, lamport);

CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'the log only grows: an entry cannot be changed; record a correction'); END;

CREATE TRIGGER entry_is_never_deleted BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'the log only grows: an entry cannot be deleted; record a withdrawal'); END;

CREATE TRIGGER entry_is_never_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE survey = NEW.survey AND device = NEW.device AND seq = NEW.seq)
  OR EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
  OR EXISTS (SELECT 1 FROM entry WHERE hash = NEW.hash)
BEGIN SELECT RAISE(ABORT, 'the log only grows: another entry has this position, id or hash'); END;

CREATE TRIGGER entry_follows_the_one_before BEFORE INSERT ON entry
WHEN NEW.seq > 1 AND NOT EXISTS (
  SELECT 1 FROM entry
  WHERE survey = NEW.survey AND device = NEW.device AND seq = NEW.seq - 1 AND hash = NEW.prev)
BEGIN SELECT RAISE(ABORT, 'the log has no holes: this entry does not follow from the one before it'); END;

-- Forecasts are frozen bytes with what is needed to find and order them; their meaning is not known here.
CREATE TABLE forecast (
  survey   BLOB    NOT NULL CHECK (length(survey) = 16),
  n        INTEGER NOT NULL CHECK (n >= 1),
  digest   BLOB    NOT NULL CHECK (length(digest) = 32),
  catalog  BLOB    NOT NULL CHECK (length(catalog) = 32),
  engine   TEXT    NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  made_at  TEXT    NOT NULL,
  bytes    BLOB    NOT NULL,
  PRIMARY KEY (survey, n)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER forecast_is_never_changed BEFORE UPDATE ON forecast
BEGIN SELECT RAISE(ABORT, 'a forecast is frozen: it cannot be changed; make another'); END;

CREATE TRIGGER forecast_is_never_deleted BEFORE DELETE ON forecast
BEGIN SELECT RAISE(ABORT, 'a forecast is frozen: it cannot be deleted'); END;

CREATE TRIGGER forecast_is_never_replaced BEFORE INSERT ON forecast
WHEN NEW.n IS NOT (SELECT coalesce(max(n), 0) + 1 FROM forecast WHERE survey = NEW.survey)
BEGIN SELECT RAISE(ABORT, 'a forecast is frozen: the next one takes the next number'); END;
