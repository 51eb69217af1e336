"""Four hundred reports as callers speak, half of them harmless: one half to write the words from, one to measure by.

The list is our own (from memory, no source); nobody real is quoted. `learn` may be read while the words of
`procedures/emergencies.toml` are written; `unseen` is only counted.
"""

import csv
import hashlib
import itertools
from pathlib import Path
from typing import NamedTuple

REPORTS = Path(__file__).resolve().parent.parent / "cases" / "emergencies" / "reports.csv"


class Told(NamedTuple):
    """What a caller said, and the emergency that it is; the empty text where it is none."""

    emergency: str
    language: str
    style: str
    report: str


def halves() -> tuple[list[Told], list[Told]]:
    """`learn` and `unseen`: of each emergency and language every other one, in the order of their SHA-256."""
    with REPORTS.open(encoding="utf-8", newline="") as file:
        told = [Told(**row) for row in csv.DictReader(file)]
    told.sort(key=lambda one: (one.emergency, one.language, hashlib.sha256(one.report.encode()).hexdigest()))
    groups = itertools.groupby(told, key=lambda one: (one.emergency, one.language))
    learn, unseen = [], []
    for _, group in groups:
        for turn, one in enumerate(group):
            (unseen if turn % 2 else learn).append(one)
    return learn, unseen
