-- Which published version of the catalog each tablet holds, as far as it said: NULL when it never asked, 0 when it had none,
-- -1 when it had one that is not this office's, else its number. The second is a version that was handed to it and that it has
-- not said yet that it took.
ALTER TABLE tablet ADD COLUMN numbers_held INTEGER CHECK (numbers_held >= -1);
ALTER TABLE tablet ADD COLUMN numbers_sent INTEGER CHECK (numbers_sent >= 1);
