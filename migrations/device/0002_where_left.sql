-- Where the screens were left, so that a program that was killed opens again on the same card, and who walks. Not a
-- record of a house: nothing here is hashed or sealed, and losing it loses no answer.

CREATE TABLE left_at (
  survey  BLOB    NOT NULL PRIMARY KEY CHECK (length(survey) = 16),
  card    TEXT    NOT NULL,
  here    INTEGER NOT NULL CHECK (here IN (0, 1)),
  at      TEXT    NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE kept_word (
  name  TEXT NOT NULL PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
