-- How strongly a detector answers to a compound, relative to the same mass of another one. The
-- newest row of a pair and system counts; older ones stay readable.
CREATE TABLE response (
    id             INTEGER PRIMARY KEY,
    compound_id    INTEGER NOT NULL REFERENCES compound (id),
    relative_to_id INTEGER NOT NULL REFERENCES compound (id) CHECK (relative_to_id <> compound_id),
    system_id      INTEGER NOT NULL REFERENCES system (id),
    factor         REAL NOT NULL CHECK (factor > 0),
    date           TEXT NOT NULL,    -- YYYY-MM-DD, or empty
    source         TEXT NOT NULL,
    note           TEXT NOT NULL,
    change_id      INTEGER NOT NULL REFERENCES change (id)
) STRICT;
CREATE INDEX response_by_compound ON response (compound_id, relative_to_id, system_id, id);
