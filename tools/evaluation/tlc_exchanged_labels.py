"""12. TLC: simulated plates on which the labels of two standards may be exchanged: is it said where
a sample is identified, and where the plate is learned?"""
import dataclasses
import random

import report
import scoring
import simulated_plate
import tlc_data
import windows
from program import Library
from report import Note
from simulated_plate import Spot
from trial import Trial

PLATES = 200  # every second one with an exchange
STANDARDS = 4
NOISE = 0.5 / simulated_plate.FRONT  # of R_F
VERBS = {"identify": [], "learn": ["--dry-run"]}
WORDS = ("label", "exchanged"), ("exchanged",)  # that flag a plate; that name what is wrong
CODES = (0, 1, 2)  # done, needs attention, input refused


def one_eluent(plates):
    """All that was measured on the eluent with most values between start and front."""
    count = {s.name: sum(m.system == s.name and simulated_plate.readable(m.value)
                         for m in plates.measurements) for s in plates.systems}
    chosen = tlc_data.on_eluent(plates, max(sorted(count), key=count.get))
    return Trial("Rf", chosen.systems, chosen.structures, chosen.measurements, [])


def plate(values, exchanged, dice):
    """Spots of one sample and standards; the sample is another compound of {compound: R_F}."""
    shift = dice.gauss(0, simulated_plate.SHIFT)
    chosen = simulated_plate.standards(values, STANDARDS, dice)
    sample = dice.choice(sorted(values.keys() - set(chosen)))
    read = lambda c: simulated_plate.noisy(values[c], shift, NOISE, dice)
    spots = [Spot(c, read(c), "standard") for c in chosen]
    if exchanged:
        one, other = dice.sample(range(len(spots)), 2)
        spots[one], spots[other] = (dataclasses.replace(spots[one], label=spots[other].label),
                                    dataclasses.replace(spots[other], label=spots[one].label))
    return [Spot("sample", read(sample), "sample")] + spots


def rows(data, program):
    trial = one_eluent(tlc_data.read(data, program))
    (system,) = trial.systems
    means = windows.Expectation(trial).means[system.name]
    values = {c: v for c, v in means.items() if simulated_plate.readable(v)}
    outcomes = {verb: [] for verb in VERBS}
    with Library(program) as library:
        library.learn(trial)
        for n in range(PLATES):
            table = simulated_plate.write(
                library.folder / f"plate{n}.csv",
                plate(values, is_exchanged(n), random.Random(f"exchanged labels {n}")))
            for verb, options in VERBS.items():
                outcomes[verb].append(library.run(verb, table, "--system", system.name, *options,
                                                  codes=CODES))
    return [row(verb, own) for verb, own in outcomes.items()]


def is_exchanged(n):
    return n % 2 == 1


def row(verb, outcomes):
    lines, values = [], {"plates": len(outcomes)}
    for what, wanted in (("exchanged", True), ("correct", False)):
        own = [o for n, o in enumerate(outcomes) if is_exchanged(n) == wanted]
        flagged, named = (scoring.share(scoring.says(o, words) for o in own) for words in WORDS)
        refused = scoring.share(o.code == 2 for o in own)
        lines.append(f"{len(own)} plates, labels {what}: {report.per_cent(flagged)} % flagged, "
                     f"{report.per_cent(named)} % as exchanged, {report.per_cent(refused)} % "
                     "refused")
        values[what] = {"n": len(own), "flagged": flagged, "named_exchanged": named,
                        "refused": refused}
    return Note(f"12 TLC labels of standards, {verb}", lines, values)
