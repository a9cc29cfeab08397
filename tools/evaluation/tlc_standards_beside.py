"""11. TLC: the second bottle of task 2 on a simulated plate, with standards spotted beside it.

Standards run at the library's own value, the sample at that of the second bottle; all are moved
with the plate and have noise of the reading. Each question is asked three times. The truth is among
the standards, spotted from the sample's bottle, as at the bench; or it is spotted from the first
bottle, from which the second differs by more than two spots of one plate would (half of them by
more than 0.047): there, a standard that does not run beside the sample says little against it; or
it is not among the standards.
"""
import dataclasses
import random

import comparison
import forecast
import report
import scoring
import simulated_plate
import tlc_data
import tlc_replicates
import windows
from program import LISTED, Library
from report import Note
from simulated_plate import Spot

FOLDS = 3  # of the compounds of an eluent
STANDARDS = 4
NOISE = 0.01  # of an R_F that is read
SAME_BOTTLE, OTHER_BOTTLE, ABSENT = BESIDE = "its bottle beside", "other bottle", "not beside"
SURE = 0.9
REFUSED = 2  # exit code, also of a plate on which standards run in another order than expected
CODES = (0, 1, REFUSED)
NO_ANSWER = {"candidates": [], "unlisted": 0.0, "other": 1.0, "set": []}  # all as probable


def questions(plates):
    """The trials of task 2 with one eluent, of which alone the library knows; both bottles run
    between start and front."""
    trials = [t for s in plates.systems for t in on_one_eluent(tlc_data.on_eluent(plates, s.name))]
    return [t for t in trials if t.queries]


def on_one_eluent(plates):
    first, others = tlc_replicates.split(plates)
    held = {(m.compound, m.system): m.value for m in reversed(first)}
    cells = [cell for cell in sorted(others) if simulated_plate.readable(others[cell][0].value)
             and simulated_plate.readable(held[cell])]
    return tlc_replicates.trials(plates, first, others, [(c, [s]) for c, s in cells], FOLDS)


def plate(query, means, beside):
    """The query as it is read on a plate, and the plate's spots, the sample first. means: {system:
    {compound: R_F}} of the library; beside: one of BESIDE."""
    ((system, value),) = query.values.items()
    (truth,) = query.truths
    dice = random.Random(f"beside {truth} {system}")
    shift = dice.gauss(0, simulated_plate.SHIFT)
    read = lambda rf: simulated_plate.noisy(rf, shift, NOISE, dice)
    sample = read(value)
    values = {c: v for c, v in means[system].items()
              if simulated_plate.readable(v) and (c != truth or beside != ABSENT)}
    if beside == SAME_BOTTLE:
        values[truth] = value
    chosen = simulated_plate.standards(values, STANDARDS, dice, {truth} & values.keys())
    spots = [Spot(c, read(values[c]), "standard") for c in chosen]
    return (dataclasses.replace(query, values={system: sample}),
            [Spot("sample", sample, "sample")] + spots)


def identify(library, system, spots):
    table = simulated_plate.write(library.folder / "plate.csv", spots)
    outcome = library.run("identify", table, "--system", system, "--top", LISTED, codes=CODES)
    return outcome.objects()[0] if outcome.code != REFUSED else NO_ANSWER


def ask(program, trial, beside):
    """The trial as its plates show it, and the answers."""
    means = windows.Expectation(trial).means
    drawn = [plate(query, means, beside) for query in trial.queries]
    with Library(program) as library:
        library.learn(trial)
        said = [identify(library, *query.values, spots) for query, spots in drawn]
    return dataclasses.replace(trial, queries=[query for query, _ in drawn]), said


def rows(data, program):
    trials = questions(tlc_data.read(data, program))
    result = []
    for beside in BESIDE:
        asked, said = zip(*(ask(program, t, beside) for t in trials))
        result += [comparison.compare(f"11 TLC standards, {beside}", asked, said),
                   note(asked, said)]
    return result


def note(trials, said):
    queries = [q for t in trials for q in t.queries]
    first = [a["candidates"][0] if a["candidates"] else None for own in said for a in own]
    of_plate = [c is not None and c["basis"] == "same_run" for c in first]
    right = scoring.share(c["compound"] in q.truths
                          for q, c, own in zip(queries, first, of_plate) if own)
    sure = scoring.sure(queries, [f for t, own in zip(trials, said)
                                  for f in forecast.from_answers(t, own)], SURE)
    refused = scoring.share(a is NO_ANSWER for own in said for a in own)
    values = {"n": len(queries), "refused": refused, "first_of_same_run": scoring.share(of_plate),
              "right_of_these": right, f"stated_{SURE}": sure}
    return Note("  standards of the plate", [
        f"first candidate of basis same_run: {report.per_cent(values['first_of_same_run'])} %, "
        f"right {report.per_cent(right)} % of these",
        f"stated at {SURE} to 1: {sure['n']}, right {report.per_cent(sure['right'])} %; "
        f"{report.per_cent(refused)} % of the plates refused"], values)
