-- Test strips on paper that wait for their answers: with its number, ladder and repeats the key of a strip is drawn again.
CREATE TABLE strip (
    number               INTEGER PRIMARY KEY,
    -- The camera that the answers belong to; it need not be kept yet.
    camera               TEXT NOT NULL,
    made_at_utc          TEXT NOT NULL,
    repeats              INTEGER NOT NULL,
    body                 TEXT NOT NULL,
    print_width_mm       REAL NOT NULL,
    viewing_distance_mm  REAL NOT NULL,
    tone                 TEXT NOT NULL,
    treatment            TEXT NOT NULL
) STRICT;

CREATE TABLE strip_ladder (
    number    INTEGER NOT NULL REFERENCES strip (number) ON DELETE CASCADE,
    iso       REAL NOT NULL,
    has_pair  INTEGER NOT NULL,
    PRIMARY KEY (number, iso)
) STRICT, WITHOUT ROWID;
