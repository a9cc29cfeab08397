-- Relative retention (RRT, r) counts from a compound that the system names.
ALTER TABLE system ADD COLUMN reference TEXT NOT NULL DEFAULT '';

-- A check cannot be changed, so the two tables that list the quantities are made anew.
CREATE TABLE wider_measurement (
    id                INTEGER PRIMARY KEY,
    compound_id       INTEGER NOT NULL REFERENCES compound (id),
    system_id         INTEGER NOT NULL,
    run_id            INTEGER NOT NULL,
    quantity          TEXT NOT NULL
        CHECK (quantity IN ('Rf', 'k', 'RI', 'tR', 'RRT', 'r')), -- tR in min
    value             REAL NOT NULL,
    uncertainty       REAL CHECK (uncertainty > 0), -- standard uncertainty, unit of the quantity
    source            TEXT NOT NULL DEFAULT '',
    note              TEXT NOT NULL DEFAULT '',
    change_id         INTEGER NOT NULL REFERENCES change (id),
    superseded_by     INTEGER REFERENCES wider_measurement (id), -- the corrected value
    retired_change_id INTEGER REFERENCES change (id),
    FOREIGN KEY (run_id, system_id) REFERENCES run (id, system_id)
) STRICT;
INSERT INTO wider_measurement SELECT * FROM measurement;
DROP TABLE measurement;
ALTER TABLE wider_measurement RENAME TO measurement;
CREATE INDEX measurement_of_compound ON measurement (compound_id, run_id, quantity);
CREATE INDEX measurement_on_system
    ON measurement (system_id, quantity, compound_id, value, run_id)
    WHERE superseded_by IS NULL AND retired_change_id IS NULL;

DROP TABLE fit_part;
DROP TABLE fit;
CREATE TABLE fit (
    id          INTEGER PRIMARY KEY,
    system_id   INTEGER NOT NULL REFERENCES system (id),
    quantity    TEXT NOT NULL CHECK (quantity IN ('Rf', 'k', 'RI', 'tR', 'RRT', 'r')),
    version     INTEGER NOT NULL,
    value_count INTEGER NOT NULL CHECK (value_count > 0), -- that it was fitted to
    summary     BLOB NOT NULL,
    UNIQUE (system_id, quantity)
) STRICT;
CREATE TABLE fit_part (
    id         INTEGER PRIMARY KEY,
    fit_id     INTEGER NOT NULL REFERENCES fit (id),
    number     INTEGER NOT NULL CHECK (number >= 0), -- in the order of retention
    candidates BLOB NOT NULL,
    UNIQUE (fit_id, number)
) STRICT;

-- Triggers go with their tables, those of other tables that name them stay.
CREATE TRIGGER fit_of_new_value AFTER INSERT ON measurement BEGIN
    DELETE FROM fit WHERE system_id = NEW.system_id;
END;
CREATE TRIGGER fit_of_changed_value AFTER UPDATE ON measurement BEGIN
    DELETE FROM fit WHERE system_id IN (OLD.system_id, NEW.system_id);
END;
CREATE TRIGGER fit_of_deleted_value AFTER DELETE ON measurement BEGIN
    DELETE FROM fit WHERE system_id = OLD.system_id;
END;
CREATE TRIGGER parts_of_deleted_fit BEFORE DELETE ON fit BEGIN
    DELETE FROM fit_part WHERE fit_id = OLD.id;
END;
