"""10. Retention times that are all longer or shorter by one factor, as another flow or a leak makes
them: a library of times, asked run by run.

HPLC, hplc-report/: the systems with most compounds that were measured twice; the second values are
the run, the library holds the first ones and other compounds, at most 300. GC, gc-rmbl/: a mixture
of nine standards over three years; the library holds the runs of four fifths of the dates. GC,
gc-pnnl2023/: every second of those runs of task 4 that state times.
"""
import collections
import dataclasses
import random

import gc_labelled_runs
import gc_whole_run
import hplc_transfer
import moved_runs
import structures
import tables
from trial import Measurement, Query, Trial

FACTORS = (0.94, 1, 1.06)
FOLDS = 5
SYSTEMS = 6  # of HPLC
MOST_COMPOUNDS = 300


@dataclasses.dataclass(frozen=True)
class Timed:
    """A peak of a known compound."""
    run: str
    peak: str
    compound: str
    minutes: float


def trial(system, learned, asked, smiles_of):
    """Both lists of Timed."""
    held = {t.compound for t in learned}
    names = collections.defaultdict(set)
    for t in asked:
        names[t.run, t.peak, t.minutes].update({t.compound} & held)
    return Trial("tR", [system], smiles_of,
                 [Measurement(t.compound, system.name, t.minutes, t.run) for t in learned],
                 [Query(run, peak, {system.name: minutes}, frozenset(compounds))
                  for (run, peak, minutes), compounds in sorted(names.items())],
                 {system.name: max(t.minutes for t in learned)})


def by_fold(system, timed, fold_of, smiles_of):
    """A trial a fold; fold_of: {run: fold}."""
    for fold in range(FOLDS):
        yield trial(system, [t for t in timed if fold_of[t.run] != fold],
                    [t for t in timed if fold_of[t.run] == fold], smiles_of)


def measured_twice(rows):
    """{HPLC system: {SMILES: its values}} of systems with most compounds of one name and structure
    that were measured more than once; those and others up to the limit."""
    values, names = collections.defaultdict(lambda: collections.defaultdict(list)), {}
    for row, minutes in rows:
        key = row["dataset"], row["smiles_flat"]
        if row["name"].lower() == names.setdefault(key, row["name"].lower()):
            values[row["dataset"]][row["smiles_flat"]].append(minutes)
    count = {s: sum(len(v) > 1 for v in held.values()) for s, held in values.items()}
    chosen = sorted((s for s in count if count[s]), key=lambda s: (-count[s], s))[:SYSTEMS]
    return {s: limited(values[s], s) for s in chosen}


def limited(held, system):
    order = sorted(held)
    random.Random(f"measured twice {system}").shuffle(order)
    order.sort(key=lambda c: len(held[c]) < 2)
    return {c: held[c] for c in order[:MOST_COMPOUNDS]}


def hplc(data, program):
    rows, systems = hplc_transfer.retained(data)
    chosen = measured_twice(rows)
    labels, smiles_of = structures.labelled(program, {c for v in chosen.values() for c in v})
    for name, held in chosen.items():
        kept = {labels[c]: values for c, values in held.items() if c in labels}
        learned = [Timed("", "", c, values[0]) for c, values in kept.items()]
        asked = [Timed(name, c, c, values[1]) for c, values in kept.items() if len(values) > 1]
        yield trial(hplc_transfer.described(name, systems[name]), learned, asked, smiles_of)


def standards(data, program):
    rows = tables.rows(data / "gc-rmbl/standards_identified.csv")
    timed = [Timed(r["filename"], r["peak"], r["compound"], float(r["rt_min"])) for r in rows]
    dates = sorted({r["rundate"] for r in rows})
    fold_of = {r["filename"]: dates.index(r["rundate"]) % FOLDS for r in rows}
    smiles_of = structures.named(
        program, {t.compound: gc_whole_run.STRUCTURES.get(t.compound, "") for t in timed})
    return by_fold(gc_whole_run.SYSTEM, timed, fold_of, smiles_of)


def labelled_runs(data, program):
    folder = data / "gc-pnnl2023"
    runs, labels, _ = gc_labelled_runs.read(folder)
    fold_of = gc_labelled_runs.fold_of_runs(runs, labels)
    known = {row["compound"]: row["smiles"] for row in tables.rows(folder / "compounds.csv")}
    timed = [Timed(r["sample"], r["peak_index"], r["compound"], float(r["rt_min"])) for r in runs
             if r["sample"] in fold_of]
    smiles_of = structures.named(program, {t.compound: known.get(t.compound, "") for t in timed})
    return map(moved_runs.every_second_run,
               by_fold(gc_labelled_runs.SYSTEM, timed, fold_of, smiles_of))


def rows(data, program):
    result = []
    for what, read in (("HPLC", hplc), ("GC, nine standards", standards), ("GC", labelled_runs)):
        trials = [t for t in read(data, program) if t.queries]
        for factor in FACTORS:
            result += moved_runs.ask(f"10 {what}, times x {factor:g}", program, trials,
                                     lambda _, minutes, f=factor: f * minutes)
    return result
