-- Versions of the firm's catalog that were published to its tablets, each as it was signed and with the bytes that go along.
-- They only grow: a tablet may hold any of them, and a forecast names the numbers it was made by.

CREATE TABLE catalog_version (
    number  INTEGER NOT NULL PRIMARY KEY CHECK (number >= 1),
    version TEXT NOT NULL CHECK (version <> ''), -- the signed text
    files   TEXT NOT NULL CHECK (json_valid(files)) -- the firm's files it names, as they travel
) STRICT, WITHOUT ROWID;

CREATE TRIGGER catalog_version_never_changes BEFORE UPDATE ON catalog_version
BEGIN SELECT RAISE(ABORT, 'a published catalog is never changed; publish a later one'); END;
CREATE TRIGGER catalog_version_never_leaves BEFORE DELETE ON catalog_version
BEGIN SELECT RAISE(ABORT, 'a published catalog is never removed; publish a later one'); END;
CREATE TRIGGER catalog_version_never_replaced BEFORE INSERT ON catalog_version
WHEN EXISTS (SELECT 1 FROM catalog_version WHERE number >= NEW.number)
BEGIN SELECT RAISE(ABORT, 'a published catalog is never replaced; publish a later one'); END;
