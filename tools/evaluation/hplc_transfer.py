"""6b. HPLC: retention times on a gradient system that holds shared standards only, from another
system: hplc-report/rt.csv, systems.csv."""
import collections
import random

import comparison
import structures
import tables
from trial import Measurement, Query, System, Trial, mean

PAIRS = 8
FEWEST_COMMON = 30  # structures, a third of which are the shared standards
HOLD_UPS = 1.5  # earlier times are hardly retained


def retained(data):
    """(row, retention time in min) of what is well retained, {system: its row}."""
    systems = {row["dataset"]: row for row in tables.rows(data / "hplc-report/systems.csv")}
    found = []
    for row in tables.rows(data / "hplc-report/rt.csv"):
        minutes, t0 = tables.number(row["rt_min"]), None
        if row["dataset"] in systems:
            t0 = tables.number(systems[row["dataset"]]["column.t0"])
        if minutes and row["smiles_flat"] and minutes >= HOLD_UPS * (t0 or 0):
            found.append((row, minutes))
    return found, systems


def read(data):
    """{system: {SMILES: mean retention time in min}}, {system: its row}."""
    found, systems = retained(data)
    times = collections.defaultdict(lambda: collections.defaultdict(list))
    for row, minutes in found:
        times[row["dataset"]][row["smiles_flat"]].append(minutes)
    return {s: {c: mean(v) for c, v in held.items()} for s, held in times.items()}, systems


def pairs(times, systems):
    """Ordered pairs with the most common structures; no system is the second of two pairs."""
    kind = lambda name: systems.get(name, {}).get("method_type", "")
    found = [(-len(times[a].keys() & times[b].keys()), a, b) for a in times for b in times
             if a != b and kind(a) and kind(a) == kind(b)]
    chosen, used = [], set()
    for count, a, b in sorted(found):
        if -count >= FEWEST_COMMON and b not in used and len(chosen) < PAIRS:
            chosen.append((a, b))
            used.add(b)
    return chosen


def trial(a, b, times, systems, labels, smiles_of):
    by_label = {s: {labels[c]: t for c, t in times[s].items() if c in labels} for s in (a, b)}
    common = sorted(by_label[a].keys() & by_label[b].keys())
    standards = set(random.Random(f"transfer {a} {b}").sample(common, len(common) // 3))
    learned = [Measurement(c, a, t) for c, t in by_label[a].items()]
    learned += [Measurement(c, b, by_label[b][c]) for c in sorted(standards)]
    queries = [Query(f"q{n}", "1", {b: by_label[b][c]}, frozenset([c]))
               for n, c in enumerate(common, start=1) if c not in standards]
    return Trial("tR", [described(s, systems[s]) for s in (a, b)], smiles_of, learned, queries,
                 {s: max(held.values()) for s, held in by_label.items()})


def described(name, row):
    return System(name, "hplc", row["column.name"] or "not stated", "gradient", "", "gradient")


def rows(data, program):
    times, systems = read(data)
    chosen = pairs(times, systems)
    smiles = {c for pair in chosen for system in pair for c in times[system]}
    labels, smiles_of = structures.labelled(program, smiles)
    trials = [trial(a, b, times, systems, labels, smiles_of) for a, b in chosen]
    return [comparison.ask(f"6b HPLC transfer, {len(trials)} pairs", program, trials)]
