"""7. Boiling points: the three methods of `predict` against measured ones, and how many of these lie
within the intervals that the model states: boiling-points/*.csv."""
import statistics

import tables
from program import Library
from report import Note
from trial import mean

COLUMNS = ("tb_K", "bp_K")
# Share that an interval is to hold, and its half width in standard errors as `predict` means them.
INTERVALS = ((0.90, 1.645), (0.95, 2.0))


def measured(data):
    """(file, SMILES, K) of all files."""
    return [(path.stem, row["smiles"], tables.number(row[column]))
            for path in tables.files(data / "boiling-points", "*.csv")
            for row in tables.rows(path) for column in COLUMNS
            if row.get("smiles") and tables.number(row.get(column, "")) is not None]


def coverage(label, ratios):
    """How many of the errors, in stated standard errors, lie within each interval."""
    held = {share: mean([ratio < width for ratio in ratios]) for share, width in INTERVALS}
    said = ", ".join(f"{100 * share:.0f} % intervals hold {100 * held[share]:.1f} %"
                     for share, _ in INTERVALS)
    return Note(f"  intervals, {label}", [f"{len(ratios)} values: {said}"],
                {"n": len(ratios), **{f"coverage_{100 * share:.0f}": held[share]
                                      for share, _ in INTERVALS}})


def rows(data, program):
    points = measured(data)
    with Library(program) as library:
        described = library.described(sorted({smiles for _, smiles, _ in points}))
    errors, ratios = {}, {}
    for source, smiles, kelvin in points:
        methods = described[smiles]["boiling_point"] if smiles in described else {}
        for method, said in methods.items():
            if said["kelvin"] is not None:
                error = abs(said["kelvin"] - kelvin)
                errors.setdefault(method, []).append(error)
                if "standard_error_kelvin" in said:
                    ratios.setdefault(source, []).append(error / said["standard_error_kelvin"])
    result = []
    for method, values in errors.items():
        average, middle = mean(values), statistics.median(values)
        result.append(Note(f"7 boiling point, {method}",
                           [f"{len(values)} values: mean absolute error {average:.1f} K, "
                            f"median {middle:.1f} K"],
                           {"n": len(values), "mean_absolute_error_kelvin": average,
                            "median_absolute_error_kelvin": middle}))
    result += [coverage(source, values) for source, values in sorted(ratios.items())]
    return result + [Note("  the method `model`", [
        "Its coefficients are fitted to the developers' part of this data: there, the honest",
        "figure is what tools/fit-boiling-points prints."], {})]
