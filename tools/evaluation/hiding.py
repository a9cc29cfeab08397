"""Hides measured values from the library, to query them."""
import collections

from trial import Query


def by_cell(measurements):
    """{(compound, system): its measurements}, in their order."""
    cells = collections.defaultdict(list)
    for m in measurements:
        cells[m.compound, m.system].append(m)
    return cells


def systems_of(cells):
    """{compound: systems it was measured on}, sorted."""
    systems = collections.defaultdict(list)
    for compound, system in sorted(cells):
        systems[compound].append(system)
    return systems


def panels(cells, size, fewest, dice):
    """(compound, `size` random systems of it) for those measured on at least `fewest`."""
    return [(compound, sorted(dice.sample(systems, size)))
            for compound, systems in systems_of(cells).items() if len(systems) >= fewest]


def without(measurements, chosen):
    """The measurements that are in no chosen panel."""
    hidden = {(compound, system) for compound, panel in chosen for system in panel}
    return [m for m in measurements if (m.compound, m.system) not in hidden]


def queries(cells, chosen, absent=frozenset()):
    """One a panel, of the first value in each cell. The truth is the compound, unless it is absent."""
    return [Query(f"q{n}", "1", {s: cells[compound, s][0].value for s in panel},
                  frozenset() if compound in absent else frozenset([compound]))
            for n, (compound, panel) in enumerate(chosen, start=1)]
