"""What a perfect model could tell apart: where the information is not in the reading, no program
finds it."""
import math
import random
import statistics

from trial import mean

REPEATS = 10


def even_scale(quantity, value):
    """A scale on which noise is about even: arcsine of the square root of R_F, log10 k."""
    if quantity == "Rf":
        return math.asin(math.sqrt(min(1.0, max(0.0, value))))
    return math.log10(value)


def residuals(trial, answers):
    """Observed less expected of the true candidate where it is listed, on the even scale."""
    found = []
    for query, answer in zip(trial.queries, answers, strict=True):
        for candidate in answer["candidates"]:
            if candidate["compound"] in query.truths:
                found += [even_scale(trial.quantity, query.values[s["system"]])
                          - even_scale(trial.quantity, s["expected"])
                          for s in candidate["systems"] if s["expected"] is not None]
    return found


def robust_deviation(values):
    """Standard deviation of normal values, from the median of the absolute ones."""
    return 1.4826 * statistics.median(abs(v) for v in values)


def top_1(trials, said, complete):
    """Share of queries that a perfect model would put first: it knows all values (the measurements
    `complete`, hidden ones too), and the reading differs from them by normal noise of the size of
    the residuals. Compounds never measured on a queried system are left out. None without
    residuals."""
    noise = [r for trial, own in zip(trials, said, strict=True) for r in residuals(trial, own)]
    if not noise:
        return None
    deviation = robust_deviation(noise)
    values = {}
    for m in complete:
        values.setdefault(m.system, {}).setdefault(m.compound, []).append(
            even_scale(trials[0].quantity, m.value))
    true = {system: {c: mean(v) for c, v in held.items()} for system, held in values.items()}
    dice = random.Random("ceiling")
    return mean(one_hit(query, true, deviation, dice)
                for trial in trials for query in trial.queries for _ in range(REPEATS))


def one_hit(query, true, deviation, dice):
    """1 if the truth is nearest to a simulated reading, less where it shares its place."""
    held = [true[system] for system in query.values]
    (truth,) = query.truths
    reading = [h[truth] + dice.gauss(0, deviation) for h in held]
    badness = {c: sum((r - h[c]) ** 2 for r, h in zip(reading, held))
               for c in set.intersection(*(set(h) for h in held))}
    least = min(badness.values())
    return (badness[truth] == least) / sum(b == least for b in badness.values())
