"""Which peaks of a generated trace can be told apart, and which of them were found."""
import bisect
import math

import trace_generator

SAME_PLACE = 0.5  # half widths between a found peak, or a maximum of the sum, and the true peak
STANDS_OUT = 3  # standard deviations of the noise
SHOULDER_HEIGHT = 20  # the same
SHOULDER_BEND = 0.25  # of what the peak alone would have
FINE_STEPS = 20  # a half width


def tops(values):
    """(place, how far it rises above the valleys on both sides) of each maximum; a valley is the
    lowest value before one that is higher than the maximum."""
    before, after = valleys(values), valleys(values[::-1])[::-1]
    return [(i, values[i] - max(before[i], after[i])) for i in range(1, len(values) - 1)
            if values[i - 1] < values[i] >= values[i + 1]]


def valleys(values):
    """Of each value the lowest since the last one that is higher."""
    lowest, higher = [], []  # higher: (value, lowest since the last one higher than that)
    for value in values:
        least = value
        while higher and higher[-1][0] <= value:
            least = min(least, higher.pop()[1])
        higher.append((value, least))
        lowest.append(least)
    return lowest


def separable(peaks, deviation):
    """{name: "maximum" or "shoulder"} of the peaks that can be told apart in noise of this
    deviation, by the definition that the trial of generated traces prints (task 15): the sum has a
    maximum there that stands out, or the second derivative has."""
    step = min(p.half_width for p in peaks) / FINE_STEPS
    times = trace_generator.axis(peaks, step)
    values = trace_generator.total(peaks, times)
    found = {}
    for i, rise in tops(values):
        peak = nearest(peaks, times[i])
        if near(peak, times[i]) and rise >= STANDS_OUT * deviation:
            found[peak.name] = "maximum"
    bends = [0.0] + [(2 * b - a - c) / step ** 2 for a, b, c in zip(values, values[1:], values[2:])]
    for i, rise in tops(bends):
        peak = nearest(peaks, times[i])
        alone = 8 * math.log(2) * peak.height / peak.half_width ** 2  # of a Gaussian
        if near(peak, times[i]) and peak.height >= SHOULDER_HEIGHT * deviation \
                and rise >= SHOULDER_BEND * alone:
            found.setdefault(peak.name, "shoulder")
    return found


def near(peak, time, within=SAME_PLACE):
    return abs(peak.apex - time) < within * peak.half_width


def nearest(peaks, time):
    """Peaks are in the order of their times."""
    i = bisect.bisect([p.apex for p in peaks], time)
    return min(peaks[max(0, i - 1):i + 1], key=lambda p: abs(p.apex - time))


def matched(peaks, times, within=SAME_PLACE):
    """{name: index of its time}: each peak and each time at most once, nearest first."""
    pairs = sorted((abs(peak.apex - time) / peak.half_width, n, peak.name)
                   for n, time in enumerate(times) for peak in peaks if near(peak, time, within))
    found, taken = {}, set()
    for _, n, name in pairs:
        if name not in found and n not in taken:
            found[name] = n
            taken.add(n)
    return found
