-- Tablets that hand their packets over by themselves. Each has a secret, kept here as a hash. A tablet is never removed,
-- because the audit log names it: it gets a moment from which on it is revoked.

CREATE TABLE tablet (
    id         BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
    name       TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 120),
    hash       BLOB NOT NULL UNIQUE CHECK (length(hash) = 32), -- SHA-256 of the secret
    key        TEXT NOT NULL,                     -- thumbprint of the key it seals with
    paired_at  TEXT NOT NULL,
    paired_by  BLOB NOT NULL REFERENCES person (id),
    last_seen  TEXT,
    revoked_at TEXT
) STRICT, WITHOUT ROWID;

CREATE TRIGGER tablet_never_leaves BEFORE DELETE ON tablet
BEGIN SELECT RAISE(ABORT, 'a tablet is never deleted; the audit log names it'); END;
CREATE TRIGGER tablet_stays_revoked BEFORE UPDATE ON tablet WHEN OLD.revoked_at IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'a tablet that is revoked stays so; pair it again'); END;
CREATE TRIGGER tablet_never_replaced BEFORE INSERT ON tablet
WHEN EXISTS (SELECT 1 FROM tablet WHERE id = NEW.id OR hash = NEW.hash)
BEGIN SELECT RAISE(ABORT, 'a tablet is never replaced'); END;

-- Invitations that can still be used. One is gone when it is used, too old, or was guessed at too often.

CREATE TABLE invitation (
    name    BLOB NOT NULL PRIMARY KEY CHECK (length(name) = 8), -- the part of the code that names it
    hash    BLOB NOT NULL CHECK (length(hash) = 32), -- SHA-256 of the whole code
    made_by BLOB NOT NULL REFERENCES person (id),
    until   INTEGER NOT NULL,                     -- Unix milliseconds
    wrong   INTEGER NOT NULL CHECK (wrong >= 0)   -- codes that named it and were wrong
) STRICT, WITHOUT ROWID;

-- Where photographs lie in packets that were received, so that one that is here need not travel again. Made from the
-- packets: a row that is missing or wrong costs a second journey and nothing else.

CREATE TABLE segment (
    digest BLOB    NOT NULL PRIMARY KEY CHECK (length(digest) = 32),
    packet BLOB    NOT NULL CHECK (length(packet) = 32),
    at     INTEGER NOT NULL CHECK (at >= 0),      -- where it begins in the file of that packet
    bytes  INTEGER NOT NULL CHECK (bytes >= 1)
) STRICT, WITHOUT ROWID;
