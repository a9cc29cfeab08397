"""6a. HPLC: log k at a modifier fraction, from other fractions:
hplc-isocratic/isocratic_logk.csv."""
import dataclasses
import random

import comparison
import hiding
import structures
import tables
from trial import Measurement, System, Trial

FEWEST = 4  # fractions that a queried compound was measured at, the hidden one included
DRAWS = 4  # of a new fraction


def system(fraction):
    """The modifier and the column are not stated in the data: acetonitrile on C18 is assumed."""
    modifier = round(100 * fraction)
    return System(f"modifier {modifier} %", "hplc", "C18 (assumed)",
                  f"water:acetonitrile {100 - modifier}:{modifier}", "", "isocratic")


def read(data, program):
    """A trial that holds everything and asks nothing."""
    table = tables.rows(data / "hplc-isocratic/isocratic_logk.csv", encoding="cp1252")
    labels, smiles_of = structures.labelled(program, (row["smiles"] for row in table))
    table = [row for row in table if row["smiles"] in labels]
    systems = {f: system(f) for f in sorted({round(float(row["fi"]), 2) for row in table})}
    measured = [Measurement(labels[row["smiles"]], systems[round(float(row["fi"]), 2)].name,
                            10 ** float(row["logk"])) for row in table]
    return Trial("k", list(systems.values()), smiles_of, measured, [])


def asking(complete, cells, hidden, queried):
    return dataclasses.replace(complete, measurements=hiding.without(complete.measurements, hidden),
                               queries=hiding.queries(cells, queried))


def rows(data, program):
    complete = read(data, program)
    cells = hiding.by_cell(complete.measurements)
    panels = hiding.panels(cells, 1, FEWEST, random.Random("modifier"))
    dice = random.Random("new modifier fraction")
    drawn = dice.sample(sorted(s.name for s in complete.systems), min(DRAWS, len(complete.systems)))
    new = [hiding.on_new_systems(cells, [name], FEWEST - 1, dice) for name in drawn]
    ask = lambda label, trials: comparison.ask(label, program, trials, complete.measurements)
    return [ask("6a HPLC absent fraction *", [asking(complete, cells, panels, panels)]),
            ask("6a HPLC new fraction", [asking(complete, cells, *chosen) for chosen in new])]
