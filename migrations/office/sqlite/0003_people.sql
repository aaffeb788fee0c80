-- Who may come to the office over the network. Passwords stand here as argon2id hashes, sessions as hashes of their secret;
-- the audit log only grows. A person is never removed from the table, because the audit log names them: they get a moment
-- from which on they are gone, and no password.

CREATE TABLE firm (
    one  INTEGER NOT NULL PRIMARY KEY CHECK (one = 1),
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120)
) STRICT, WITHOUT ROWID;

CREATE TABLE person (
    id           BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
    name         TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 80),
    folded       TEXT NOT NULL,                   -- the name without regard to capitals and spaces; two people never share it
    role         TEXT NOT NULL CHECK (role IN ('estimator', 'office', 'reviewer', 'owner')),
    since        TEXT NOT NULL,
    removed      TEXT,
    memory_kib   INTEGER,
    passes       INTEGER,
    lanes        INTEGER,
    salt         BLOB CHECK (length(salt) = 16),
    hash         BLOB CHECK (length(hash) = 32),
    failures     INTEGER NOT NULL CHECK (failures >= 0), -- wrong passwords since the last right one
    last_failure INTEGER NOT NULL,                -- Unix milliseconds
    CHECK ((removed IS NULL) = (hash IS NOT NULL)),
    CHECK ((hash IS NULL) = (salt IS NULL) AND (hash IS NULL) = (memory_kib IS NULL)
           AND (hash IS NULL) = (passes IS NULL) AND (hash IS NULL) = (lanes IS NULL))
) STRICT, WITHOUT ROWID;
CREATE UNIQUE INDEX person_here ON person (folded) WHERE removed IS NULL;

CREATE TRIGGER person_never_leaves BEFORE DELETE ON person
BEGIN SELECT RAISE(ABORT, 'a person is never deleted; the audit log names them'); END;
CREATE TRIGGER person_stays_gone BEFORE UPDATE ON person WHEN OLD.removed IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a person who is gone stays as they were'); END;

CREATE TABLE session (
    hash    BLOB NOT NULL PRIMARY KEY CHECK (length(hash) = 32), -- SHA-256 of the secret in the cookie
    person  BLOB NOT NULL REFERENCES person (id),
    started INTEGER NOT NULL,                     -- Unix milliseconds
    seen    INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX session_of ON session (person);

CREATE TABLE audit (
    n       INTEGER NOT NULL PRIMARY KEY CHECK (n >= 1),
    at      TEXT NOT NULL,
    who     BLOB REFERENCES person (id),          -- none: nobody who is known, or the machine itself
    what    TEXT NOT NULL,
    about   TEXT,
    address TEXT
) STRICT;

CREATE TRIGGER audit_never_changes BEFORE UPDATE ON audit
BEGIN SELECT RAISE(ABORT, 'a line of the audit log is never changed'); END;
CREATE TRIGGER audit_never_leaves BEFORE DELETE ON audit
BEGIN SELECT RAISE(ABORT, 'a line of the audit log is never removed'); END;
CREATE TRIGGER audit_never_replaced BEFORE INSERT ON audit WHEN EXISTS (SELECT 1 FROM audit WHERE n = NEW.n)
BEGIN SELECT RAISE(ABORT, 'a line of the audit log is never replaced'); END;
