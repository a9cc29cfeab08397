"""7. Boiling points: the three methods of `predict` against measured ones: boiling-points/*.csv."""
import statistics

import tables
from program import Library
from report import Note
from trial import mean

COLUMNS = ("tb_K", "bp_K")


def measured(data):
    """(SMILES, K) of all files."""
    return [(row["smiles"], tables.number(row[column]))
            for path in tables.files(data / "boiling-points", "*.csv")
            for row in tables.rows(path) for column in COLUMNS
            if row.get("smiles") and tables.number(row.get(column, "")) is not None]


def rows(data, program):
    points = measured(data)
    with Library(program) as library:
        described = library.described(sorted({smiles for smiles, _ in points}))
    errors = {}
    for smiles, kelvin in points:
        methods = described[smiles]["boiling_point"] if smiles in described else {}
        for method, said in methods.items():
            if said["kelvin"] is not None:
                errors.setdefault(method, []).append(abs(said["kelvin"] - kelvin))
    result = []
    for method, values in errors.items():
        average, middle = mean(values), statistics.median(values)
        result.append(Note(f"7 boiling point, {method}",
                           [f"{len(values)} values: mean absolute error {average:.1f} K, "
                            f"median {middle:.1f} K"],
                           {"n": len(values), "mean_absolute_error_kelvin": average,
                            "median_absolute_error_kelvin": middle}))
    return result + [Note("  the method `model`", [
        "Its coefficients are fitted to the developers' part of this data: there, the honest",
        "figure is what tools/fit-boiling-points prints."], {})]
