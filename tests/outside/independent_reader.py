"""Reads what cospot writes with Python's own csv and sqlite3 modules, and writes what cospot reads.

Usage: independent_reader.py COSPOT DEMO_DATA_FOLDER
"""
import csv
import io
import pathlib
import sqlite3
import subprocess
import sys
import tempfile


def main(cospot: str, data: pathlib.Path) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)

        def call(library: str, *arguments: str) -> str:
            command = [cospot, "--library", str(folder / library), *arguments]
            return subprocess.run(command, check=True, capture_output=True, text=True).stdout

        call("a.db", "init")
        call("a.db", "learn", "--systems", str(data / "systems.csv"), str(data / "library.csv"))

        # The export, read by the csv module, says what the sqlite3 module finds in the file.
        exported = list(csv.DictReader(io.StringIO(call("a.db", "export", "values"))))
        with sqlite3.connect(folder / "a.db") as database:
            stored = database.execute(
                "SELECT c.name, s.name, m.quantity, m.value, r.name, r.date, r.operator, m.source "
                "FROM measurement AS m JOIN compound AS c ON c.id = m.compound_id "
                "JOIN system AS s ON s.id = m.system_id JOIN run AS r ON r.id = m.run_id "
                "ORDER BY m.id").fetchall()
            assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        read = [(row["compound"], row["system"], row["quantity"], float(row["value"]), row["run"],
                 row["date"], row["operator"], row["source"]) for row in exported]
        assert read == stored, "the export differs from the library"

        # The library file holds what the input file said, row by row.
        with open(data / "library.csv", newline="", encoding="utf-8") as file:
            given = [(row["compound"], row["system"], row["quantity"], float(row["value"]),
                      row["run"], row["date"], row["operator"], row["source"])
                     for row in csv.DictReader(file)]
        assert sorted(given) == sorted(stored), "the library differs from its input"

        # A table that the csv module writes, semicolons and all fields quoted, is learned.
        with open(folder / "out.csv", "w", newline="", encoding="utf-8-sig") as file:
            writer = csv.DictWriter(file, exported[0].keys(), delimiter=";", quoting=csv.QUOTE_ALL,
                                    lineterminator="\r\n")
            writer.writeheader()
            writer.writerows(exported)
        (folder / "systems.csv").write_text(call("a.db", "export", "systems"), encoding="utf-8")
        call("b.db", "init")
        call("b.db", "learn", "--systems", str(folder / "systems.csv"), str(folder / "out.csv"))
        assert call("b.db", "export", "values") == call("a.db", "export", "values")
        print(f"{len(read)} values agree")


if __name__ == "__main__":
    main(sys.argv[1], pathlib.Path(sys.argv[2]))
