"""Hides measured values from the library, to query them.

Two ways. Single cells: most rivals were measured on the queried system and the truth never was, so
a program that expects transferred values to scatter less than measured ones is favoured (above the
ceiling, even). New systems: the library holds a third of its compounds on them, so most rivals are
in the position of the truth.
"""
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


def on_new_systems(cells, new, fewest_left, dice):
    """Panels hidden so that a third of the compounds remains on these systems, and those of them
    to be queried: measured on all of them. At least `fewest_left` other systems remain."""
    movable = [compound for compound, systems in systems_of(cells).items()
               if len(set(systems) - set(new)) >= fewest_left]
    standards = set(dice.sample(movable, len(movable) // 3))
    hidden = [(compound, new) for compound in movable if compound not in standards]
    return hidden, [(c, panel) for c, panel in hidden if all((c, s) in cells for s in panel)]


def without(measurements, chosen):
    """The measurements that are in no chosen panel."""
    hidden = {(compound, system) for compound, panel in chosen for system in panel}
    return [m for m in measurements if (m.compound, m.system) not in hidden]


def without_value(trial):
    """For each query: how many compounds the library holds, but on none of the queried systems."""
    held = collections.defaultdict(set)
    for m in trial.measurements:
        held[m.system].add(m.compound)
    everything = set(trial.compounds())
    return [len(everything.difference(*(held[s] for s in query.values))) for query in trial.queries]


def queries(cells, chosen, absent=frozenset()):
    """One a panel, of the first value in each cell. The truth is the compound, unless absent."""
    return [Query(f"q{n}", "1", {s: cells[compound, s][0].value for s in panel},
                  frozenset() if compound in absent else frozenset([compound]))
            for n, (compound, panel) in enumerate(chosen, start=1)]
