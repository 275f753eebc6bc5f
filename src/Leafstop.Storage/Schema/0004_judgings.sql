-- Blind judgings of a camera: every answer, and what they said on that day. The newest one with a limit speaks for its tags.
CREATE TABLE judging (
    id                   INTEGER PRIMARY KEY,
    camera_id            INTEGER NOT NULL REFERENCES camera (id) ON DELETE CASCADE,
    begun_at_utc         TEXT NOT NULL,
    judged_at_utc        TEXT NOT NULL,
    is_imported          INTEGER NOT NULL,
    -- Screen or Paper.
    source               TEXT NOT NULL,
    seed                 INTEGER NOT NULL,
    body                 TEXT NOT NULL,
    print_width_mm       REAL NOT NULL,
    viewing_distance_mm  REAL NOT NULL,
    tone                 TEXT NOT NULL,
    treatment            TEXT NOT NULL,
    UNIQUE (camera_id, source, seed, begun_at_utc)
) STRICT;

CREATE TABLE judging_ladder (
    judging_id  INTEGER NOT NULL REFERENCES judging (id) ON DELETE CASCADE,
    iso         REAL NOT NULL,
    has_pair    INTEGER NOT NULL,
    PRIMARY KEY (judging_id, iso)
) STRICT, WITHOUT ROWID;

CREATE TABLE judging_answer (
    judging_id  INTEGER NOT NULL REFERENCES judging (id) ON DELETE CASCADE,
    number      INTEGER NOT NULL,
    question    TEXT NOT NULL,
    iso         REAL NOT NULL,
    -- Weight of the one frame of the pair, 0.5 to 1.
    weight      REAL NOT NULL,
    is_blank    INTEGER NOT NULL,
    reply       TEXT NOT NULL,
    PRIMARY KEY (judging_id, number)
) STRICT, WITHOUT ROWID;

CREATE TABLE judged_limit (
    judging_id             INTEGER NOT NULL REFERENCES judging (id) ON DELETE CASCADE,
    question               TEXT NOT NULL,
    outcome                TEXT NOT NULL,
    answers                INTEGER NOT NULL,
    blanks                 INTEGER NOT NULL,
    blanks_refused         INTEGER NOT NULL,
    -- Stops above ISO 100, unrounded, with the 95 % interval.
    limit_stops            REAL,
    limit_low_stops        REAL,
    limit_high_stops       REAL,
    spread_stops           REAL,
    repeats_agreeing       INTEGER,
    repeats_pairs          INTEGER,
    repeats_expected       REAL,
    drift_stops            REAL,
    drift_standard_errors  REAL,
    PRIMARY KEY (judging_id, question)
) STRICT, WITHOUT ROWID;
