-- Cameras that were measured. Every measuring is kept; the newest one speaks for the camera.
CREATE TABLE camera (
    id        INTEGER PRIMARY KEY,
    name      TEXT NOT NULL,
    -- The name trimmed and in one case: two cameras never differ by that alone.
    name_key  TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE measurement (
    id                INTEGER PRIMARY KEY,
    camera_id         INTEGER NOT NULL REFERENCES camera (id),
    measured_at_utc   TEXT NOT NULL,
    is_imported       INTEGER NOT NULL,
    make              TEXT NOT NULL,
    model             TEXT NOT NULL,
    body_fingerprint  TEXT,
    width_px          INTEGER NOT NULL,
    height_px         INTEGER NOT NULL,
    mosaic            TEXT NOT NULL,
    bits              INTEGER NOT NULL,
    ladder            TEXT NOT NULL
) STRICT;

CREATE INDEX measurement_by_camera ON measurement (camera_id, measured_at_utc);

CREATE TABLE level (
    measurement_id             INTEGER NOT NULL REFERENCES measurement (id),
    position                   INTEGER NOT NULL,
    iso                        REAL NOT NULL,
    ladder                     TEXT NOT NULL,
    gain_electrons_per_dn      REAL,
    gain_low_electrons_per_dn  REAL,
    gain_high_electrons_per_dn REAL,
    read_noise_electrons       REAL,
    read_noise_low_electrons   REAL,
    read_noise_high_electrons  REAL,
    read_noise_source          TEXT,
    saturation_electrons       REAL,
    is_clip_seen               INTEGER NOT NULL,
    is_usable                  INTEGER NOT NULL,
    flags                      TEXT NOT NULL,
    reason                     TEXT,
    PRIMARY KEY (measurement_id, position)
) STRICT, WITHOUT ROWID;
