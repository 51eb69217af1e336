"""Four hundred reports as callers speak, half of them harmless: one half to write the words from, one to measure by.

The list is our own (from memory, no source); nobody real is quoted. `learn` may be read while the words of
`procedures/emergencies.toml` are written; `unseen` is only counted.
"""

import csv
import hashlib
import itertools
from pathlib import Path
from typing import NamedTuple

CASES = Path(__file__).resolve().parent.parent / "cases" / "emergencies"


class Told(NamedTuple):
    """What a caller said, and the emergency that it is; the empty text where it is none."""

    emergency: str
    language: str
    style: str
    report: str


def halves() -> tuple[list[Told], list[Told]]:
    """`learn` and `unseen`: of each emergency and language every other one, in the order of their SHA-256."""
    with (CASES / "reports.csv").open(encoding="utf-8", newline="") as file:
        told = [Told(**row) for row in csv.DictReader(file)]
    told.sort(key=lambda one: (one.emergency, one.language, hashlib.sha256(one.report.encode()).hexdigest()))
    groups = itertools.groupby(told, key=lambda one: (one.emergency, one.language))
    learn, unseen = [], []
    for _, group in groups:
        for turn, one in enumerate(group):
            (unseen if turn % 2 else learn).append(one)
    return learn, unseen


def later() -> list[tuple[bool, str]]:
    """Whether it is an emergency, and the report: four lists written after the words, each read once and then used.

    At that first reading the words stopped 64 of 75, 62 of 84, 72 of 84 and 42 of 56 of the true ones, and 6 of 57,
    6 of 54, 1 of 52 and 1 of 40 of the harmless ones.
    """
    with (CASES / "later.csv").open(encoding="utf-8", newline="") as file:
        return [(row["emergency"] == "yes", row["report"]) for row in csv.DictReader(file)]
