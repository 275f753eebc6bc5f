-- Where read noise drops at once between two neighbouring levels. Measurements from before have none kept.
CREATE TABLE gain_step (
    measurement_id    INTEGER NOT NULL REFERENCES measurement (id),
    position          INTEGER NOT NULL,
    below_iso         REAL NOT NULL,
    above_iso         REAL NOT NULL,
    read_noise_ratio  REAL NOT NULL,
    PRIMARY KEY (measurement_id, position)
) STRICT, WITHOUT ROWID;
