-- By how many stops the dark was lifted when it was judged: part of what a limit holds for. NULL where it was kept before this was told.
ALTER TABLE judging ADD COLUMN lift_stops REAL;
ALTER TABLE strip ADD COLUMN lift_stops REAL;
-- When the person dropped a judging: it stays in the history and speaks no more. NULL while it speaks.
ALTER TABLE judging ADD COLUMN dropped_at_utc TEXT;
