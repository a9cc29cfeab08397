"""Reads the open data's CSV files."""
import csv


def files(folder, pattern):
    """Paths of the files of that pattern, at least one."""
    found = sorted(folder.glob(pattern))
    if not found:
        raise FileNotFoundError(f"{folder}: found no file {pattern}")
    return found


def rows(path, encoding="utf-8"):
    with open(path, newline="", encoding=encoding) as file:
        return list(csv.DictReader(file))


def number(text):
    """None for a missing value."""
    return float(text) if text not in ("", "NA") else None
