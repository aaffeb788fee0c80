-- What the codes of somebody's second factor are made from (RFC 6238), and the step of time whose code was used last: a code
-- is good once. It must be read to be compared, so that it is no hash.
ALTER TABLE person ADD COLUMN second_secret BLOB CHECK (length(second_secret) = 20);
ALTER TABLE person ADD COLUMN second_last INTEGER;
-- 1: nobody gets on with a password alone.
ALTER TABLE firm ADD COLUMN second_demanded INTEGER NOT NULL DEFAULT 0 CHECK (second_demanded IN (0, 1));
-- From where a session began, for its person to tell theirs apart; none for those begun before this column was.
ALTER TABLE session ADD COLUMN address TEXT;
