-- What structures say about themselves for retention from structure, and what a search for the
-- parameters of such a model found, so that a prediction need not do it all again. Derived: whatever
-- changes a structure, a system or a value takes it away, and the next command that predicts makes
-- it anew. The bytes are the program's own, with a fingerprint of what they were made of.
CREATE TABLE structure_features (
    compound_id INTEGER PRIMARY KEY REFERENCES compound (id),
    bytes       BLOB NOT NULL
) STRICT;

CREATE TABLE prediction_fit (
    id       INTEGER PRIMARY KEY,
    quantity TEXT NOT NULL CHECK (quantity IN ('Rf', 'k', 'RI', 'tR', 'RRT', 'r')),
    bytes    BLOB NOT NULL
) STRICT;

-- The systems whose values a fit was made of: those that differ in their mobile phase only.
CREATE TABLE prediction_system (
    system_id INTEGER NOT NULL REFERENCES system (id),
    fit_id    INTEGER NOT NULL REFERENCES prediction_fit (id),
    PRIMARY KEY (system_id, fit_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX prediction_system_by_fit ON prediction_system (fit_id);

CREATE TRIGGER systems_of_deleted_prediction BEFORE DELETE ON prediction_fit BEGIN
    DELETE FROM prediction_system WHERE fit_id = OLD.id;
END;
-- Asked first, since many values are learned at a time.
CREATE TRIGGER prediction_of_new_value AFTER INSERT ON measurement
WHEN EXISTS (SELECT 1 FROM prediction_system WHERE system_id = NEW.system_id) BEGIN
    DELETE FROM prediction_fit WHERE id IN
        (SELECT fit_id FROM prediction_system WHERE system_id = NEW.system_id);
END;
CREATE TRIGGER prediction_of_changed_value AFTER UPDATE ON measurement BEGIN
    DELETE FROM prediction_fit WHERE id IN
        (SELECT fit_id FROM prediction_system WHERE system_id IN (OLD.system_id, NEW.system_id));
END;
CREATE TRIGGER prediction_of_deleted_value AFTER DELETE ON measurement BEGIN
    DELETE FROM prediction_fit WHERE id IN
        (SELECT fit_id FROM prediction_system WHERE system_id = OLD.system_id);
END;
CREATE TRIGGER prediction_of_changed_system AFTER UPDATE ON system BEGIN
    DELETE FROM prediction_fit WHERE id IN
        (SELECT fit_id FROM prediction_system WHERE system_id = OLD.id);
END;
CREATE TRIGGER features_of_changed_structure AFTER UPDATE OF smiles, inchikey ON compound BEGIN
    DELETE FROM structure_features WHERE compound_id = OLD.id;
    DELETE FROM prediction_fit WHERE id IN
        (SELECT fit_id FROM prediction_system WHERE system_id IN
            (SELECT system_id FROM measurement WHERE compound_id = OLD.id));
END;
CREATE TRIGGER features_of_deleted_structure BEFORE DELETE ON compound BEGIN
    DELETE FROM structure_features WHERE compound_id = OLD.id;
END;
