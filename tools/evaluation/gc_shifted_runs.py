"""8. GC: the runs of task 4, each moved as a whole by so many index units, as a leak or another
column of the same name does. Every second run is asked, for the time it takes."""
import zlib

import gc_labelled_runs
import moved_runs

SHIFTS = (0, 2, 5, 10, 15)  # index units


def direction(run):
    """1 or -1, by a hash of the run's name."""
    return 1 if zlib.crc32(run.encode()) % 2 else -1


def by(shift):
    return lambda run, index: index + direction(run) * shift


def rows(data, program):
    trials, labels, _ = gc_labelled_runs.read_trials(data, program)
    trials = [moved_runs.every_second_run(t) for t in trials]
    features = gc_labelled_runs.labelled_peaks(labels)
    return [row for shift in SHIFTS
            for row in moved_runs.ask(f"8 GC runs moved by {shift}", program, trials, by(shift),
                                      features)]
