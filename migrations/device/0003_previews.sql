-- Small pictures made of photographs, and what was seen of a photograph while they were made. Nothing here is a record:
-- everything can be made again from the originals, and is replaced when it is. The files lie in the folder `previews`,
-- by their SHA-256; a file that no row names is a leftover and may go.

CREATE TABLE preview (
  original BLOB    NOT NULL CHECK (length(original) = 32), -- SHA-256 of the photograph
  longest  INTEGER NOT NULL CHECK (longest >= 1),          -- longer side asked for, in pixels
  digest   BLOB    NOT NULL CHECK (length(digest) = 32),   -- SHA-256 of the preview
  bytes    INTEGER NOT NULL CHECK (bytes >= 1),
  width    INTEGER NOT NULL CHECK (width >= 1),
  height   INTEGER NOT NULL CHECK (height >= 1),
  PRIMARY KEY (original, longest)
) STRICT, WITHOUT ROWID;

CREATE TABLE look (
  original BLOB NOT NULL PRIMARY KEY CHECK (length(original) = 32),
  seen     TEXT NOT NULL CHECK (json_valid(seen))
) STRICT, WITHOUT ROWID;
