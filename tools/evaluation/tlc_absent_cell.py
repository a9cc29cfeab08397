"""1. TLC: compounds on eluents where the library does not hold them, but on others."""
import random

import comparison
import hiding
import tlc_data
from trial import Trial

PANELS = (1, 2, 3, 4)
FEWEST_LEFT = 3  # eluents that the library keeps of a queried compound


def rows(data, program):
    plates = tlc_data.read(data, program)
    cells = hiding.by_cell(plates.measurements)
    result = []
    for size in PANELS:
        dice = random.Random(f"absent cell {size}")
        panels = hiding.panels(cells, size, size + FEWEST_LEFT, dice)
        trial = Trial("Rf", plates.systems, plates.structures,
                      hiding.without(plates.measurements, panels), hiding.queries(cells, panels))
        label = f"1 TLC absent cell, {size} eluent{'s' if size > 1 else ''} *"
        result.append(comparison.ask(label, program, [trial], plates.measurements))
    return result
