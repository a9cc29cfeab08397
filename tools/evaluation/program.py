"""Runs cospot: a library in a temporary folder, learned from a trial, that answers its queries."""
import csv
import dataclasses
import functools
import json
import pathlib
import subprocess
import tempfile

LISTED = 40  # candidates asked for a feature


def write_table(path, header, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(header.split(","))
        writer.writerows(rows)
    return path


@dataclasses.dataclass(frozen=True)
class Outcome:
    """Of one call of the program."""
    code: int
    output: str
    messages: str  # what it wrote to standard error

    def objects(self):
        return [json.loads(line) for line in self.output.splitlines()]


class Library:
    """An empty library, used with `with`; it and its folder go at the end."""

    def __init__(self, program):
        self.program = program

    def __enter__(self):
        self.temporary = tempfile.TemporaryDirectory(prefix="cospot-evaluate-")
        self.folder = pathlib.Path(self.temporary.name)
        self.run("init")
        return self

    def __exit__(self, *_):
        self.temporary.cleanup()

    def run(self, *arguments, codes=(0, 1)):
        """Outcome of a call. Unless `codes` says so, the program must not find fault with its
        input (code 2)."""
        command = [self.program, "--library", self.folder / "library.db", "--json", *arguments]
        done = subprocess.run([str(a) for a in command], capture_output=True, text=True)
        if done.returncode not in codes:
            raise RuntimeError(f"{' '.join(str(a) for a in command)}\n{done.stderr}")
        return Outcome(done.returncode, done.stdout, done.stderr)

    def objects(self, *arguments):
        return self.run(*arguments).objects()

    def learn(self, trial):
        (self.folder / "library.db").write_bytes(learned(self.program, *tables_of(trial)))

    def learn_tables(self, systems, values):
        """Learns systems and values without proving; rows in the order of the headers."""
        system_table = write_table(
            self.folder / "systems.csv",
            "system,technique,stationary_phase,mobile_phase,scale,programme", systems)
        value_table = write_table(
            self.folder / "values.csv", "compound,smiles,system,quantity,value,run,date", values)
        self.run("learn", "--systems", system_table, value_table)

    def identify(self, trial):
        """One answer a query, in the order of the queries."""
        table = write_table(
            self.folder / "queries.csv", "sample,feature,system,quantity,value",
            [(q.sample, q.feature, system, trial.quantity, repr(value))
             for q in trial.queries for system, value in q.values.items()])
        answers = {(a["sample"], a["feature"]): a
                   for a in self.objects("identify", table, "--top", LISTED)}
        return [answers[q.sample, q.feature] for q in trial.queries]

    def described(self, structures):
        """What `predict` says of each SMILES that the program can read; {SMILES: object}."""
        smiles = list(structures)
        header = "compound,smiles"
        table = write_table(self.folder / "all.csv", header, enumerate(smiles))
        refused = self.folder / "refused.csv"
        self.run("learn", "--dry-run", "--partial", "--refused", refused, table)
        faulty = set()
        if refused.exists():
            with open(refused, newline="", encoding="utf-8") as file:
                faulty = {int(row["compound"]) for row in csv.DictReader(file)}
        table = write_table(self.folder / "good.csv", header,
                            [(n, s) for n, s in enumerate(smiles) if n not in faulty])
        return {smiles[int(o["compound"])]: o for o in self.objects("predict", table)}


def tables_of(trial):
    """Its systems and its values, as rows for `Library.learn_tables`."""
    systems = tuple((s.name, s.technique, s.stationary_phase, s.mobile_phase, s.scale,
                     s.programme) for s in trial.systems)
    values = tuple((m.compound, trial.structures[m.compound], m.system, trial.quantity,
                    repr(m.value), m.run, m.date) for m in trial.measurements)
    return systems, values


@functools.cache
def learned(program, systems, values):
    """The proved library of these rows, as the bytes of its file. It is kept, because learning and
    proving take longest and several rows of the table ask the same library."""
    with Library(program) as library:
        library.learn_tables(systems, values)
        library.run("prove")
        return (library.folder / "library.db").read_bytes()


def answers(program, trial):
    """Learns and asks: the program's answers to the trial's queries."""
    with Library(program) as library:
        library.learn(trial)
        return library.identify(trial)
