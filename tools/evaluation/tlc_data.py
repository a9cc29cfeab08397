"""R_F values on silica plates: tlc-xu2022/tlc_rf_tidy.csv."""
import dataclasses

import structures
import tables
from trial import Measurement, System

SOLVENTS = {"frac_hexane": "hexane", "frac_EA": "ethyl acetate", "frac_DCM": "dichloromethane",
            "frac_MeOH": "methanol", "frac_Et2O": "diethyl ether"}


@dataclasses.dataclass
class Plates:
    systems: list
    structures: dict  # compound: SMILES
    measurements: list
    bottles: list  # of each measurement: the bottle (compound id) that it was measured from


def eluent(row):
    """As volume parts, e.g. `hexane:ethyl acetate 5:1`."""
    parts = [(name, float(row[column])) for column, name in SOLVENTS.items()
             if float(row[column]) > 0]
    if len(parts) == 1:
        return parts[0][0]
    least = min(fraction for _, fraction in parts)
    ratio = ":".join(f"{round(fraction / least, 2):g}" for _, fraction in parts)
    return ":".join(name for name, _ in parts) + " " + ratio


def on_eluent(plates, name):
    """What was measured on one eluent."""
    kept = [(m, bottle) for m, bottle in zip(plates.measurements, plates.bottles, strict=True)
            if m.system == name]
    return Plates([s for s in plates.systems if s.name == name], plates.structures,
                  [m for m, _ in kept], [bottle for _, bottle in kept])


def read(data, program):
    rows = tables.rows(data / "tlc-xu2022/tlc_rf_tidy.csv")
    labels, smiles_of = structures.labelled(program, (row["smiles"] for row in rows))
    rows = [row for row in rows if row["smiles"] in labels]
    eluents = {row["eluent"]: eluent(row) for row in rows}
    return Plates([System(name, "tlc", "silica gel", text) for name, text in eluents.items()],
                  smiles_of,
                  [Measurement(labels[r["smiles"]], r["eluent"], float(r["Rf"])) for r in rows],
                  [row["compound_id"] for row in rows])
