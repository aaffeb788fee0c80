-- Packets that were sealed on this device and are kept until the office has them. The files lie in the folder `packets`,
-- or where somebody had them written. A packet is never made again from the log to the same bytes, because it says when
-- it was sealed; so its sum is noted here beside it.

CREATE TABLE packet (
  survey    BLOB    NOT NULL CHECK (length(survey) = 16),
  number    INTEGER NOT NULL CHECK (number >= 1),
  file      TEXT    NOT NULL CHECK (file <> ''),      -- a name in the folder `packets`, or a whole path elsewhere
  digest    BLOB    NOT NULL CHECK (length(digest) = 32), -- SHA-256 of the file
  bytes     INTEGER NOT NULL CHECK (bytes >= 1),
  files     INTEGER NOT NULL CHECK (files >= 1),      -- files inside
  photos    INTEGER NOT NULL CHECK (photos >= 0),     -- photographs inside
  entries   INTEGER NOT NULL CHECK (entries >= 1),    -- entries of the log inside
  pages     INTEGER NOT NULL CHECK (pages IN (0, 1)), -- whether it holds pages to read
  sealed_at TEXT    NOT NULL,
  PRIMARY KEY (survey, number)
) STRICT, WITHOUT ROWID;

-- The line of each house in the list, as it was made from so many entries by a catalog and a program: a list of hundreds
-- of houses need not be folded anew. Not a record; made again whenever one of these is another.

CREATE TABLE card (
  survey   BLOB    NOT NULL PRIMARY KEY CHECK (length(survey) = 16),
  entries  INTEGER NOT NULL CHECK (entries >= 1),
  assessed INTEGER NOT NULL CHECK (assessed >= 0), -- number of the frozen assessment it shows; 0 for none
  made_by  TEXT    NOT NULL,                       -- catalog and program
  line     TEXT    NOT NULL CHECK (json_valid(line))
) STRICT, WITHOUT ROWID;
