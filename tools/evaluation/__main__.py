"""tools/evaluate: reads the arguments, runs the tasks, prints the table."""
import argparse
import os
import pathlib
import sys
import time

import boiling_points
import flash_columns
import gc_few_features
import gc_labelled_runs
import gc_shifted_runs
import gc_traces
import gc_whole_run
import hplc_modifier
import hplc_transfer
import new_systems
import plate_photos
import report
import scaled_times
import signal_peaks
import tlc_absent_cell
import tlc_absent_compounds
import tlc_exchanged_labels
import tlc_new_eluent
import tlc_replicates
import tlc_standards_beside

TASKS = {
    1: [tlc_absent_cell, tlc_new_eluent],
    2: [tlc_replicates],
    3: [tlc_absent_compounds],
    4: [gc_labelled_runs],
    5: [gc_whole_run],
    6: [hplc_modifier, hplc_transfer],
    7: [boiling_points],
    8: [gc_shifted_runs],
    9: [gc_few_features],
    10: [scaled_times],
    11: [tlc_standards_beside],
    12: [tlc_exchanged_labels],
    13: [new_systems],
    14: [flash_columns],
    15: [signal_peaks],
    16: [gc_traces],
    17: [plate_photos],
}
GENERATED = (signal_peaks, gc_traces, plate_photos)  # their rows depend on seeds
SEEDS = (100001, 200001, 300001)  # not the default of signal_trial, which its developers look at


def read_arguments():
    parser = argparse.ArgumentParser(
        prog="tools/evaluate", description="Measures the program's answers on open data.")
    parser.add_argument("data", type=pathlib.Path, metavar="DATA_DIR")
    parser.add_argument("--task", type=int, action="append", choices=TASKS, metavar="N",
                        help=f"only task N, 1 to {max(TASKS)} (may be repeated)")
    parser.add_argument("--seed", type=int, action="append", metavar="N",
                        help="of generated traces and photos, 0 or more (may be repeated; else "
                             f"{', '.join(map(str, SEEDS))})")
    parser.add_argument("--json", type=pathlib.Path, metavar="FILE", help="write all figures there")
    parser.add_argument("--verbose", action="store_true", help="print the reliability tables too")
    return parser.parse_args()


def rows_of_part(part, arguments, program):
    if part in GENERATED:
        return part.rows(arguments.data, program, arguments.seed or SEEDS)
    return part.rows(arguments.data, program)


def main():
    arguments = read_arguments()
    program = os.environ["COSPOT"]
    rows_of = {}
    for task in sorted(set(arguments.task or TASKS)):
        start = time.monotonic()
        try:
            rows_of[task] = [row for part in TASKS[task]
                             for row in rows_of_part(part, arguments, program)]
        except (OSError, RuntimeError) as error:
            print(f"task {task}: {error}", file=sys.stderr)
            sys.exit(2)
        print(f"task {task}: {time.monotonic() - start:.0f} s", file=sys.stderr)
    report.print_table(rows_of, arguments.verbose)
    if arguments.json:
        report.write_json(arguments.json, rows_of)


if __name__ == "__main__":
    main()
