-- 1: the log in the packet declares demolition. Its forecast may know what was opened, and is never one that came in time;
-- nor is any that came after it. No packet received before this column was there could hold such a declaration.
ALTER TABLE packet ADD COLUMN after_demolition INTEGER NOT NULL DEFAULT 0 CHECK (after_demolition IN (0, 1));
