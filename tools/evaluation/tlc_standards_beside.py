"""11. TLC: the second bottle of task 2 on a simulated plate, with standards spotted beside it.

The standards run at the library's own value, moved with the plate and with noise of the reading.
The sample is the value measured from the second bottle, moved likewise: two bottles differ by more
than two spots of one plate would, so the standard of the truth is harder to see here than at the
bench. Each question is asked twice: the truth among the standards, and not among them.
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

STANDARDS = 4
NOISE = 0.01  # of a standard's R_F
SURE = 0.9


def questions(plates):
    """The trials of task 2 with one eluent, where both bottles run between start and front."""
    first, others = tlc_replicates.split(plates)
    held = {(m.compound, m.system): m.value for m in reversed(first)}
    cells = [cell for cell in sorted(others) if simulated_plate.readable(others[cell][0].value)
             and simulated_plate.readable(held[cell])]
    return list(tlc_replicates.trials(plates, first, others, [(c, [s]) for c, s in cells]))


def plate(query, means, beside):
    """The query as it is read on a plate, and the plate's spots, the sample first. means: {system:
    {compound: R_F}} of the library; beside: whether the truth is among the standards."""
    ((system, value),) = query.values.items()
    (truth,) = query.truths
    dice = random.Random(f"beside {truth} {system}")
    shift = dice.gauss(0, simulated_plate.SHIFT)
    values = {c: v for c, v in means[system].items()
              if simulated_plate.readable(v) and (c == truth) <= beside}
    chosen = simulated_plate.standards(values, STANDARDS, dice, [truth] if beside else [])
    reading = simulated_plate.rounded(simulated_plate.moved(value, shift))
    spots = [Spot("sample", reading, "sample")] + [
        Spot(c, simulated_plate.noisy(values[c], shift, NOISE, dice), "standard") for c in chosen]
    return dataclasses.replace(query, values={system: reading}), spots


def identify(library, system, spots):
    table = simulated_plate.write(library.folder / "plate.csv", spots)
    (answer,) = library.objects("identify", table, "--system", system, "--top", LISTED)
    return answer


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
    for what, beside in (("truth beside", True), ("others beside", False)):
        asked, said = zip(*(ask(program, t, beside) for t in trials))
        result += [comparison.compare(f"11 TLC plate, {what}", asked, said), note(asked, said)]
    return result


def note(trials, said):
    queries = [q for t in trials for q in t.queries]
    first = [a["candidates"][0] if a["candidates"] else None for own in said for a in own]
    of_plate = [c is not None and c["basis"] == "same_run" for c in first]
    right = scoring.share(c["compound"] in q.truths
                          for q, c, own in zip(queries, first, of_plate) if own)
    sure = scoring.sure(queries, [f for t, own in zip(trials, said)
                                  for f in forecast.from_answers(t, own)], SURE)
    values = {"n": len(queries), "first_of_same_run": scoring.share(of_plate),
              "right_of_these": right, f"stated_{SURE}": sure}
    return Note("  standards of the plate", [
        f"first candidate of basis same_run: {report.per_cent(values['first_of_same_run'])} %, "
        f"right {report.per_cent(right)} % of these",
        f"stated at {SURE} to 1: {sure['n']}, right {report.per_cent(sure['right'])} %"], values)
