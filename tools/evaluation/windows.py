"""The baseline of the trade: a fixed window around each compound's expected value.

A compound is a candidate if no observed system puts it outside the window. The candidates share 0.8
equally and 0.2 is left for unlisted; unlisted has all where the window is empty.
"""
import collections
import functools
import math

from forecast import UNLISTED, Forecast
from trial import mean

PRIOR_UNLISTED = 0.2
FEWEST_COMMON = 10  # compounds of a line between two systems


class Expectation:
    """What the library leads one to expect, in the units of the window: the mean of a compound's
    values on a system, else a straight line from the system that correlates best with it."""

    def __init__(self, trial):
        values = collections.defaultdict(lambda: collections.defaultdict(list))
        for m in trial.measurements:
            values[m.system][m.compound].append(trial.in_window_units(m.system, m.value))
        self.means = {system: {compound: mean(v) for compound, v in held.items()}
                      for system, held in values.items()}
        self.range = (0.0, 1.0) if trial.quantity == "Rf" else (-math.inf, math.inf)

    @functools.cache
    def lines_to(self, system):
        """(correlation, system, slope, intercept) of each line to a system, best first."""
        lines = []
        here = self.means.get(system, {})
        for other, there in sorted(self.means.items()):
            common = [(there[c], here[c]) for c in sorted(there.keys() & here.keys())]
            if other != system and len(common) >= FEWEST_COMMON:
                lines.append((*least_squares(common), other))
        return sorted(lines, key=lambda line: (-line[0], line[-1]))

    @functools.cache
    def of(self, compound, system):
        """None if nothing is known that leads to this system."""
        held = self.means.get(system, {})
        if compound in held:
            return held[compound]
        for _, slope, intercept, other in self.lines_to(system):
            if compound in self.means[other]:
                value = intercept + slope * self.means[other][compound]
                return min(max(value, self.range[0]), self.range[1])
        return None


def least_squares(points):
    """Absolute correlation, slope and intercept of y on x."""
    x_mean, y_mean = mean(x for x, _ in points), mean(y for _, y in points)
    xx = math.fsum((x - x_mean) ** 2 for x, _ in points)
    yy = math.fsum((y - y_mean) ** 2 for _, y in points)
    xy = math.fsum((x - x_mean) * (y - y_mean) for x, y in points)
    if xx == 0 or yy == 0:
        return 0.0, 0.0, y_mean
    return abs(xy) / math.sqrt(xx * yy), xy / xx, y_mean - xy / xx * x_mean


def half_widths(trial):
    """For each query {compound: least half-width of the window that lets it in}."""
    expectation = Expectation(trial)
    compounds = trial.compounds()
    result = []
    for query in trial.queries:
        readings = [(s, trial.in_window_units(s, v)) for s, v in query.values.items()]
        needed = {}
        for compound in compounds:
            off = [abs(value - expected) for system, value in readings
                   if (expected := expectation.of(compound, system)) is not None]
            if off:
                needed[compound] = max(off)
        result.append(needed)
    return result


def width_for(coverage, queries, needed):
    """Half-width of the smallest window that covers at least this share of the known compounds (or
    as many as a window can)."""
    of_truth = sorted(min(n.get(t, math.inf) for t in q.truths)
                      for q, n in zip(queries, needed, strict=True) if q.truths)
    wanted = math.ceil(coverage * len(of_truth) - 1e-9)
    finite = [width for width in of_truth[:wanted] if width < math.inf]
    return finite[-1] if finite else 0.0


def forecast(needed, width):
    inside = {compound for compound, least in needed.items() if least <= width}
    if not inside:
        return Forecast({}, 1.0, 0.0, 0, {UNLISTED})
    part = (1 - PRIOR_UNLISTED) / len(inside)
    return Forecast(dict.fromkeys(inside, part), PRIOR_UNLISTED, 0.0, 0, inside | {UNLISTED})


def nearest_is_right(query, needed):
    return bool(needed) and min(needed, key=lambda c: (needed[c], c)) in query.truths
