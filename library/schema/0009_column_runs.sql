-- Columns of the laboratory's own, and where bands left them. An empty text means "not stated".
CREATE TABLE packed_column (
    id          INTEGER PRIMARY KEY,
    name        TEXT NOT NULL UNIQUE CHECK (name <> '') COLLATE NOCASE,
    silica_g    REAL CHECK (silica_g > 0),    -- of a cartridge whose bed nobody measured
    diameter_mm REAL CHECK (diameter_mm > 0), -- inner
    bed_mm      REAL CHECK (bed_mm > 0),      -- height of the silica
    hold_up_ml  REAL CHECK (hold_up_ml > 0),  -- measured, of all that an unretained compound passes
    outside_ml  REAL CHECK (outside_ml > 0),  -- measured, of the hold-up, outside the bed
    change_id   INTEGER NOT NULL REFERENCES change (id),
    CHECK ((diameter_mm IS NULL) = (bed_mm IS NULL)),
    CHECK (silica_g IS NOT NULL OR diameter_mm IS NOT NULL OR hold_up_ml IS NOT NULL)
) STRICT;

-- The compound is a name: a column may be calibrated with what the library has no structure of.
CREATE TABLE column_band (
    id        INTEGER PRIMARY KEY,
    column_id INTEGER NOT NULL REFERENCES packed_column (id),
    run       TEXT NOT NULL,
    date      TEXT NOT NULL,                        -- YYYY, YYYY-MM or YYYY-MM-DD
    compound  TEXT NOT NULL CHECK (compound <> '') COLLATE NOCASE,
    rf        REAL NOT NULL CHECK (rf > 0 AND rf < 1), -- on a plate in the eluent of the run
    start_ml  REAL NOT NULL CHECK (start_ml > 0),
    peak_ml   REAL CHECK (peak_ml > start_ml AND peak_ml < end_ml),
    end_ml    REAL NOT NULL CHECK (end_ml > start_ml),
    amount_mg REAL CHECK (amount_mg > 0),
    load_ml   REAL NOT NULL CHECK (load_ml >= 0),   -- volume in which it was loaded; 0: dry
    source    TEXT NOT NULL,
    note      TEXT NOT NULL,
    change_id INTEGER NOT NULL REFERENCES change (id)
) STRICT;
CREATE INDEX column_band_of_column ON column_band (column_id, id);
