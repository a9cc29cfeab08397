"""2. TLC: a second bottle of a compound on an eluent where the library holds the first.

Of the compounds that are not asked for, the library holds all bottles: from them it can learn how
far bottles differ.
"""
import collections
import random

import comparison
import hiding
import tlc_data
from trial import Trial

PANEL = 3  # eluents
FOLDS = 5  # of compounds


def split(plates):
    """Measurements of the first bottle in each cell, and by cell those of other bottles."""
    bottle_of = {}
    first, others = [], collections.defaultdict(list)
    for m, bottle in zip(plates.measurements, plates.bottles, strict=True):
        if bottle_of.setdefault((m.compound, m.system), bottle) == bottle:
            first.append(m)
        else:
            others[m.compound, m.system].append(m)
    return first, others


def trials(plates, first, others, panels, folds=FOLDS):
    compounds = sorted({compound for compound, _ in others})
    random.Random("replicates").shuffle(compounds)
    for fold in range(folds):
        asked = set(compounds[fold::folds])
        learned = first + [m for cell in others.values() for m in cell if m.compound not in asked]
        yield Trial("Rf", plates.systems, plates.structures, learned,
                    hiding.queries(others, [panel for panel in panels if panel[0] in asked]))


def rows(data, program):
    plates = tlc_data.read(data, program)
    first, others = split(plates)
    chosen = {
        "1 eluent": [(compound, [system]) for compound, system in sorted(others)],
        f"{PANEL} eluents": hiding.panels(others, PANEL, PANEL, random.Random("replicates")),
    }
    return [comparison.ask(f"2 TLC replicates, {what}", program,
                           list(trials(plates, first, others, panels)), first)
            for what, panels in chosen.items()]
