"""Figures of merit of forecasts against the truth."""
import math

from forecast import UNLISTED
from trial import mean

LEAST_STATED = 0.01  # smaller probabilities would drown the calibration error in trivial zeros
BINS = 10
HIGH = (0.7, 0.9)  # statements that a reader acts on
REMARKS = ("warnings", "remarks", "notes")  # fields of the program's objects: lists of texts


def share(flags):
    """Mean of numbers or truth values; None of none."""
    flags = list(flags)
    return mean(flags) if flags else None


def stated(query, forecast):
    """(probability, whether true) of all that a forecast states."""
    pairs = [(p, compound in query.truths) for compound, p in forecast.listed.items()]
    return pairs + [(forecast.unlisted, not query.truths)]


def reliability(pairs):
    """Rows mean stated, share true, n; one for each tenth of the range of probabilities."""
    bins = [[] for _ in range(BINS)]
    for probability, true in pairs:
        if probability >= LEAST_STATED:
            bins[min(BINS - 1, int(probability * BINS))].append((probability, true))
    return [{"stated": share(p for p, _ in b), "true": share(t for _, t in b), "n": len(b)}
            for b in bins]


def calibration_error(table):
    """Mean distance between stated and true, weighted by count."""
    rows = [row for row in table if row["n"]]
    if not rows:
        return None
    distance = sum(row["n"] * abs(row["stated"] - row["true"]) for row in rows)
    return distance / sum(row["n"] for row in rows)


def figures(queries, forecasts, pairs=None):
    """All figures as a dictionary; pairs: what calibration is judged by, if not all stated."""
    judged = list(zip(queries, forecasts, strict=True))
    known = [(q, f) for q, f in judged if q.truths]
    absent = [(q, f) for q, f in judged if not q.truths]
    if pairs is None:
        pairs = [pair for q, f in judged for pair in stated(q, f)]
    table = reliability(pairs)
    return {
        "queries": len(judged), "known": len(known), "absent": len(absent),
        "top_1": share(f.hit(q.truths, 1) for q, f in known),
        "top_3": share(f.hit(q.truths, 3) for q, f in known),
        "set_length": share(f.set_length() for _, f in judged),
        "set_with_unlisted": share(UNLISTED in f.members for _, f in judged),
        "coverage": share(f.covers(q.truths) for q, f in judged),
        "coverage_known": share(f.covers(q.truths) for q, f in known),
        "log_loss": share(-math.log(f.of_truth(q.truths)) for q, f in judged),
        "calibration_error": calibration_error(table),
        "absent_to_unlisted": share(f.says_unlisted() for _, f in absent),
        "known_to_unlisted": share(f.says_unlisted() for _, f in known),
        "unlisted_of_absent": share(f.unlisted for _, f in absent),
        "unlisted_of_known": share(f.unlisted for _, f in known),
        "unlisted_calibration": calibration_error(
            reliability([(f.unlisted, not q.truths) for q, f in judged])),
        "stated_from": {least: above(pairs, least) for least in HIGH},
        "reliability": table,
    }


def above(pairs, least):
    """How many statements have at least this probability, what they state and how many are true."""
    said = [pair for pair in pairs if pair[0] >= least]
    return {"n": len(said), "stated": share(p for p, _ in said), "true": share(t for _, t in said)}


def sure(queries, forecasts, least):
    """What is stated with at least this probability, above a half: how many statements, the share
    of them that is right, and the shares of all queries with a right and a wrong one."""
    said = [true for q, f in zip(queries, forecasts, strict=True)
            for probability, true in stated(q, f) if probability >= least]
    count = len(queries)
    return {"n": len(said), "right": share(said),
            "right_of_all": sum(said) / count if count else None,
            "wrong_of_all": (len(said) - sum(said)) / count if count else None}


def named_moved(statements, runs):
    """Share of the runs that are named as moved; None if nothing is said of any run. statements:
    {run: {"moved": ...}}."""
    return share(run in statements and statements[run]["moved"] for run in runs) \
        if statements else None


def shift_error(statements, true):
    """Mean absolute error of the shifts that are stated, {run: {"shift": ...}}, against the true
    ones, {run: shift}; None if none is stated."""
    return share(abs(said["shift"] - true[run]) for run, said in statements.items()
                 if said.get("shift") is not None)


def says(outcome, words):
    """Whether the program says that something needs attention (code 1), and one of these words: in
    a message, or in what its objects remark."""
    said = [outcome.messages] + [remark for o in outcome.objects()
                                 for key in REMARKS for remark in o.get(key, [])]
    return outcome.code == 1 and any(word in text for text in said for word in words)


def area_under_roc(scores, positive):
    """Probability that a positive scores higher than a negative, ties counting half (the rank
    statistic of Mann and Whitney 1947)."""
    order = sorted(range(len(scores)), key=scores.__getitem__)
    rank_sum, start = 0.0, 0
    while start < len(order):
        end = start
        while end < len(order) and scores[order[end]] == scores[order[start]]:
            end += 1
        rank = (start + 1 + end) / 2
        rank_sum += rank * sum(positive[i] for i in order[start:end])
        start = end
    yes = sum(positive)
    no = len(positive) - yes
    return (rank_sum - yes * (yes + 1) / 2) / (yes * no) if yes and no else None
