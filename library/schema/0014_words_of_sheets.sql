-- A sheet may have several words for one: "y" and "x" for yes.
ALTER TABLE sheet_column RENAME TO sheet_column_of_one_word;
CREATE TABLE sheet_column (
    sheet     TEXT NOT NULL CHECK (sheet <> '') COLLATE NOCASE,
    column    TEXT NOT NULL CHECK (column <> ''), -- as the readers know it, or a word of cells
    header    TEXT NOT NULL CHECK (header <> ''),
    change_id INTEGER NOT NULL REFERENCES change (id),
    PRIMARY KEY (sheet, column, header)
) STRICT, WITHOUT ROWID;
INSERT INTO sheet_column SELECT sheet, column, header, change_id FROM sheet_column_of_one_word;
DROP TABLE sheet_column_of_one_word;
