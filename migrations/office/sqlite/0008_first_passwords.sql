-- 1: the password is the one an owner chose for somebody: it lets them choose their own, and do nothing else. Whoever was here
-- before this column was may have changed theirs, and is not asked.
ALTER TABLE person ADD COLUMN first_password INTEGER NOT NULL DEFAULT 0 CHECK (first_password IN (0, 1));
