"""9. GC: the runs of task 4 with a few labelled peaks each, drawn at random, as they are and moved
by some index units: so few cannot tell a moved run from another compound. Runs that have fewer
labelled peaks are left out."""
import collections
import dataclasses
import random

import gc_labelled_runs
import gc_shifted_runs
import moved_runs

COUNTS = (1, 2, 3, 5)
SHIFTS = (0, 10)  # index units


def few(trial, count, features):
    """`count` of these (run, peak) of each run; a larger count keeps those of a smaller one."""
    by_run = collections.defaultdict(list)
    for query in trial.queries:
        if (query.sample, query.feature) in features:
            by_run[query.sample].append(query)
    chosen = []
    for run, queries in by_run.items():
        random.Random(f"few features {run}").shuffle(queries)
        chosen += queries[:count] if len(queries) >= count else []
    return dataclasses.replace(trial, queries=chosen)


def rows(data, program):
    trials, labels, _ = gc_labelled_runs.read_trials(data, program)
    features = gc_labelled_runs.labelled_peaks(labels)
    result = []
    for count in COUNTS:
        chosen = [few(t, count, features) for t in trials]
        for shift in SHIFTS:
            label = f"9 GC {count} peak{'s' if count > 1 else ''} a run, moved by {shift}"
            result += moved_runs.ask(label, program, chosen, gc_shifted_runs.by(shift))
    return result
