-- The office this device hands its packets to, and how far each packet is on its way. The secret by which the office knows
-- the device is no part of it: it lies in a file of its own that only its owner can read.

CREATE TABLE office_link (
  one         INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
  firm        TEXT    NOT NULL CHECK (firm <> ''),
  address     TEXT    NOT NULL CHECK (address <> ''),      -- name or address, and port
  fingerprint TEXT    NOT NULL CHECK (length(fingerprint) = 64), -- SHA-256 of the certificate it shows
  device      TEXT    NOT NULL CHECK (device <> ''),       -- what this device is called there
  since       TEXT    NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE sending (
  packet BLOB    NOT NULL PRIMARY KEY CHECK (length(packet) = 32),
  survey BLOB    NOT NULL CHECK (length(survey) = 16),
  bytes  INTEGER NOT NULL CHECK (bytes >= 1),
  state  TEXT    NOT NULL CHECK (state IN ('begun', 'acknowledged', 'refused')),
  said   TEXT,                                             -- what the office said, in the language it was asked in
  at     TEXT    NOT NULL                                  -- when it came to stand so
) STRICT, WITHOUT ROWID;

-- A packet the office acknowledged stays so, whatever a second sending comes to.
CREATE TRIGGER sending_stays_acknowledged BEFORE UPDATE ON sending WHEN OLD.state = 'acknowledged'
BEGIN SELECT RAISE(ABORT, 'a packet that was acknowledged stays so'); END;
