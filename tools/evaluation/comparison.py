"""One row of the table: the program's figures beside the window's on the same queries."""
import dataclasses

import ceiling
import forecast
import hiding
import report
import scoring
import windows
from program import answers


def ask(label, program, trials, complete=None):
    """Runs the program on each trial and pools them into one row; with all values `complete`,
    hidden ones too, also their ceiling."""
    said = [answers(program, trial) for trial in trials]
    row = compare(label, trials, said)
    if complete is not None:
        row.ceiling = ceiling.top_1(trials, said, complete)
    return row


def compare(label, trials, said):
    queries = [query for trial in trials for query in trial.queries]
    forecasts = [f for trial, own in zip(trials, said, strict=True)
                 for f in forecast.from_answers(trial, own)]
    ours = scoring.figures(queries, forecasts)
    needed = [n for trial in trials for n in windows.half_widths(trial)]
    width = windows.width_for(ours["coverage_known"] or 0.0, queries, needed)
    baseline = scoring.figures(queries, [windows.forecast(n, width) for n in needed])
    baseline["nearest_top_1"] = scoring.share(
        windows.nearest_is_right(q, n) for q, n in zip(queries, needed) if q.truths)
    ours["rivals_without_value"] = scoring.share(
        n for trial in trials for n in hiding.without_value(trial))
    return report.Row(label, ours, baseline, width)


def only(features, trials, said):
    """Trials and answers without the queries of other features than these (sample, feature)."""
    kept = [[(q, a) for q, a in zip(t.queries, own) if (q.sample, q.feature) in features]
            for t, own in zip(trials, said)]
    return ([dataclasses.replace(t, queries=[q for q, _ in k]) for t, k in zip(trials, kept)],
            [[a for _, a in k] for k in kept])
