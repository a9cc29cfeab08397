"""Runs of which all readings are moved together: their rows of the table, with how right the
program is where it is sure, and what it says of the run."""
import collections
import dataclasses

import comparison
import forecast
import report
import scoring
from program import answers
from report import Note
from trial import mean

VERY_SURE, SURE = 0.95, 0.9


def every_second_run(trial):
    """The trial with fewer queries, for the time it takes."""
    chosen = set(sorted({q.sample for q in trial.queries})[::2])
    return dataclasses.replace(trial, queries=[q for q in trial.queries if q.sample in chosen])


def moved(trial, move):
    """The trial with move(run, reading) as readings."""
    return dataclasses.replace(trial, queries=[
        dataclasses.replace(q, values={s: move(q.sample, v) for s, v in q.values.items()})
        for q in trial.queries])


def shifts(before, after):
    """{run: mean of how far its readings were moved}, in units of the quantity."""
    by_run = collections.defaultdict(list)
    for old, new in zip(before.queries, after.queries, strict=True):
        by_run[old.sample] += [new.values[s] - value for s, value in old.values.items()]
    return {run: mean(values) for run, values in by_run.items()}


def statements(trial, said):
    """{run: what the program says of it as a whole}, where it says something."""
    return {q.sample: a["run"][0] for q, a in zip(trial.queries, said, strict=True) if a.get("run")}


def ask(label, program, trials, move, features=None):
    """The row of the runs so moved and its note; of these (sample, feature) only, if given: the
    others are asked too, being part of the run."""
    asked = [moved(t, move) for t in trials]
    said = [answers(program, t) for t in asked]
    of_runs, true = {}, {}
    for before, after, own in zip(trials, asked, said, strict=True):
        of_runs |= statements(after, own)
        true |= shifts(before, after)
    if features is not None:
        asked, said = comparison.only(features, asked, said)
    return [comparison.compare(label, asked, said), note(asked, said, of_runs, true)]


def note(trials, said, of_runs, true):
    queries = [q for t in trials for q in t.queries]
    forecasts = [f for t, own in zip(trials, said) for f in forecast.from_answers(t, own)]
    very, some = (scoring.sure(queries, forecasts, least) for least in (VERY_SURE, SURE))
    values = {f"stated_{VERY_SURE}": very, f"stated_{SURE}": some, "runs": len(true),
              "named_moved": scoring.named_moved(of_runs, true),
              "shift_error": scoring.shift_error(of_runs, true)}
    return Note("  where it is sure, and of the run", [
        f"stated at {VERY_SURE} to 1: {very['n']}, right {report.per_cent(very['right'])} %; at "
        f"{SURE} to 1: {some['n']}, wrong {wrong(some)} %",
        f"of all: right at {SURE} to 1 {report.per_cent(some['right_of_all'])} %, wrong "
        f"{report.per_cent(some['wrong_of_all'])} %; {of_the_runs(values)}"], values)


def wrong(figures):
    return "-" if figures["right"] is None else report.per_cent(1 - figures["right"])


def of_the_runs(values):
    if values["named_moved"] is None:
        return f"of {values['runs']} runs moved: not said"
    return (f"of {values['runs']} runs {report.per_cent(values['named_moved'])} % said to be moved"
            f", shift off by {report.number(values['shift_error'], 2)}")
