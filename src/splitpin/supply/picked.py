"""The pick list as a table for other programs: CSV of RFC 4180, safe to open in a spreadsheet.

A spreadsheet works out a cell that begins with =, +, -, @, a tab or a carriage return. A single quote before it makes
it text again. Only cells of text are treated so; a number stays a number, below nought too. By hand: `+44 1632` becomes
`'+44 1632`, the number -3 stays -3.

Source: OWASP ASVS 1.2.10 and CWE-1236, for the signs; RFC 4180, sections 2.6 and 2.7, for the quotes.
"""

import csv
import io
from collections.abc import Iterable

from splitpin.records.supply import PickLine, PickList

HEAD = (
    "location", "part", "title", "kind", "wanted", "from_van", "bins", "draw", "order", "pack", "packs_to_order",
    "supplier_ref", "gtin", "certain", "instead", "jobs", "reasons",
)  # fmt: skip
_SIGNS = ("=", "+", "-", "@", "\t", "\r")


def safe(text: str) -> str:
    """The text of a cell as no spreadsheet works it out."""
    return f"'{text}" if text.startswith(_SIGNS) else text


def picked_csv(picks: PickList) -> str:
    """One line for each part and place it is drawn from, in picking order, under a line of names; lines end in CRLF."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(HEAD)
    for line in picks.lines:
        for row in _rows(line):
            writer.writerow([safe(cell) if isinstance(cell, str) else cell for cell in row])
    return out.getvalue()


def _rows(line: PickLine) -> Iterable[list[str | int]]:
    """What is not drawn stands in the part's first line."""
    for n, (location, drawn) in enumerate([(one.location, one.pieces) for one in line.draw] or [("", 0)]):
        first = n == 0
        yield [
            location,
            line.part,
            line.title,
            line.kind,
            line.wanted if first else 0,
            line.from_van if first else 0,
            " ".join(one.location for one in line.bins) if first else "",
            drawn,
            line.order if first else 0,
            line.pack or "",
            line.packs if first else 0,
            line.supplier_ref or "",
            line.gtin or "",
            "yes" if line.certain else "if needed",
            " ".join(other.part for other in line.instead),
            "; ".join(f"{reason.pieces} {reason.job}" for reason in line.reasons),
            " | ".join(dict.fromkeys(rule for reason in line.reasons for rule in reason.because)),
        ]
