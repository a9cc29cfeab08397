-- What mends a library: names that systems had before, structures that compounds had before, compounds
-- that are withdrawn, and what each change was about.

-- The command as it was typed, without the library's file; empty: not recorded.
ALTER TABLE change ADD COLUMN command TEXT NOT NULL DEFAULT '';

-- Set: the compound is withdrawn with all its values, and no candidate.
ALTER TABLE compound ADD COLUMN retired_change_id INTEGER REFERENCES change (id);

-- Names that a system had before: tables that use them still work. Those of a compound are synonyms.
CREATE TABLE system_name (
    name      TEXT PRIMARY KEY CHECK (name <> '') COLLATE NOCASE,
    system_id INTEGER NOT NULL REFERENCES system (id),
    change_id INTEGER NOT NULL REFERENCES change (id) -- that gave the system another name
) STRICT, WITHOUT ROWID;

-- Structures that compounds had until they were found to be wrong.
CREATE TABLE former_structure (
    id          INTEGER PRIMARY KEY,
    compound_id INTEGER NOT NULL REFERENCES compound (id),
    inchikey    TEXT NOT NULL CHECK (length(inchikey) = 27),
    smiles      TEXT NOT NULL,
    formula     TEXT NOT NULL,
    change_id   INTEGER NOT NULL REFERENCES change (id) -- that corrected it
) STRICT;
CREATE INDEX former_structure_by_inchikey ON former_structure (inchikey);

-- What a change was about, where no other row carries its number for good: what was renamed or
-- corrected, and the values that were retired or taken back.
CREATE TABLE change_subject (
    id          INTEGER PRIMARY KEY,
    change_id   INTEGER NOT NULL REFERENCES change (id),
    compound_id INTEGER REFERENCES compound (id),
    system_id   INTEGER REFERENCES system (id),
    run_id      INTEGER REFERENCES run (id)
) STRICT;
CREATE INDEX change_subject_of_compound ON change_subject (compound_id);

-- A fit knows compounds by their InChIKeys.
CREATE TRIGGER fit_of_changed_structure AFTER UPDATE OF inchikey ON compound BEGIN
    DELETE FROM fit WHERE system_id IN
        (SELECT system_id FROM measurement WHERE compound_id = OLD.id);
END;
