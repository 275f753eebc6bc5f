-- Folders that were asked to be measured on the page: the wish before the work begins, so that a host that was killed is followed by one that goes on, and the answer afterwards.
CREATE TABLE measuring (
    id                  TEXT PRIMARY KEY,
    folder              TEXT NOT NULL,
    print_width_mm      REAL NOT NULL,
    viewing_distance_mm REAL NOT NULL,
    begun_at_utc        TEXT NOT NULL,
    -- Open, Stopped, Done or Failed.
    state               TEXT NOT NULL,
    ended_at_utc        TEXT,
    -- One sentence where it failed.
    why                 TEXT,
    -- The words that a list shows.
    camera              TEXT,
    verdict             TEXT,
    -- The answer as docs/json/measure.md describes it.
    answer              TEXT
) STRICT;
