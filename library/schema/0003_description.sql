-- What a structure says about itself, so that no command needs the structure library to look it up.
-- Described when learned; compounds without a row are described by the next learn.
CREATE TABLE description (
    compound_id            INTEGER PRIMARY KEY REFERENCES compound (id),
    crippen_logp           REAL NOT NULL,    -- log10 of octanol-water partition
    molar_refractivity     REAL NOT NULL,    -- cm3/mol
    polar_surface          REAL NOT NULL,    -- square angstrom, of N and O
    labute_surface         REAL NOT NULL,    -- square angstrom
    hydrogen_bond_donors   INTEGER NOT NULL,
    hydrogen_bond_acceptors INTEGER NOT NULL,
    rotatable_bonds        INTEGER NOT NULL,
    rings                  INTEGER NOT NULL,
    aromatic_rings         INTEGER NOT NULL,
    heavy_atoms            INTEGER NOT NULL,
    formal_charge          INTEGER NOT NULL
) STRICT;

-- The functional groups that a compound has, and how often.
CREATE TABLE compound_group (
    compound_id INTEGER NOT NULL REFERENCES compound (id),
    name        TEXT NOT NULL CHECK (name <> ''),
    occurrences INTEGER NOT NULL CHECK (occurrences > 0),
    PRIMARY KEY (compound_id, name)
) STRICT, WITHOUT ROWID;
