-- What the matcher made of the values of one quantity on one system, so that a question need not
-- read and fit them all again. Derived: whatever changes a value takes it away, and the next
-- command that writes the library makes it anew. The bytes are the matcher's own; only a program
-- that writes the same version of them can read them.
CREATE TABLE fit (
    id          INTEGER PRIMARY KEY,
    system_id   INTEGER NOT NULL REFERENCES system (id),
    quantity    TEXT NOT NULL CHECK (quantity IN ('Rf', 'k', 'RI', 'tR')),
    version     INTEGER NOT NULL,
    value_count INTEGER NOT NULL CHECK (value_count > 0), -- that it was fitted to
    model       BLOB NOT NULL,
    UNIQUE (system_id, quantity)
) STRICT;

CREATE TRIGGER fit_of_new_value AFTER INSERT ON measurement BEGIN
    DELETE FROM fit WHERE system_id = NEW.system_id;
END;
CREATE TRIGGER fit_of_changed_value AFTER UPDATE ON measurement BEGIN
    DELETE FROM fit WHERE system_id IN (OLD.system_id, NEW.system_id);
END;
CREATE TRIGGER fit_of_deleted_value AFTER DELETE ON measurement BEGIN
    DELETE FROM fit WHERE system_id = OLD.system_id;
END;
-- Values of one day belong together, so the date of a run counts too.
CREATE TRIGGER fit_of_changed_run AFTER UPDATE ON run BEGIN
    DELETE FROM fit WHERE system_id IN (OLD.system_id, NEW.system_id);
END;
