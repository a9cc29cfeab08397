"""4. GC: peaks of real runs against a library of retention indices; analysts labelled which
candidate a peak is, and which it is not: gc-pnnl2023/."""
import collections
import dataclasses
import zlib

import comparison
import forecast
import report
import scoring
import structures
import tables
import windows
from program import answers
from report import Note
from trial import Measurement, Query, System, Trial

FOLDS = 5
SYSTEM = System("fame-gc", "gc", "5 % phenyl (assumed)", "helium (assumed)",
                "fatty acid methyl ester", "temperature programme (not stated)")


@dataclasses.dataclass(frozen=True)
class Label:
    """Whether a peak is a compound."""
    run: str
    peak: str
    compound: str
    true: bool
    index: float
    reference: float  # index of the compound in the analysts' own library


def label(row, true):
    return Label(row["sample"], row["peak_index"], row["compound"], true, float(row["ri"]),
                 float(row["ri_ref"]))


def read(folder):
    """Labels without those of the ladder, which define the scale (always at their reference)."""
    runs = tables.rows(folder / "true_positive_runs.csv")
    candidates = tables.rows(folder / "annotated_candidates.csv")
    judged = [label(row, row["truth"] == "True.Positive") for row in candidates]
    everything = list(dict.fromkeys([label(row, True) for row in runs] + judged))
    measured = {one.compound for one in everything if one.index != one.reference}
    return (runs, [one for one in everything if one.compound in measured],
            [one for one in judged if one.compound in measured])


def fold_of_runs(runs, labels):
    """{run: fold}. Batches that share a run stay together, the largest are dealt out first; runs of
    no known batch are spread by a hash of their name."""
    batch_of, size = {}, collections.Counter()
    for row in runs:
        size[row["dataset"]] += 1
        batch_of.setdefault(row["sample"], row["dataset"])
    joined = {name: name for name in size}
    for row in runs:
        old, new = joined[row["dataset"]], joined[batch_of[row["sample"]]]
        joined = {name: new if group == old else group for name, group in joined.items()}
    load, fold_of_group = [0] * FOLDS, {}
    for name, count in sorted(size.items(), key=lambda item: (-item[1], item[0])):
        fold = fold_of_group.setdefault(joined[name], load.index(min(load)))
        load[fold] += count
    return {run: fold_of_group[joined[batch_of[run]]] if run in batch_of
            else zlib.crc32(run.encode()) % FOLDS for run in {one.run for one in labels}}


def trial(fold, folds, labels, smiles_of):
    learned = {(m.run, m.peak, m.compound): Measurement(m.compound, SYSTEM.name, m.index, m.run)
               for m in labels if m.true and folds[m.run] != fold}
    held = {m.compound for m in learned.values()}
    peaks = {}
    for one in labels:
        if folds[one.run] == fold:
            index, names = peaks.setdefault((one.run, one.peak), (one.index, set()))
            names.update([one.compound] if one.true and one.compound in held else [])
    queries = [Query(run, peak, {SYSTEM.name: index}, frozenset(names))
               for (run, peak), (index, names) in sorted(peaks.items())]
    return Trial("RI", [SYSTEM], smiles_of, list(learned.values()), queries)


def read_trials(data, program):
    """A trial a fold, all labels and those of judged candidates."""
    folder = data / "gc-pnnl2023"
    runs, labels, judged = read(folder)
    known = {row["compound"]: row["smiles"] for row in tables.rows(folder / "compounds.csv")}
    smiles_of = structures.named(program, {m.compound: known.get(m.compound, "") for m in labels})
    folds = fold_of_runs(runs, labels)
    trials = [trial(fold, folds, labels, smiles_of) for fold in range(FOLDS)]
    return [t for t in trials if t.queries], labels, judged


def labelled_peaks(labels):
    """(run, peak) of those that are said to be a compound."""
    return {(one.run, one.peak) for one in labels if one.true}


def rows(data, program):
    trials, labels, judged = read_trials(data, program)
    said = [answers(program, t) for t in trials]
    is_labelled = labelled_peaks(labels)
    row = comparison.compare("4 GC labelled peaks", *comparison.only(is_labelled, trials, said))
    scores, pairs = separation(trials, said, judged, is_labelled)
    table = scoring.reliability(pairs)
    row.ours |= {"calibration_error": scoring.calibration_error(table), "reliability": table}
    return [row, area_note(scores)]


def separation(trials, said, judged, is_labelled):
    """Scores of the judged candidates that the library holds, and what calibration is judged by:
    all that is stated of labelled peaks, and of others the candidate that was judged false."""
    by_peak, pairs = {}, []
    for t, own in zip(trials, said):
        for query, stated, needed in zip(t.queries, forecast.from_answers(t, own),
                                         windows.half_widths(t)):
            by_peak[query.sample, query.feature] = (stated, needed)
            if (query.sample, query.feature) in is_labelled:
                pairs += scoring.stated(query, stated)
    scores = []
    for one in judged:
        stated, needed = by_peak[one.run, one.peak]
        if one.compound in needed:
            probability = stated.listed.get(one.compound, 0.0)
            scores.append((one.true, probability, -needed[one.compound],
                           -abs(one.index - one.reference)))
            if (one.run, one.peak) not in is_labelled:
                pairs.append((probability, one.true))
    return scores, pairs


def area_note(scores):
    true = [s[0] for s in scores]
    names = ("probability", "distance_to_library_mean", "distance_to_reference")
    values = {"n": len(scores), "false": len(scores) - sum(true)}
    values |= {name: scoring.area_under_roc([s[n] for s in scores], true)
               for n, name in enumerate(names, start=1)}
    area = [report.number(values[name], 3) for name in names]
    return Note("  true or false candidate", [
        f"{values['n']} candidates, {values['false']} false: area under the ROC curve {area[0]};",
        f"by distance to the library mean {area[1]}, to the analysts' reference {area[2]}"], values)
