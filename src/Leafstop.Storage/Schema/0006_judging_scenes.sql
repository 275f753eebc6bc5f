-- What the pictures of a judging on the screen were made from, so that it can be gone on with when the program was ended in between.
-- A judging without a row here (on paper, from a file, kept by an earlier version) cannot be.
CREATE TABLE judging_scene (
    judging_id                    INTEGER PRIMARY KEY REFERENCES judging (id) ON DELETE CASCADE,
    -- Stands for the judging in addresses; random.
    name                          TEXT NOT NULL UNIQUE,
    folder                        TEXT NOT NULL,
    -- Stands for the samples of all pictures: other raw files give another mark.
    samples_mark                  TEXT NOT NULL,
    screen_pixels_per_centimetre  REAL NOT NULL,
    crop_side_px                  INTEGER NOT NULL
) STRICT;

CREATE TABLE judging_crop (
    judging_id  INTEGER NOT NULL REFERENCES judging_scene (judging_id) ON DELETE CASCADE,
    region      TEXT NOT NULL,
    left_px     INTEGER NOT NULL,
    top_px      INTEGER NOT NULL,
    PRIMARY KEY (judging_id, region)
) STRICT, WITHOUT ROWID;
