-- How right the library's stated probabilities were when its own values were asked of it, and the
-- correction learned from that. The newest row of a technique counts.
CREATE TABLE proof (
    id              INTEGER PRIMARY KEY,
    technique       TEXT NOT NULL CHECK (technique IN ('tlc', 'paper', 'column', 'hplc', 'gc')),
    several_systems INTEGER NOT NULL CHECK (several_systems IN (0, 1)), -- features seen on several
    questions       INTEGER NOT NULL CHECK (questions > 0),
    exponent        REAL NOT NULL CHECK (exponent > 0),       -- of stated odds
    least_in_set    REAL NOT NULL CHECK (least_in_set > 0 AND least_in_set <= 1), -- see matcher
    calibration_error REAL NOT NULL,      -- after the correction, on questions it was not fitted to
    change_id       INTEGER NOT NULL REFERENCES change (id)
) STRICT;
CREATE INDEX proof_by_technique ON proof (technique, several_systems, id);
