"""What a task asks: which values the library learns, which readings are queried, what is true."""
import dataclasses
import math


@dataclasses.dataclass(frozen=True)
class System:
    name: str
    technique: str
    stationary_phase: str
    mobile_phase: str
    scale: str = ""
    programme: str = ""


@dataclasses.dataclass(frozen=True)
class Measurement:
    compound: str
    system: str
    value: float  # R_F, k, index units or min, as the trial's quantity says
    run: str = ""
    date: str = ""


@dataclasses.dataclass(frozen=True)
class Query:
    """One feature. Several truths: several compounds make up the peak."""
    sample: str
    feature: str
    values: dict  # system: reading
    truths: frozenset  # compounds; none: a compound that the library lacks


@dataclasses.dataclass
class Trial:
    quantity: str  # Rf, k, RI or tR
    systems: list
    structures: dict  # compound: SMILES
    measurements: list
    queries: list
    run_times: dict = dataclasses.field(default_factory=dict)  # system: min, for tR only

    def compounds(self):
        """What the library holds."""
        return sorted({m.compound for m in self.measurements})

    def in_window_units(self, system, value):
        """R_F, log10 k, index units, or per cent of the run time."""
        if self.quantity == "k":
            return math.log10(value)
        if self.quantity == "tR":
            return 100 * value / self.run_times[system]
        return value


def mean(values):
    values = list(values)
    return math.fsum(values) / len(values)
