"""17. Plates: what is found on drawn photos of developed plates, whose truth is known, beside what is
wanted. The program tests/src/plate_photo/photo_trial.cpp draws and judges them, and prints what its
words mean.

It is built first, unless the environment variable COSPOT_PHOTO_TRIAL names it. A seed stands for
PLATES plates that no other seed shares: a third each are easy, usual and hard to read.
"""
from report import Note
from targets import Target, coverage, definitions, line
from trial_program import built, said_by

PLATES = 100


def of_r_f(key, text, most):
    return Target(key, text, None, most, 4, 1, "")


CORNERS = (
    Target("found", "corners found", None, None),
    Target("asked_for", "corners asked for", None, None),
    Target("wrong", "corners wrong", None, None),
    Target("right_ones_mean_mm", "off by, mean of right ones", None, None, 2, 1, " mm"),
)
SPOTS = (
    of_r_f("rf_error_mean", "|dR_F|, mean", 0.006),
    of_r_f("rf_error_95", "|dR_F|, 95 % are below", 0.015),
    Target("found", "spots of 5 % contrast found", 0.95, None),
    Target("false_share", "found spots that are false", None, 0.03),
    coverage("covered", "R_F covered at 95 %"),
    Target("drowned_in_noise_found", "  of those that drown in noise", None, None),
    Target("faint_found", "fainter spots found", None, None),
)
LANES = Target("lanes_right", "lanes right", 0.95, None)
LINES = (Target("seen", "seen where visible", None, None),
         Target("right", "right where visible", None, None),
         Target("seen_where_invisible", "seen where there is none", None, None))
CORNERS_OF = {"through_true_corners": "true corners", "through_found_corners": "found corners"}
GROUPS = {"white": "white light", "uv254": "254 nm", "uv366": "366 nm",
          "easy": "easy", "usual": "usual", "hard": "hard"}


def trials(seeds):
    """The trial's JSON of each seed."""
    program = built("photo_trial")
    return [said_by(program, "--seed", seed, "--plates", PLATES) for seed in seeds]


def figure_line(target, parts):
    """A line of those seeds that have the figure; none where no seed has."""
    values = [part[target.key] for part in parts if part[target.key] is not None]
    return [line(target, values)] if values else []


def corners(said):
    parts = [s["figures"]["all"]["corners"] for s in said]
    return Note("17 plates in photos, corners",
                [text for target in CORNERS for text in figure_line(target, parts)], parts)


def spots(said, key, label):
    parts = [s["figures"]["all"][key] for s in said]
    asked = sum(part["spots"]["asked_for"] for part in parts)
    lines = [f"{sum(part['plates'] for part in parts)} plates, {asked} spots asked for"]
    for target in SPOTS:
        lines += figure_line(target, [part["spots"] for part in parts])
    lines += figure_line(LANES, parts)
    for which in ("start", "front"):
        for target in LINES:
            lines += [f"{which} {text}" for text in
                      figure_line(target, [part[which] for part in parts])]
    return Note(f"  through {label}", lines, parts)


def group_line(name, parts, target):
    return [f"{name:<12} {text}" for text in figure_line(target, parts)]


def groups(said):
    """What lights and difficulties differ in, through true corners."""
    lines, kept = [], {}
    for key, name in GROUPS.items():
        kept[key] = [s["figures"][key]["through_true_corners"]["spots"] for s in said]
        for target in (SPOTS[2], SPOTS[3], SPOTS[0]):
            lines += group_line(name, kept[key], target)
    return Note("  by light and difficulty", lines, kept)


def kinds(said):
    """Share found of each kind of spot, all seeds together, through true corners."""
    counts = {}
    for s in said:
        found_by = s["figures"]["all"]["through_true_corners"]["spots"]["found_by_kind"]
        for kind, counted in found_by.items():
            asked, found = counts.get(kind, (0, 0))
            counts[kind] = (asked + counted["asked_for"],
                            found + round(counted["found"] * counted["asked_for"]))
    lines = [f"{kind.replace('_', ' '):<12} {found} of {asked}"
             for kind, (asked, found) in sorted(counts.items())]
    return Note("  found, by kind of spot", lines, counts)


def seconds(said):
    parts = [s["seconds_12_megapixels"] for s in said]
    lines = [line(Target(key, text, None, None, 2, 1, " s"), [part[key] for part in parts])
             for key, text in (("corners", "corners"), ("flat_plate_and_spots", "then the spots"))]
    return Note("  a photo of 12 megapixels", lines, parts)


def rows(_data, _program, seeds):
    said = trials(seeds)
    return [corners(said)] + [spots(said, key, label) for key, label in CORNERS_OF.items()] \
        + [groups(said), kinds(said), seconds(said), definitions(said[0]["definitions"])]
