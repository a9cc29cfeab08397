"""1, second part. TLC: eluents on which the library holds a third of its compounds."""
import random

import comparison
import hiding
import tlc_data
from trial import Trial

PANELS = (1, 3)
DRAWS = 6  # of the new eluents
FEWEST_LEFT = 3  # other eluents that the library keeps of a queried compound


def trial(plates, cells, size, draw):
    dice = random.Random(f"new eluent {size} {draw}")
    new = sorted(dice.sample(sorted(s.name for s in plates.systems), size))
    hidden, queried = hiding.on_new_systems(cells, new, FEWEST_LEFT, dice)
    return Trial("Rf", plates.systems, plates.structures,
                 hiding.without(plates.measurements, hidden), hiding.queries(cells, queried))


def rows(data, program):
    plates = tlc_data.read(data, program)
    cells = hiding.by_cell(plates.measurements)
    result = []
    for size in PANELS:
        trials = [trial(plates, cells, size, draw) for draw in range(DRAWS)]
        label = f"1 TLC {size} new eluent{'s' if size > 1 else ''}"
        result.append(comparison.ask(label, program, trials, plates.measurements))
    return result
