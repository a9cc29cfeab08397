"""15. Peaks: how well they are found and measured on generated traces, whose truth is known, beside
what is wanted. The program tests/src/signal/signal_trial.cpp makes and judges them, and prints what
its words mean.

It is built first, unless the environment variable COSPOT_SIGNAL_TRIAL names it. A seed stands for
200 traces of each row and 300 of noise alone, which seeds that are 20,000 apart do not share.
Peaks count as S/N 5 to 500 by the range of the noise; those of 5 to 500 standard deviations, a
third as high, have a row of their own.
"""
import dataclasses

from report import Note
from targets import Target, coverage, definitions, line
from trial_program import built, said_by

TARGETS = (
    Target("separable_found", "separable peaks found", 0.95, None),
    Target("with_maximum_found", "  of these, with a maximum", None, None),
    Target("clear_shoulders_found", "  of these, clear shoulders", None, None),
    Target("all_found", "all true peaks found", None, None),
    Target("false_share", "found peaks that are false", None, 0.01, 2),
    Target("apex_error_median_half_widths", "median apex error, half widths", None, 0.03, 4, 1,
           ""),
    Target("isolated_area_error_median", "median area error, isolated peaks", None, 0.01, 2),
    coverage("apex_covered_at_95", "apex covered at 95 %, all"),
    coverage("apex_covered_at_95_where_none_is_hidden", "apex covered, none hidden beside it"),
    coverage("isolated_apex_covered_at_95", "apex covered, isolated peaks"),
    coverage("isolated_area_covered_at_95", "area covered, isolated peaks"),
)
NOISE = Target("noise_alone_traces_of_100_without_peak", "", 95, None, 0, 1, " of 100")
PARTS = {"peaks": "15 peaks, S/N 5 to 500", "weak_peaks": "  height 5 to 500 deviations"}


def trials(seeds):
    """The trial's JSON of each seed."""
    program = built("signal_trial")
    return [said_by(program, seed) for seed in seeds]


def part(label, figures):
    """Row of all kinds of noise; figures: those of each seed."""
    counts = ", ".join(f"{sum(f['all'][key] for f in figures)} {text}" for key, text in (
        ("true_peaks", "true peaks"), ("separable", "separable"),
        ("clear_shoulders", "of these clear shoulders"), ("isolated", "isolated")))
    values = {t.key: [f["all"][t.key] for f in figures] for t in TARGETS}
    return Note(label, [counts] + [line(t, values[t.key]) for t in TARGETS],
                {"by_seed": figures, "met": {t.key: all(map(t.is_met, values[t.key]))
                                             for t in TARGETS if t.wanted()}})


def area_by_noise(said):
    """What the kinds of noise differ in most: how areas are covered."""
    target = TARGETS[-1]
    values = {kind: [s["peaks"][kind][target.key] for s in said]
              for kind in said[0]["peaks"] if kind != "all"}
    return Note("  area covered, by noise",
                [line(dataclasses.replace(target, text=kind), v) for kind, v in values.items()],
                values)


def noise_alone(said):
    counts = {kind: [s[NOISE.key][kind] for s in said] for kind in said[0][NOISE.key]}
    return Note("  noise alone, traces without peak",
                [line(dataclasses.replace(NOISE, text=kind), v) for kind, v in counts.items()],
                counts)


def rows(_data, _program, seeds):
    said = trials(seeds)
    return [part(label, [s[key] for s in said]) for key, label in PARTS.items()] \
        + [area_by_noise(said), noise_alone(said), definitions(said[0]["definitions"])]
