-- Pocket cards that were read back: the text as it stood in the code. A camera may be known from cards alone.
CREATE TABLE card (
    id           INTEGER PRIMARY KEY,
    camera_id    INTEGER NOT NULL REFERENCES camera (id) ON DELETE CASCADE,
    kept_at_utc  TEXT NOT NULL,
    text         TEXT NOT NULL,
    UNIQUE (camera_id, text)
) STRICT;
