-- The office desk: packets received, findings entered. Both only grow; a later finding about the same condition
-- stands beside the earlier one. WITHOUT ROWID and a trigger on every unique key, because INSERT OR REPLACE would
-- otherwise delete through a clash.

CREATE TABLE packet (
    digest      BLOB NOT NULL PRIMARY KEY CHECK (length(digest) = 32),
    survey      BLOB NOT NULL CHECK (length(survey) = 16),
    device      BLOB NOT NULL CHECK (length(device) = 16),
    number      INTEGER NOT NULL CHECK (number >= 1),
    label       TEXT NOT NULL,
    sealed_at   TEXT NOT NULL,
    received_at TEXT NOT NULL,
    position    INTEGER NOT NULL UNIQUE CHECK (position >= 1), -- order of arrival, shared with findings
    bytes       INTEGER NOT NULL,
    forecast    BLOB NOT NULL,
    UNIQUE (survey, device, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE finding (
    survey    BLOB NOT NULL CHECK (length(survey) = 16),
    n         INTEGER NOT NULL CHECK (n >= 1),
    position  INTEGER NOT NULL UNIQUE CHECK (position >= 1),
    condition TEXT NOT NULL,
    body      TEXT NOT NULL CHECK (json_valid(body)),
    PRIMARY KEY (survey, n)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER packet_never_changes BEFORE UPDATE ON packet
BEGIN SELECT RAISE(ABORT, 'a received packet is never changed'); END;
CREATE TRIGGER packet_never_leaves BEFORE DELETE ON packet
BEGIN SELECT RAISE(ABORT, 'a received packet is never removed'); END;
CREATE TRIGGER packet_never_replaced BEFORE INSERT ON packet
WHEN EXISTS (SELECT 1 FROM packet WHERE digest = NEW.digest OR position = NEW.position
             OR (survey = NEW.survey AND device = NEW.device AND number = NEW.number))
BEGIN SELECT RAISE(ABORT, 'a received packet is never replaced'); END;

CREATE TRIGGER finding_never_changes BEFORE UPDATE ON finding
BEGIN SELECT RAISE(ABORT, 'a finding is never changed; enter a later one'); END;
CREATE TRIGGER finding_never_leaves BEFORE DELETE ON finding
BEGIN SELECT RAISE(ABORT, 'a finding is never removed; enter a later one'); END;
CREATE TRIGGER finding_never_replaced BEFORE INSERT ON finding
WHEN EXISTS (SELECT 1 FROM finding WHERE position = NEW.position OR (survey = NEW.survey AND n = NEW.n))
BEGIN SELECT RAISE(ABORT, 'a finding is never replaced; enter a later one'); END;
