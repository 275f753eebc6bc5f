-- Places, and the light that was metered there. A place is what the person typed; nothing is looked up.
CREATE TABLE place (
    id                 INTEGER PRIMARY KEY,
    name               TEXT NOT NULL,
    -- The name trimmed and in one case: two places never differ by that alone.
    name_key           TEXT NOT NULL UNIQUE,
    latitude_degrees   REAL NOT NULL,
    longitude_degrees  REAL NOT NULL,
    elevation_metres   REAL NOT NULL,
    zone               TEXT NOT NULL,
    ridge_degrees      REAL,
    -- As it was written: a share, a leaf area or a name.
    canopy             TEXT,
    -- Open, Valley or Basin, and how high the walls stand.
    land_shape         TEXT NOT NULL,
    wall_degrees       REAL NOT NULL
) STRICT;

CREATE TABLE light_note (
    place_id       INTEGER NOT NULL REFERENCES place (id) ON DELETE CASCADE,
    -- Counted up within the place and not used again while a later one is there.
    number         INTEGER NOT NULL,
    noted_at_utc   TEXT NOT NULL,
    metered_ev100  REAL NOT NULL,
    cloud_okta     REAL,
    filter         TEXT NOT NULL,
    filter_stops   REAL NOT NULL,
    remark         TEXT NOT NULL,
    PRIMARY KEY (place_id, number)
) STRICT, WITHOUT ROWID;
