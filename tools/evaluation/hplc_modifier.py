"""6a. HPLC: log k at a modifier fraction, from other fractions: hplc-isocratic/isocratic_logk.csv."""
import random

import comparison
import hiding
import structures
import tables
from trial import Measurement, System, Trial

FEWEST = 4  # fractions that a queried compound was measured at, the hidden one included


def system(fraction):
    """The modifier and the column are not stated in the data: acetonitrile on C18 is assumed."""
    modifier = round(100 * fraction)
    return System(f"modifier {modifier} %", "hplc", "C18 (assumed)",
                  f"water:acetonitrile {100 - modifier}:{modifier}", "", "isocratic")


def rows(data, program):
    table = tables.rows(data / "hplc-isocratic/isocratic_logk.csv", encoding="cp1252")
    labels, smiles_of = structures.labelled(program, (row["smiles"] for row in table))
    table = [row for row in table if row["smiles"] in labels]
    systems = {f: system(f) for f in sorted({round(float(row["fi"]), 2) for row in table})}
    measured = [Measurement(labels[row["smiles"]], systems[round(float(row["fi"]), 2)].name,
                            10 ** float(row["logk"])) for row in table]
    cells = hiding.by_cell(measured)
    panels = hiding.panels(cells, 1, FEWEST, random.Random("modifier"))
    trial = Trial("k", list(systems.values()), smiles_of, hiding.without(measured, panels),
                  hiding.queries(cells, panels))
    return [comparison.ask("6a HPLC modifier fraction", program, [trial], measured)]
