"""Simulated plates: compounds at the library's R_F, all moved by the plate's own shift, with noise
of the reading. Values are kept from the start and the front, where R_F says little."""
import dataclasses
import math

from program import write_table

FRONT = 60  # mm
SHIFT = 0.05  # of R_M = lg(1/R_F - 1), standard deviation between plates
LEAST, MOST = 0.05, 0.95  # R_F
APART = 0.1  # of standards, least difference of R_F


@dataclasses.dataclass(frozen=True)
class Spot:
    """One lane each."""
    label: str
    rf: float
    role: str  # sample or standard


def readable(rf):
    return LEAST < rf < MOST


def moved(rf, shift):
    """R_F on a plate whose R_M are so much higher."""
    return 1 / (1 + (1 / rf - 1) * 10 ** shift)


def standards(values, count, dice, among=()):
    """At most `count` random compounds of {compound: R_F} that are far enough apart; these among
    them."""
    chosen, order = list(among), sorted(values)
    for compound in dice.sample(order, len(order)):
        if all(abs(values[compound] - values[other]) >= APART for other in chosen):
            chosen.append(compound)
    return chosen[:count]


def rounded(rf):
    """As it is read, to 0.1 mm."""
    return round(FRONT * rf, 1) / FRONT


def noisy(rf, shift, noise, dice):
    """As it is read on a plate so shifted, with noise of this standard deviation in R_F."""
    return rounded(min(1, max(0, moved(rf, shift) + dice.gauss(0, noise))))


def write(path, spots):
    return write_table(path, "lane,label,spot,distance_mm,front_mm,role",
                       [(lane, spot.label, 1, f"{FRONT * spot.rf:.1f}", FRONT, spot.role)
                        for lane, spot in enumerate(spots, start=1)])
