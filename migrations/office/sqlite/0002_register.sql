-- What the office knows of keys: its own public keys, every certificate, the revocation list. Every state of it is a row;
-- the last one counts. It lies beside the packets, so that a backup holds both or neither: an office that had packets but
-- no list of what it revoked would take in what a stolen tablet sealed.

CREATE TABLE register (
    n    INTEGER NOT NULL PRIMARY KEY CHECK (n >= 1),
    body TEXT NOT NULL CHECK (json_valid(body))
) STRICT, WITHOUT ROWID;

CREATE TRIGGER register_never_changes BEFORE UPDATE ON register
BEGIN SELECT RAISE(ABORT, 'a state of the register is never changed'); END;
CREATE TRIGGER register_never_leaves BEFORE DELETE ON register
BEGIN SELECT RAISE(ABORT, 'a state of the register is never removed'); END;
CREATE TRIGGER register_never_replaced BEFORE INSERT ON register
WHEN EXISTS (SELECT 1 FROM register WHERE n = NEW.n)
BEGIN SELECT RAISE(ABORT, 'a state of the register is never replaced'); END;

-- 0: somebody asked for a packet that no certificate of this office vouches for. While the office has no key it cannot
-- tell, and every packet is 1.
ALTER TABLE packet ADD COLUMN vouched INTEGER NOT NULL DEFAULT 1 CHECK (vouched IN (0, 1));
