-- A fit is kept in parts, so that a question about one value reads what lies near it only.
DELETE FROM fit;
ALTER TABLE fit RENAME COLUMN model TO summary;

CREATE TABLE fit_part (
    id         INTEGER PRIMARY KEY,
    fit_id     INTEGER NOT NULL REFERENCES fit (id),
    number     INTEGER NOT NULL CHECK (number >= 0), -- in the order of retention
    candidates BLOB NOT NULL,
    UNIQUE (fit_id, number)
) STRICT;

CREATE TRIGGER parts_of_deleted_fit BEFORE DELETE ON fit BEGIN
    DELETE FROM fit_part WHERE fit_id = OLD.id;
END;
