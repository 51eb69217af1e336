"""What the number of a standard stands for: the part, how its size is written, where its tool is looked up."""

from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache

from splitpin.hardware import tables

WORDS = (
    *("title", "plural", "thread", "drive", "series", "kind", "pace", "classes", "pitch", "reuse"),
    *("replaced_by", "edition", "edition_source", "mark", "source"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standard:
    """One row of `standards.csv`. Diameters in mm; `torque_share` is None where no torque may follow."""

    name: str
    title: str
    plural: str
    thread: str  # M, ST, washer, pin, ring, G, tube, tab, dash: how the size is written
    drive: str
    series: str
    kind: str
    pace: str
    classes: str
    from_mm: float
    to_mm: float
    pitch: str
    reuse: str
    torque_share: float | None
    replaced_by: str
    edition: str
    edition_source: str
    mark: str
    source: str

    @property
    def is_nut(self) -> bool:
        """Whether the part is a nut."""
        return self.classes == "nut"


@cache
def standards() -> dict[str, Standard]:
    """Every standard by its name, and by the shorter name that people write (`ISO 228` for `ISO 228-1`)."""
    found = {}
    for row in tables.rows("standards"):
        share = row["torque_share"]
        standard = Standard(
            name=row["standard"],
            from_mm=float(row["from_mm"] or 0),
            to_mm=float(row["to_mm"] or "inf"),
            torque_share=float(share) if share else None,
            **{key: row[key] for key in WORDS},
        )
        found[standard.name] = standard
        if row["also"]:
            found[row["also"]] = standard
    return found


def near(name: str) -> tuple[str, ...]:
    """Up to three standards whose names look like this one, most alike first."""
    return tuple(get_close_matches(name, sorted(standards()), n=3, cutoff=0.75))
