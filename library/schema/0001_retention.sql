-- A retention library: which compound showed which retention on which system, and who said so.
-- Units stand in the column names. Nothing is deleted: a value that no longer holds is retired or
-- superseded by a later change and stays readable.

-- Every change of the library is one transaction and one row here.
CREATE TABLE change (
    id      INTEGER PRIMARY KEY,
    at_utc  TEXT NOT NULL,              -- ISO 8601, e.g. 2026-01-31T09:30:00Z
    who     TEXT NOT NULL,              -- login name on the computer
    action  TEXT NOT NULL,              -- the command, e.g. learn
    detail  TEXT NOT NULL DEFAULT ''    -- file names and the like
) STRICT;

-- A compound is its structure; the standard InChIKey tells structures apart.
CREATE TABLE compound (
    id                INTEGER PRIMARY KEY,
    inchikey          TEXT NOT NULL UNIQUE CHECK (length(inchikey) = 27),
    parent_inchikey   TEXT NOT NULL CHECK (length(parent_inchikey) = 27), -- salt and free base agree
    smiles            TEXT NOT NULL,    -- canonical, with stereo
    name              TEXT NOT NULL CHECK (name <> '') COLLATE NOCASE,
    cas               TEXT,             -- registry number, check digit verified
    formula           TEXT NOT NULL,    -- Hill order
    average_mass      REAL NOT NULL,    -- g/mol
    monoisotopic_mass REAL NOT NULL,    -- Da
    open_stereo       INTEGER NOT NULL CHECK (open_stereo IN (0, 1)), -- 1: stereo not fully given
    change_id         INTEGER NOT NULL REFERENCES change (id)
) STRICT;
CREATE INDEX compound_by_name ON compound (name);
CREATE INDEX compound_by_parent ON compound (parent_inchikey);
CREATE INDEX compound_by_mass ON compound (monoisotopic_mass);

-- Further names of the same structure.
CREATE TABLE synonym (
    compound_id INTEGER NOT NULL REFERENCES compound (id),
    name        TEXT NOT NULL CHECK (name <> '') COLLATE NOCASE,
    change_id   INTEGER NOT NULL REFERENCES change (id),
    PRIMARY KEY (name, compound_id)
) STRICT, WITHOUT ROWID;

-- What a retention value holds under. An empty text means "not stated".
CREATE TABLE system (
    id                 INTEGER PRIMARY KEY,
    name               TEXT NOT NULL UNIQUE CHECK (name <> ''),
    technique          TEXT NOT NULL CHECK (technique IN ('tlc', 'paper', 'column', 'hplc', 'gc')),
    stationary_phase   TEXT NOT NULL DEFAULT '',
    mobile_phase       TEXT NOT NULL DEFAULT '', -- or carrier gas
    programme          TEXT NOT NULL DEFAULT '', -- oven programme or gradient
    scale              TEXT NOT NULL DEFAULT '', -- of the retention index, e.g. n-alkane
    column_length_m    REAL CHECK (column_length_m > 0),
    column_diameter_mm REAL CHECK (column_diameter_mm > 0),
    film_um            REAL CHECK (film_um > 0),     -- GC: film thickness
    particle_um        REAL CHECK (particle_um > 0), -- LC: particle size
    note               TEXT NOT NULL DEFAULT '',
    change_id          INTEGER NOT NULL REFERENCES change (id),
    retired_change_id  INTEGER REFERENCES change (id)
) STRICT;

-- The mobile phase as volume parts, in the order in which it is written.
CREATE TABLE system_solvent (
    system_id INTEGER NOT NULL REFERENCES system (id),
    position  INTEGER NOT NULL CHECK (position > 0),
    solvent   TEXT NOT NULL,
    parts     REAL NOT NULL CHECK (parts > 0),
    PRIMARY KEY (system_id, position)
) STRICT, WITHOUT ROWID;

-- One plate developed, one injection or one day's series. An empty text means "not stated";
-- the run with all four texts empty gathers the values of a system whose run nobody wrote down.
CREATE TABLE run (
    id         INTEGER PRIMARY KEY,
    system_id  INTEGER NOT NULL REFERENCES system (id),
    name       TEXT NOT NULL DEFAULT '',
    date       TEXT NOT NULL DEFAULT '', -- YYYY, YYYY-MM or YYYY-MM-DD
    operator   TEXT NOT NULL DEFAULT '',
    instrument TEXT NOT NULL DEFAULT '',
    change_id  INTEGER NOT NULL REFERENCES change (id),
    UNIQUE (system_id, name, date, operator, instrument),
    UNIQUE (id, system_id)
) STRICT;

-- The ladder that fixed the index scale of a run.
CREATE TABLE ladder_member (
    run_id             INTEGER NOT NULL REFERENCES run (id),
    carbon             REAL NOT NULL CHECK (carbon > 0),
    retention_time_min REAL NOT NULL CHECK (retention_time_min > 0),
    PRIMARY KEY (run_id, carbon)
) STRICT, WITHOUT ROWID;

CREATE TABLE measurement (
    id                INTEGER PRIMARY KEY,
    compound_id       INTEGER NOT NULL REFERENCES compound (id),
    system_id         INTEGER NOT NULL,
    run_id            INTEGER NOT NULL,
    quantity          TEXT NOT NULL CHECK (quantity IN ('Rf', 'k', 'RI', 'tR')), -- tR in min
    value             REAL NOT NULL,
    uncertainty       REAL CHECK (uncertainty > 0), -- standard uncertainty, unit of the quantity
    source            TEXT NOT NULL DEFAULT '',
    note              TEXT NOT NULL DEFAULT '',
    change_id         INTEGER NOT NULL REFERENCES change (id),
    superseded_by     INTEGER REFERENCES measurement (id), -- the corrected value
    retired_change_id INTEGER REFERENCES change (id),
    FOREIGN KEY (run_id, system_id) REFERENCES run (id, system_id)
) STRICT;
CREATE INDEX measurement_of_compound ON measurement (compound_id, run_id, quantity);
CREATE INDEX measurement_on_system
    ON measurement (system_id, quantity, compound_id, value, run_id)
    WHERE superseded_by IS NULL AND retired_change_id IS NULL;
