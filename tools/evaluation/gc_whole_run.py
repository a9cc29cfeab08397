"""5. GC: all peaks of a run with its ladder: are the known standards found, and is the background
left unlisted? gc-rmbl/."""
import collections

import comparison
import report
import scoring
import structures
import tables
from forecast import UNLISTED
from program import LISTED, Library, write_table
from report import Note
from trial import Measurement, Query, System, Trial

SYSTEM = System("td-gc", "gc", "5 % phenyl (assumed)", "helium (assumed)", "n-alkane",
                "temperature programme (not stated)")
# From memory, by common name; other names get placeholders.
STRUCTURES = {
    "(E)-hex-3-en-1-ol": "CC/C=C/CCO",
    "a-pinene": "CC1=CCC2CC1C2(C)C",
    "benzaldehyde": "O=Cc1ccccc1",
    "linalool": "CC(C)=CCCC(C)(O)C=C",
    "methyl 2-hydroxybenzoate": "COC(=O)c1ccccc1O",
    "indole": "c1ccc2[nH]ccc2c1",
    "b-caryophyllene": "CC1=CCCC(=C)C2CC(C)(C)C2CC1",
    "a-farnesene": "CC(C)=CCCC(C)=CCC=C(C)C=C",
    "a-farnesol": "CC(C)=CCCC(C)=CCCC(C)=CCO",
}


def trial(folder, year, program):
    """What the library knows from other years."""
    rows = [row for row in tables.rows(folder / "standards_identified.csv")
            if not row["rundate"].startswith(year) and tables.number(row["ri_nearest_ladder"])]
    learned = [Measurement(row["compound"], SYSTEM.name, float(row["ri_nearest_ladder"]),
                           row["filename"], row["rundate"]) for row in rows]
    smiles_of = structures.named(
        program, {m.compound: STRUCTURES.get(m.compound, "") for m in learned})
    return Trial("RI", [SYSTEM], smiles_of, learned, [])


def identify(folder, year, asked, program):
    """The program's answers to all peaks; rewritten with its own names of columns."""
    peaks = tables.rows(folder / f"{year}_peaks.csv")
    with Library(program) as library:
        library.learn(asked)
        peak_table = write_table(
            library.folder / "peaks.csv", "peak,tR,area,start,end,height",
            [[p[c] for c in ("peak", "rt_min", "area", "rt_start", "rt_end", "height")]
             for p in peaks])
        return identify_file(library, peak_table, folder, year)


def identify_file(library, chromatogram, folder, year):
    """The library's answers to a table of peaks or a trace, with the ladder of that year."""
    ladder = tables.rows(folder / f"{year}_ladder.csv")
    ladder_table = write_table(library.folder / "ladder.csv", "carbon,tR",
                               [[r["carbon"], r["rt_min"]] for r in ladder
                                if tables.number(r["rt_min"]) is not None])
    return library.objects("identify", chromatogram, "--system", SYSTEM.name, "--ladder",
                           ladder_table, "--ladder-gaps", "--top", LISTED)


def standards(folder, year):
    """{peak: names of the compounds that it is known to be}."""
    names = collections.defaultdict(set)
    for row in tables.rows(folder / f"{year}_truth.csv"):
        names[row["peak"]].add(row["compound"])
    return names


def years(folder):
    return [path.name[:4] for path in tables.files(folder, "[0-9][0-9][0-9][0-9]_peaks.csv")]


def rows(data, program):
    folder = data / "gc-rmbl"
    return [row for year in years(folder) for row in run_rows(folder, year, program)]


def run_rows(folder, year, program):
    asked = trial(folder, year, program)
    said = [a for a in identify(folder, year, asked, program) if a["observations"]]
    names = standards(folder, year)
    held = set(asked.compounds())
    asked.queries = [Query(a["sample"], a["feature"],
                           {o["system"]: o["value"] for o in a["observations"]},
                           frozenset(names[a["feature"]] & held)) for a in said]
    row = comparison.compare(f"5 GC whole run {year}", [asked], [said])
    return [row, note(asked.queries, said)]


def note(queries, said):
    known = [(q, a) for q, a in zip(queries, said) if q.truths]
    first = [a["candidates"][0] for _, a in known if a["candidates"]]
    right = [c["probability"] for (q, _), c in zip(known, first) if c["compound"] in q.truths]
    left = scoring.share(a[UNLISTED] > 0.5 for q, a in zip(queries, said) if not q.truths)
    values = {"standards": len(known), "found": len(right), "probabilities": right,
              "others": len(said) - len(known), "others_left_unlisted": left}
    least, most = (report.number(end(right, default=None), 2) for end in (min, max))
    return Note("  standards", [
        f"{len(right)} of {len(known)} are the first candidate at their peak, with probability "
        f"{least} to {most}",
        f"{report.per_cent(left)} % of {values['others']} other peaks have p(unlisted) > 0.5"],
        values)
