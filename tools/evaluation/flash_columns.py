"""14. Columns: where bands really leave packed flash columns, beside what `column` states from the
R_F of the same compound and eluent on plates of the same laboratory: flash-columns/elution.csv.

Asked with the hold-up volume given, with the mass of the silica only, and on a column that was
calibrated by one run (one compound), or by ten, of other compounds, fifty times each; and for a
compound that ran on the column before. Beside it what the trade counts with: the hold-up volume over R_F, +- 2 sigma of 150
plates. A run counts as misfiled where it is listed again, with the same band, under a larger column:
it is left out of what is said of the smaller one, but for the line that says so.
"""
import dataclasses
import math
import random
import statistics

import report
import structures
import tables
import tlc_data
from program import Library, write_table
from report import Note

TENTHS_PER_MINUTE = 600  # the unit of time that fits: see SOURCE.md there
ELUENTS = {"50/1": "Hex:EA 50:1", "20/1": "Hex:EA 20:1", "5/1": "Hex:EA 5:1", "1/1": "Hex:EA 1:1",
           "0/1": "EA"}  # those that the plates have too
HOLD_UP_ML = (1.7, 8)  # a gram of silica, and outside the bed: see SOURCE.md there
CALIBRATIONS = 50
PLATES = 150
RUN_TABLE = "column,silica_g,compound,Rf,start_mL,end_mL,amount_mg,load_mL,run"


@dataclasses.dataclass(frozen=True)
class Run:
    compound: str
    eluent: str
    silica_g: float
    rf: float
    start_ml: float
    end_ml: float
    amount_mg: float
    load_ml: float

    @property
    def middle_ml(self):
        return (self.start_ml + self.end_ml) / 2

    @property
    def hold_up_ml(self):
        return HOLD_UP_ML[0] * self.silica_g + HOLD_UP_ML[1]

    @property
    def band(self):
        return self.compound, self.eluent, self.start_ml, self.end_ml


def plate_values(data, program):
    """{(SMILES of the columns' table, eluent): mean R_F}, and labels of these SMILES."""
    plates = tables.rows(data / "tlc-xu2022/tlc_rf_tidy.csv")
    columns = tables.rows(data / "flash-columns/elution.csv")
    labels, _ = structures.labelled(program, (row["smiles"] for row in plates + columns))
    values = {}
    for row in plates:
        if row["smiles"] in labels:
            values.setdefault((labels[row["smiles"]], row["eluent"]), []).append(float(row["Rf"]))
    return {key: statistics.mean(rfs) for key, rfs in values.items()}, labels


def read(data, program):
    """All runs with a plate in the same eluent, between start and front."""
    rfs, labels = plate_values(data, program)
    runs = []
    for row in tables.rows(data / "flash-columns/elution.csv"):
        ml = float(row["flow_ml_min"]) / TENTHS_PER_MINUTE
        start, end = (tables.number(row[name]) for name in ("start", "end"))
        eluent = row["petroleum_ether_to_ethyl_acetate"]
        label = labels.get(row["smiles"])
        rf = rfs.get((label, ELUENTS.get(eluent)))
        if rf is None or not 0 < rf < 1 or not 0 < (start or 0) < (end or 0):
            continue
        runs.append(Run(label, eluent, float(row["silica_g"]), rf, start * ml, end * ml,
                        float(row["volume_ul"]) * float(row["density_g_ml"]),
                        float(row["loading_volume_ul"]) / 1000))
    return runs


def misfiled(runs):
    """Those that a larger column has too, to the digit."""
    largest = {}
    for run in runs:
        largest[run.band] = max(run.silica_g, largest.get(run.band, 0))
    return {run for run in runs if run.silica_g < largest[run.band]}


def planned(library, runs, *options, named=lambda n, run: f"run {n}"):
    """What `column` states of each run, whose loads are stated. Names differ, so that no compound is
    taken for one that was run before."""
    stated = []
    for load in sorted({run.load_ml for run in runs}):
        own = [(named(n, run), run) for n, run in enumerate(runs) if run.load_ml == load]
        table = write_table(library.folder / "plate.csv", "compound,Rf,amount_mg",
                            [(name, run.rf, run.amount_mg) for name, run in own])
        answers = {o["compound"]: o for o in library.objects("column", table, "--load-ml", load,
                                                             *options)
                   if o["record"] == "compound"}
        stated += [(run, answers[name]) for name, run in own]
    return stated


