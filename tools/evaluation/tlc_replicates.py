"""2. TLC: a second bottle of a compound on an eluent where the library holds the first."""
import collections
import random

import comparison
import hiding
import tlc_data
from trial import Trial

PANEL = 3  # eluents


def split(plates):
    """Measurements that the library learns (in each cell those of the first bottle), and by cell
    those of other bottles."""
    first = {}
    learned, others = [], collections.defaultdict(list)
    for m, bottle in zip(plates.measurements, plates.bottles, strict=True):
        if first.setdefault((m.compound, m.system), bottle) == bottle:
            learned.append(m)
        else:
            others[m.compound, m.system].append(m)
    return learned, others


def rows(data, program):
    plates = tlc_data.read(data, program)
    learned, others = split(plates)
    chosen = {
        "1 eluent": [(compound, [system]) for compound, system in sorted(others)],
        f"{PANEL} eluents": hiding.panels(others, PANEL, PANEL, random.Random("replicates")),
    }
    result = []
    for what, panels in chosen.items():
        trial = Trial("Rf", plates.systems, plates.structures, learned,
                      hiding.queries(others, panels))
        result.append(comparison.ask(f"2 TLC replicates, {what}", program, [trial], learned))
    return result
