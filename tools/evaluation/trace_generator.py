"""Recorded traces that are made of known peaks: exponentially modified Gaussians of one shape, on a
baseline that drifts, with noise."""
import bisect
import dataclasses
import math
import random

TAILING = 0.5  # tau over sigma: its symmetry factor is 1.06
REACH = (8, 20)  # sigmas before and after the middle of the Gaussian, beyond which nothing is left


def unit_height(t):
    """Height at t sigmas from the middle of the Gaussian, of area and sigma 1. The form overflows
    far before the peak only, outside `REACH`: Foley and Dorsey 1984, from memory."""
    if not -REACH[0] <= t <= REACH[1]:
        return 0.0
    decay = math.exp((1 / TAILING / 2 - t) / TAILING) / (2 * TAILING)
    return decay * math.erfc((1 / TAILING - t) / math.sqrt(2))


def crossing(function, low, high):
    """Where the function, above 0 at `low` and below at `high`, is 0."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if function(middle) > 0 else (low, middle)
    return low


def unit_apex():
    """Where the peak meets its Gaussian, as its slope is 0 there."""
    gaussian = lambda t: math.exp(-t * t / 2) / math.sqrt(2 * math.pi)
    return crossing(lambda t: gaussian(t) - unit_height(t), 0, TAILING)


APEX = unit_apex()  # sigmas after the middle of the Gaussian
TOP = unit_height(APEX)
BEFORE, AFTER = (crossing(lambda t, side=side: unit_height(APEX + side * t) - TOP / 2, 0, 5)
                 for side in (-1, 1))
HALF_WIDTH = BEFORE + AFTER  # sigmas


@dataclasses.dataclass(frozen=True)
class Peak:
    name: str
    apex: float  # min
    area: float  # signal times min
    half_width: float  # min

    @property
    def sigma(self):
        return self.half_width / HALF_WIDTH

    @property
    def height(self):
        return self.area * TOP / self.sigma


@dataclasses.dataclass(frozen=True)
class Noise:
    kind: str  # one of KINDS
    deviation: float


def white(count, dice):
    return [dice.gauss(0, 1) for _ in range(count)]


def filtered(count, dice):
    """White noise behind two low-pass filters of three points, as instruments have, of deviation
    1."""
    keep = math.exp(-1 / 3)
    deviation = (1 - keep) ** 2 * math.sqrt((1 + keep ** 2) / (1 - keep ** 2) ** 3)
    first = second = 0.0
    values = []
    for value in white(count + 50, dice):  # the first 50 fill the filters
        first = keep * first + (1 - keep) * value
        second = keep * second + (1 - keep) * first
        values.append(second / deviation)
    return values[50:]


KINDS = {"white": white, "filtered": filtered}


def axis(peaks, step):
    """From 0 min until the last peak has come down."""
    return [n * step for n in range(int((peaks[-1].apex + 5 * peaks[-1].half_width) / step) + 1)]


def total(peaks, times):
    """Sum of the peaks, without noise."""
    values = [0.0] * len(times)
    for peak in peaks:
        middle = peak.apex - APEX * peak.sigma
        start, end = (bisect.bisect(times, middle + side * reach * peak.sigma)
                      for side, reach in zip((-1, 1), REACH))
        for i in range(start, end):
            values[i] += peak.area / peak.sigma * unit_height((times[i] - middle) / peak.sigma)
    return values


def recorded(peaks, times, noise, drift, seed):
    """The signal: peaks, noise, and a straight and a slow wave of the size `drift`."""
    dice = random.Random(f"trace {noise.kind} {noise.deviation} {seed}")
    slope, wave = dice.uniform(-drift, drift) / times[-1], dice.uniform(0, drift / 2)
    period, phase = dice.uniform(0.8, 2) * times[-1], dice.uniform(0, 2 * math.pi)
    return [value + noise.deviation * error + slope * t
            + wave * math.sin(2 * math.pi * t / period + phase)
            for t, value, error in zip(times, total(peaks, times),
                                       KINDS[noise.kind](len(times), dice))]


def write(path, times, signal):
    with open(path, "w", encoding="utf-8") as file:
        file.write("time (min)\tsignal\n")
        file.writelines(f"{t:.5f}\t{y:.6g}\n" for t, y in zip(times, signal))
    return path
