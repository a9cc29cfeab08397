-- What a sheet of the laboratory calls the columns of a table, remembered under a name.
CREATE TABLE sheet_column (
    sheet     TEXT NOT NULL CHECK (sheet <> '') COLLATE NOCASE,
    column    TEXT NOT NULL CHECK (column <> ''), -- as the readers know it
    header    TEXT NOT NULL CHECK (header <> ''),
    change_id INTEGER NOT NULL REFERENCES change (id),
    PRIMARY KEY (sheet, column)
) STRICT, WITHOUT ROWID;
