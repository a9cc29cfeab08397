"""Which compound a SMILES stands for, and placeholders where no structure is known."""
from program import Library

PLACEHOLDER_CARBONS = 40  # of the first one


def labelled(program, smiles):
    """Two dictionaries: {SMILES: label}, {label: SMILES}. SMILES of one InChIKey share a label;
    structures that the program refuses have none."""
    with Library(program) as library:
        described = library.described(sorted(set(smiles)))
    labels, structures, by_key = {}, {}, {}
    for text, description in described.items():
        label = by_key.setdefault(description["inchikey"], f"c{len(by_key) + 1}")
        labels[text] = label
        structures.setdefault(label, text)
    return labels, structures


def named(program, smiles_of):
    """{name: SMILES} for compounds that are told apart by retention only. Where the structure is
    unknown, or the same as that of an earlier name (derivatives of one compound), a placeholder
    stands in: linear alkanes, each of another length, longer than any volatile one."""
    with Library(program) as library:
        described = library.described(sorted({s for s in smiles_of.values() if s}))
    structures, used, carbons = {}, set(), PLACEHOLDER_CARBONS
    for name, smiles in sorted(smiles_of.items()):
        key = described[smiles]["inchikey"] if smiles in described else None
        if key is None or key in used:
            smiles, carbons = "C" * carbons, carbons + 1
        used.add(key)
        structures[name] = smiles
    return structures