def trade(runs):
    """The plan without a model, as `column` would state it."""
    stated = []
    for run in runs:
        middle = run.hold_up_ml / run.rf
        half = 2 * middle / math.sqrt(PLATES)
        ends = {"low_mL": middle - half, "high_mL": middle + half}
        stated.append((run, {"middle_mL": middle, "start_mL": middle - half,
                             "end_mL": middle + half} |
                       {f"{what}_{end}": ml for what in ("middle", "whole")
                        for end, ml in ends.items()}))
    return stated


def learn(library, name, runs):
    table = write_table(library.folder / "run.csv", RUN_TABLE,
                        [(name, run.silica_g, run.compound, run.rf, run.start_ml, run.end_ml,
                          run.amount_mg, run.load_ml, n) for n, run in enumerate(runs)])
    library.run("learn", table)


def calibrated(library, runs, count):
    """Each time `count` runs calibrate a column; what it then states of one run of each other
    compound."""
    stated = []
    dice = random.Random(f"calibration by {count}")
    for n in range(CALIBRATIONS):
        taught = dice.sample(runs, count)
        name = f"{runs[0].silica_g:g} g, {count} runs, {n}"
        learn(library, name, taught)
        known = {run.compound for run in taught}
        others = {}
        for run in dice.sample(runs, len(runs)):
            if run.compound not in known:
                others.setdefault(run.compound, run)
        stated += planned(library, list(others.values()), "--column", name)
    return stated


def repeated(library, runs):
    """A compound that ran once on the column in this eluent, run again."""
    cells = {}
    for run in runs:
        cells.setdefault((run.compound, run.eluent), []).append(run)
    stated = []
    for (compound, eluent), own in sorted(cells.items()):
        if len(own) > 1:
            name = f"{own[0].silica_g:g} g, {compound} in {ELUENTS[eluent]}"
            first, again = random.Random(name).sample(own, 2)
            learn(library, name, [first])
            stated += planned(library, [again], "--column", name,
                              named=lambda n, run: run.compound)
    return stated


def figures(stated):
    holds = lambda answer, what, ml: answer[f"{what}_low_mL"] <= ml <= answer[f"{what}_high_mL"]
    ratios = [math.log(run.middle_ml / answer["middle_mL"]) for run, answer in stated]
    widths = [(run.end_ml - run.start_ml) / run.middle_ml * answer["middle_mL"] /
              (answer["end_mL"] - answer["start_mL"]) for run, answer in stated]
    factors = [math.log(answer["middle_high_mL"] / answer["middle_low_mL"]) / 2
               for _, answer in stated]
    return {"n": len(stated), "compounds": len({run.compound for run, _ in stated}),
            "middle_within": statistics.mean(holds(a, "middle", r.middle_ml) for r, a in stated),
            "whole_within": statistics.mean(holds(a, "whole", r.start_ml) and
                                            holds(a, "whole", r.end_ml) for r, a in stated),
            "median_ratio": math.exp(statistics.median(ratios)),
            "spread_ln": statistics.pstdev(ratios),
            "median_width_ratio": statistics.median(widths),
            "mean_factor": math.exp(statistics.mean(factors))}


def row(label, stated):
    f = figures(stated)
    return Note(f"14 {label}", [
        f"{f['n']} runs, {f['compounds']} compounds: middle {report.per_cent(f['middle_within'])} "
        f"% within the stated 95 %, whole band {report.per_cent(f['whole_within'])} %",
        f"measured over expected {f['median_ratio']:.2f} (median), sd(ln) {f['spread_ln']:.2f}; "
        f"width {f['median_width_ratio']:.2f}; stated factor {f['mean_factor']:.2f}"], f)


def rows_of_size(library, runs, wrong, size):
    own = [run for run in runs if run.silica_g == size]
    kept = [run for run in own if run not in wrong]
    hold_up = ("--column-volume-ml", kept[0].hold_up_ml)
    rows = [row(f"{size:g} g, 1/R_F and 150 plates", trade(kept)),
            row(f"{size:g} g, hold-up given", planned(library, kept, *hold_up)),
            row(f"{size:g} g, mass of silica only",
                planned(library, kept, "--silica-g", size)),
            row(f"{size:g} g, calibrated by 1 run", calibrated(library, kept, 1)),
            row(f"{size:g} g, calibrated by 10 runs", calibrated(library, kept, 10))]
    if again := repeated(library, kept):
        rows.append(row(f"{size:g} g, run once before", again))
    if len(own) > len(kept):
        rows.insert(2, row("  with what is misfiled", planned(library, own, *hold_up)))
    return rows


def rows(data, program):
    runs = read(data, program)
    wrong = misfiled(runs)
    with Library(program) as library:
        return [r for size in sorted({run.silica_g for run in runs})
                for r in rows_of_size(library, runs, wrong, size)]
