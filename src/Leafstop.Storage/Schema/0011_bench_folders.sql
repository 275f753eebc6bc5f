-- Where the raw files of a measuring lay, so that judging them needs no folder again. Of this machine only; null where it is not known.
ALTER TABLE measurement ADD COLUMN folder TEXT;
