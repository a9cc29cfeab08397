"""13. New systems: what `predict` expects of compounds on a system that shares 12, 20 or 50 of them
with the library, beside a monotone curve through the one other system that correlates best."""
import bisect
import dataclasses
import math
import random

import hplc_modifier
import hplc_transfer
import structures
import tlc_data
import windows
from program import Library, tables_of, write_table
from report import Note
from trial import Measurement, Trial, mean

SHARED = (12, 20, 50)
TARGETS = 4  # systems that are new in turn, of each set of data
FEWEST_ASKED = 20
SYSTEMS = 8  # gradient systems, those that share many structures with the most others


@dataclasses.dataclass
class Answers:
    """Squared errors, in squared deviations of the values on the new system, and what is covered."""
    ours: list = dataclasses.field(default_factory=list)
    curve: list = dataclasses.field(default_factory=list)
    covered: list = dataclasses.field(default_factory=list)
    basis: list = dataclasses.field(default_factory=list)


def gradients(data, program):
    times, described = hplc_transfer.read(data)
    reversed_phase = [s for s in times if described.get(s, {}).get("method_type") == "RP"]
    shared = {s: sum(len(times[s].keys() & times[other].keys()) >= max(SHARED) + FEWEST_ASKED
                     for other in reversed_phase if other != s) for s in reversed_phase}
    kept = sorted(reversed_phase, key=lambda s: (-shared[s], s))[:SYSTEMS]
    labels, smiles_of = structures.labelled(program, {c for s in kept for c in times[s]})
    measured = [Measurement(labels[c], s, t) for s in kept for c, t in times[s].items()
                if c in labels]
    return Trial("tR", [hplc_transfer.described(s, described[s]) for s in kept], smiles_of,
                 measured, [])


def plates(data, program):
    read = tlc_data.read(data, program)
    return Trial("Rf", read.systems, read.structures, read.measurements, [])


def monotone(points):
    """(x, y) of the curve that never falls and has the least squared error (pool adjacent violators: barlow1972,
    from memory)."""
    blocks = []
    for x, y in sorted(points):
        blocks.append([x, y, 1])
        while len(blocks) > 1 and blocks[-2][1] > blocks[-1][1]:
            x2, y2, n2 = blocks.pop()
            x1, y1, n1 = blocks[-1]
            blocks[-1] = [(x1 * n1 + x2 * n2) / (n1 + n2), (y1 * n1 + y2 * n2) / (n1 + n2), n1 + n2]
    return [(x, y) for x, y, _ in blocks]


def at(curve, x):
    """Between two points along the line, beyond the ends as at the ends."""
    after = bisect.bisect_left([point[0] for point in curve], x)
    if after in (0, len(curve)):
        return curve[min(after, len(curve) - 1)][1]
    (x0, y0), (x1, y1) = curve[after - 1], curve[after]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def curve_answer(means, target, compound):
    """The answer of the best-correlated system that holds the compound."""
    best = None
    for other, held in sorted(means.items()):
        common = [(held[c], means[target][c]) for c in held.keys() & means[target].keys()]
        if other != target and compound in held and len(common) >= windows.FEWEST_COMMON:
            correlation, slope, _ = windows.least_squares(common)
            if best is None or correlation > best[0]:
                sign = math.copysign(1, slope)
                points = [(x, sign * y) for x, y in common]
                best = (correlation, sign * at(monotone(points), held[compound]))
    return best and best[1]


def expected(program, trial, target, compounds):
    """{compound: what `predict` says of it on the target}."""
    with Library(program) as library:
        library.learn_tables(*tables_of(trial))
        asked = write_table(library.folder / "asked.csv", "compound,smiles",
                            [(c, trial.structures[c]) for c in compounds])
        return {o["compound"]: o["retention"][0]
                for o in library.objects("predict", asked, "--system", target)}


def ask(program, complete, shared):
    answers = Answers()
    means = windows.Expectation(complete).means
    names = sorted(means, key=lambda s: (-len(means[s]), s))
    for target in names[::max(1, len(names) // TARGETS)][:TARGETS]:
        elsewhere = {c for s in names if s != target for c in means[s]}
        common = sorted(means[target].keys() & elsewhere)
        if len(common) < shared + FEWEST_ASKED:
            continue
        kept = set(random.Random(f"new system {target} {shared}").sample(common, shared))
        trial = dataclasses.replace(complete, measurements=[
            m for m in complete.measurements if m.system != target or m.compound in kept])
        known = windows.Expectation(trial).means
        asked = [c for c in common if c not in kept]
        said = expected(program, trial, target, asked)
        unit = math.sqrt(mean((v - mean(means[target].values())) ** 2
                              for v in means[target].values()))
        for c in asked:
            add(answers, said[c], curve_answer(known, target, c), means[target][c], unit, trial,
                target)
    return answers


def add(answers, said, curve, truth, unit, trial, target):
    answers.basis.append(said.get("basis") if said.get("expected") is not None else "refused")
    if said.get("expected") is None or curve is None:
        return
    scaled = {key: trial.in_window_units(target, said[key])
              for key in ("expected", "low", "high") if said[key] > 0 or trial.quantity != "k"}
    answers.ours.append(((scaled["expected"] - truth) / unit) ** 2)
    answers.curve.append(((curve - truth) / unit) ** 2)
    answers.covered.append(scaled["low"] <= truth <= scaled["high"])


def rows(data, program):
    result = []
    for label, read in (("TLC", plates), ("HPLC fractions", hplc_modifier.read),
                        ("HPLC gradients", gradients)):
        complete = read(data, program)
        if complete.quantity == "tR":
            complete.run_times = {s.name: 100.0 for s in complete.systems}  # so that units are min
        for shared in SHARED:
            answers = ask(program, complete, shared)
            if not answers.ours:
                continue
            ours, curve = (math.sqrt(mean(e)) for e in (answers.ours, answers.curve))
            refused = answers.basis.count("refused")
            result.append(Note(
                f"13 {label}, {shared} shared",
                [f"{len(answers.ours)} values: error {ours:.3f} of the deviation, curve "
                 f"{curve:.3f}, ratio {ours / curve:.2f}; 90 % intervals hold "
                 f"{100 * mean(answers.covered):.1f} %; refused {refused}"],
                {"n": len(answers.ours), "rmse": ours, "curve_rmse": curve,
                 "coverage_90": mean(answers.covered), "refused": refused}))
    return result
