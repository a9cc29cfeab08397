"""The table on the screen and its JSON."""
import dataclasses
import json

LEGEND = """\
top-1, top-3  per cent of the queries whose compound the library holds, that it is the first, or
              among the first three
ceil., near   top-1 of a perfect model with the noise of our own residuals (observed less expected);
              top-1 of just taking the nearest expected value, on which the windows are centred
set, cover    compounds in the 95 % candidate set, mean; per cent of sets (unlisted may be a member)
              that hold the truth
loss          log loss: mean of -ln(probability of the truth), never above 13.8
calib.        calibration error: mean distance, in points of per cent, between stated probability
              (of compounds and unlisted, from 1 % on) and share true, in ten equal bins; where no
              compound is absent, the 20 % that unlisted has before measuring count against it
absent, lost  per cent of compounds that the library lacks, and of those that it holds, for which
              unlisted is the most probable
window        all compounds within +- so much of their expected value share 0.8 equally; it is so
              wide that its list holds the truth as often as our sets do, for compounds that the
              library holds
stated at     of all that is stated with such a probability, of compounds and of unlisted
shift off by  mean distance of the stated shift of a run from how far its readings were moved, in
              units of the quantity
flagged       exit code 1, and a message that speaks of the labels; refused: exit code 2
*             top-1 flatters: the truth was never measured on the queried system, most rivals
              were"""
HEADER = ("task", "method", "n", "top-1", "ceil.", "near", "top-3", "set", "cover", "loss",
          "calib.", "absent", "lost")
WIDTHS = (35, 13, 5, 5, 5, 5, 5, 5, 5, 5, 6, 6, 5)
TEXT_WIDTH = 120


@dataclasses.dataclass
class Row:
    label: str
    ours: dict
    window: dict
    half_width: float
    ceiling: float | None = None


@dataclasses.dataclass
class Note:
    """A row of other figures, in words; `values` holds them for the JSON."""
    label: str
    lines: list
    values: dict


def number(value, decimals):
    return "-" if value is None else f"{value:.{decimals}f}"


def per_cent(value):
    return "-" if value is None else f"{100 * value:.1f}"


def aligned(cells):
    left = [f"{cell:<{width}}" for cell, width in zip(cells[:2], WIDTHS[:2])]
    right = [f"{cell:>{width}}" for cell, width in zip(cells[2:], WIDTHS[2:])]
    return " ".join(left + right).rstrip()


def figure_line(label, method, figures, ceiling="", nearest=""):
    f = figures
    return aligned((label, method, str(f["queries"]), per_cent(f["top_1"]), ceiling, nearest,
                    per_cent(f["top_3"]), number(f["set_length"], 1), per_cent(f["coverage"]),
                    number(f["log_loss"], 2), per_cent(f["calibration_error"]),
                    per_cent(f["absent_to_unlisted"]), per_cent(f["known_to_unlisted"])))


def lines_of(row):
    if isinstance(row, Note):
        labels = [row.label] + [""] * (len(row.lines) - 1)
        return [f"{label:<{WIDTHS[0]}} {line}" for label, line in zip(labels, row.lines)]
    ceiling = per_cent(row.ceiling) if row.ceiling is not None else ""
    return [figure_line(row.label, "cospot", row.ours, ceiling=ceiling),
            figure_line("", f"window {row.half_width:.3g}", row.window,
                        nearest=per_cent(row.window["nearest_top_1"]))]


def high_statements(row):
    """A note of what is stated with high probability, and of unlisted."""
    said = [f"from {least:g}: {part['n']} stated, {per_cent(part['true'])} % right"
            for least, part in row.ours["stated_from"].items()]
    lines = ["; ".join(said)]
    if row.ours["absent"]:
        lines.append(f"unlisted: {number(row.ours['unlisted_of_absent'], 2)} of absent, "
                     f"{number(row.ours['unlisted_of_known'], 2)} of held ones, calibration error "
                     f"{per_cent(row.ours['unlisted_calibration'])}")
    return Note("  what is stated", lines, {})


def reliability_lines(row):
    cells = [f"    {row.label}: stated / true per cent (n)"]
    for line in row.ours["reliability"]:
        if line["n"]:
            cells.append(f"      {per_cent(line['stated']):>5} / {per_cent(line['true']):>5}"
                         f"  ({line['n']})")
    return cells


def print_table(rows_of, verbose):
    """rows_of: {task number: rows}."""
    print(aligned(HEADER))
    for rows in rows_of.values():
        print("-" * TEXT_WIDTH)
        for row in rows:
            print("\n".join(lines_of(row)))
    print("-" * TEXT_WIDTH)
    print(LEGEND)
    if verbose:
        print("\nReliability")
        for rows in rows_of.values():
            for row in rows:
                if isinstance(row, Row):
                    print("\n".join(reliability_lines(row)))


def write_json(path, rows_of):
    tasks = [{"task": number, "rows": [dataclasses.asdict(row) for row in rows]}
             for number, rows in rows_of.items()]
    with open(path, "w", encoding="utf-8") as file:
        json.dump({"tasks": tasks}, file, indent=1)
        file.write("\n")
