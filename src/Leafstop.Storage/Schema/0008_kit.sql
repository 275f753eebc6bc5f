-- What the person carries and likes, for pages and cards that are made of it.
CREATE TABLE lens (
    focal_length_mm  REAL PRIMARY KEY
) STRICT;

CREATE TABLE taste (
    streak_percent  REAL PRIMARY KEY
) STRICT;
