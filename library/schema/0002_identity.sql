-- The same text for tautomers, those that InChI tells apart among them: a hash of the skeleton with
-- mobile hydrogens. Empty where the compound was learned before format 2.
ALTER TABLE compound ADD COLUMN tautomer TEXT NOT NULL DEFAULT '';
CREATE INDEX compound_by_tautomer ON compound (tautomer);

-- Compounds are found by name, InChIKey or registry number.
CREATE INDEX compound_by_cas ON compound (cas) WHERE cas IS NOT NULL;
