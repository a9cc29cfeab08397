-- How right the library's stated probabilities were, question by question, and the correction learned
-- from each. Those of the newest change of a technique count. The rows of `proof`, which has one
-- correction for all questions, do not count any more.
CREATE TABLE proved_question (
    id                   INTEGER PRIMARY KEY,
    technique            TEXT NOT NULL CHECK (technique IN ('tlc', 'paper', 'column', 'hplc', 'gc')),
    question             TEXT NOT NULL CHECK (question IN ('run', 'day', 'new_system')), -- left out
    systems              INTEGER NOT NULL CHECK (systems BETWEEN 1 AND 3), -- of a feature; 3 or more
    questions            INTEGER NOT NULL CHECK (questions > 0),
    measured_exponent    REAL NOT NULL CHECK (measured_exponent > 0), -- of odds among measured ones
    transferred_exponent REAL NOT NULL CHECK (transferred_exponent > 0),
    unlisted_offset      REAL NOT NULL, -- of the logarithm of the odds of unlisted
    measured_limit       REAL NOT NULL CHECK (measured_limit BETWEEN 0 AND 1), -- of candidate sets;
    transferred_limit    REAL NOT NULL CHECK (transferred_limit BETWEEN 0 AND 1), -- 0: not learned
    unlisted_limit       REAL NOT NULL CHECK (unlisted_limit BETWEEN 0 AND 1),
    calibration_error    REAL NOT NULL, -- after the correction, on questions it was not fitted to
    change_id            INTEGER NOT NULL REFERENCES change (id)
) STRICT;
CREATE INDEX proved_question_by_technique ON proved_question (technique, change_id);
