-- Who of the household signed the page in a packet; none where nobody did.

ALTER TABLE packet ADD COLUMN signed_by TEXT CHECK (signed_by IS NULL OR signed_by <> '');
