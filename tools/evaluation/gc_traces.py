"""16. GC traces: the whole run of task 5, but read from a trace that is made of the peak table's
times and areas, beside what is said of the table itself: gc-rmbl/.

All peaks of a trace have one width, the median of the table's areas over heights (rather wide, as
some peaks of the table are several). Its points lie as far apart as the table's times show. Peaks
that lie too close leave neither a maximum nor a clear shoulder in the sum, even without noise: no
search finds them. Others leave one, but not in the noise of the trace. Both are counted apart, by
the definitions that task 15 prints.
"""
import collections
import dataclasses
import pathlib
import statistics

import gc_whole_run
import report
import scoring
import tables
import trace_generator
import trace_peaks
from program import Library
from report import Note
from trace_generator import HALF_WIDTH, TOP, Noise, Peak
from trial import Trial

SECONDS = 60  # a minute; the table's areas, and the program's, are signal times seconds
STEP = 0.005  # min; all starts and ends of the table are whole multiples
# Kind of the noise, and S/N (2 H/h of the pharmacopoeia, h being 6 deviations) of the lowest peak.
NOISES = (("white", 3), ("filtered", 3), ("filtered", 0.3))
DRIFT = 100  # deviations of the noise
MAXIMUM, SHOULDER, DROWNED, CLOSE = KINDS = "maximum", "shoulder", "drowned", "too_close"


@dataclasses.dataclass
class Run:
    """What the table of a year holds and the program says of it."""
    folder: pathlib.Path
    year: str
    library: Trial
    peaks: list
    lowest: float  # height of the lowest peak in the table
    answers: dict  # of the table: {peak: answer}, within the ladder only


def peaks_of(rows):
    over_height = statistics.median(float(r["area"]) / float(r["height"]) for r in rows) / SECONDS
    return sorted((Peak(r["peak"], float(r["rt_min"]), float(r["area"]) / SECONDS,
                        over_height * TOP * HALF_WIDTH) for r in rows), key=lambda p: p.apex)


def read(folder, year, program):
    rows = tables.rows(folder / f"{year}_peaks.csv")
    library = gc_whole_run.trial(folder, year, program)
    said = gc_whole_run.identify(folder, year, library, program)
    return Run(folder, year, library, peaks_of(rows), min(float(r["height"]) for r in rows),
               {a["feature"]: a for a in said if a["observations"]})


def kinds_of(peaks, deviation):
    """{name: one of KINDS, in this noise}."""
    without_noise = trace_peaks.separable(peaks, 0)
    kinds = {p.name: DROWNED if p.name in without_noise else CLOSE for p in peaks}
    return kinds | trace_peaks.separable(peaks, deviation)


def ask(run, noise, seeds, program):
    """The program's answers to the trace of each seed."""
    times = trace_generator.axis(run.peaks, STEP)
    with Library(program) as library:
        library.learn(run.library)
        for seed in seeds:
            signal = trace_generator.recorded(run.peaks, times, noise, DRIFT * noise.deviation,
                                              seed)
            trace = trace_generator.write(library.folder / "trace.txt", times, signal)
            yield gc_whole_run.identify_file(library, trace, run.folder, run.year)


def first(answer):
    return answer["candidates"][0]["compound"] if answer["candidates"] else None


def stands(answer):
    """Whether its first candidate is more than trivially probable."""
    return any(c["probability"] >= scoring.LEAST_STATED for c in answer["candidates"])


def winner(answer):
    """The first candidate, None where unlisted is more probable."""
    return next((c["compound"] for c in answer["candidates"]
                 if c["probability"] > answer["unlisted"]), None)


def judged(run, kinds, answers_of_traces):
    """{what: whether it is so, or by how much off, of each peak}, of all traces of one noise."""
    truths = gc_whole_run.standards(run.folder, run.year)
    seen = collections.defaultdict(list)
    for said in answers_of_traces:
        found = trace_peaks.matched(run.peaks, [a["tR"] for a in said])
        wider = trace_peaks.matched(run.peaks, [a["tR"] for a in said],
                                    2 * trace_peaks.SAME_PLACE)
        seen["false"] += [n not in set(wider.values()) for n in range(len(said))]
        for peak in run.peaks:
            seen[kinds[peak.name]].append(peak.name in found)
            answer = said[found[peak.name]] if peak.name in found else None
            if answer is not None:
                seen["time"].append(abs(answer["tR"] - peak.apex) / peak.half_width)
                seen["area"].append(abs(answer["area"] / SECONDS / peak.area - 1))
            if peak.name in run.answers:
                compare(run.answers[peak.name], answer, seen)
            if truths[peak.name]:
                seen["standard"].append(answer is not None and first(answer) in truths[peak.name])
                seen["standard_of_table"].append(
                    first(run.answers[peak.name]) in truths[peak.name])
    return seen


def compare(of_table, of_trace, seen):
    """Adds what is said of one peak of the table, and of the trace if it was found there."""
    same = of_trace is not None and first(of_trace) == first(of_table)
    seen["same_of_all"].append(same)
    if of_trace is not None:
        seen["same"].append(same)
        seen["same_winner"].append(winner(of_trace) == winner(of_table))
        if stands(of_table):
            seen["same_standing"].append(same)


def note(label, seen, traces):
    table = [was for kind in KINDS for was in seen[kind]]
    shares = {key: seen[key] for key in (*KINDS, "false", "same", "same_of_all", "same_standing",
                                         "same_winner", "standard", "standard_of_table")}
    shares |= {"found": table, "separable_found": seen[MAXIMUM] + seen[SHOULDER]}
    values = {"traces": traces} | {key: {"n": len(flags), "share": scoring.share(flags)}
                                   for key, flags in shares.items()}
    values |= {f"{key}_error_median": statistics.median(seen[key]) if seen[key] else None
               for key in ("time", "area")}
    return Note(label, lines(values), values)


def lines(values):
    share = lambda key: f"{report.per_cent(values[key]['share'])} %"
    count = lambda key: values[key]["n"] // values["traces"]  # in one trace
    of = lambda key: f"{share(key)} of {count(key)}"
    return [
        f"{values['traces']} traces, each of {count('found')} peaks of the table: {share('found')} "
        f"found,",
        f"{of('separable_found')} that can be told apart ({of(MAXIMUM)} with a maximum,",
        f"{of(SHOULDER)} clear shoulders); besides, {count(CLOSE)} too close for any search "
        f"({share(CLOSE)} found),",
        f"{count(DROWNED)} that only this noise hides ({share(DROWNED)} found); false: "
        f"{share('false')} of the found peaks",
        f"median error: time {report.number(values['time_error_median'], 3)} half widths, area "
        f"{report.per_cent(values['area_error_median'])} %",
        f"first candidate as from the table: {share('same')} of the found peaks within the ladder",
        f"({of('same_of_all')} of the table), {share('same_standing')} where the table gives it "
        f"{scoring.LEAST_STATED} or more;",
        f"most probable, be it unlisted, as from the table: {share('same_winner')} of the found",
        f"known compounds first at their peak: {of('standard')}; from the table "
        f"{of('standard_of_table')}"]


def rows(data, program, seeds):
    folder = data / "gc-rmbl"
    result = []
    for year in gc_whole_run.years(folder):
        run = read(folder, year, program)
        for kind, least in NOISES:
            noise = Noise(kind, run.lowest / 3 / least)
            said = list(ask(run, noise, seeds, program))
            seen = judged(run, kinds_of(run.peaks, noise.deviation), said)
            result.append(note(f"16 GC {year}, {kind}, S/N {least}", seen, len(said)))
    return result
