"""3. TLC: compounds that the library does not hold, one in five, among others as in task 1."""
import random

import comparison
import hiding
import report
import tlc_data
from trial import Trial

PANELS = (1, 2, 3)
FOLDS = 5  # one in five queries is absent, as the program supposes unless told otherwise
FEWEST_LEFT = 3


def trials(plates, size):
    cells = hiding.by_cell(plates.measurements)
    dice = random.Random(f"absent compounds {size}")
    panels = hiding.panels(cells, size, size + FEWEST_LEFT, dice)
    order = [compound for compound, _ in panels]
    dice.shuffle(order)
    for fold in range(FOLDS):
        absent = set(order[fold::FOLDS])
        kept = [m for m in hiding.without(plates.measurements, panels) if m.compound not in absent]
        yield Trial("Rf", plates.systems, plates.structures, kept,
                    hiding.queries(cells, panels, absent))


def rows(data, program):
    plates = tlc_data.read(data, program)
    result = []
    for size in PANELS:
        row = comparison.ask(f"3 TLC absent compounds, {size} eluent{'s' if size > 1 else ''} *",
                             program, list(trials(plates, size)))
        result += [row, report.high_statements(row)]
    return result
