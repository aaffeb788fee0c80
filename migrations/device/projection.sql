-- What the log says now, for reading. Not a migration and not a record: thrown away and made anew from the log
-- whenever this file changes, on `rebuild`, and after a rescue. Whoever wants the truth folds the log.

DROP VIEW IF EXISTS answer_now;
DROP TABLE IF EXISTS now_claim;
DROP TABLE IF EXISTS now_correction;
DROP TABLE IF EXISTS now_survey;
DROP TABLE IF EXISTS now_version;

-- One row per house: the list on the first screen.
CREATE TABLE now_survey (
  survey         BLOB    NOT NULL PRIMARY KEY,
  label          TEXT,              -- of the first opening in log order; none while only other devices' entries are here
  opened_lamport INTEGER,
  opened_device  BLOB,
  opened_seq     INTEGER,
  last_ms        INTEGER NOT NULL,  -- latest wall time seen, Unix milliseconds
  last_offset    INTEGER NOT NULL,  -- its minutes east of UTC
  ended_by       BLOB,              -- entry that declared demolition; what the walk recorded after it is in no table below
  entries        INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Which entry corrects which; a correction can arrive before what it corrects.
CREATE TABLE now_correction (
  survey    BLOB NOT NULL,
  corrected BLOB NOT NULL,
  by_entry  BLOB NOT NULL,
  PRIMARY KEY (survey, corrected, by_entry)
) STRICT, WITHOUT ROWID;

-- The claims nobody corrected.
CREATE TABLE now_claim (
  survey    BLOB    NOT NULL,
  place     TEXT    NOT NULL,
  item      TEXT    NOT NULL,
  lamport   INTEGER NOT NULL,
  device    BLOB    NOT NULL,
  seq       INTEGER NOT NULL,
  id        BLOB    NOT NULL,
  at        TEXT    NOT NULL,
  by_whom   TEXT    NOT NULL,
  value     TEXT    NOT NULL,       -- JSON as in the entry
  tolerance INTEGER,                -- eighths of a micrometer
  entered   TEXT,
  PRIMARY KEY (survey, place, item, lamport, device, seq)
) STRICT, WITHOUT ROWID;

-- One row per answered item: the latest claim, how many stand, and whether they differ.
CREATE VIEW answer_now AS
SELECT survey, place, item, value, tolerance, entered, by_whom, at, id, claims, disagrees
FROM (
  SELECT c.*,
    row_number() OVER (PARTITION BY survey, place, item ORDER BY lamport DESC, device DESC, seq DESC) AS rank,
    count(*) OVER (PARTITION BY survey, place, item) AS claims,
    min(value) OVER (PARTITION BY survey, place, item)
      <> max(value) OVER (PARTITION BY survey, place, item) AS disagrees
  FROM now_claim c)
WHERE rank = 1;

-- Digest of this file as it was when the tables were made.
CREATE TABLE now_version (
  only_row INTEGER NOT NULL PRIMARY KEY CHECK (only_row = 1),
  sha256   TEXT    NOT NULL
) STRICT, WITHOUT ROWID;
