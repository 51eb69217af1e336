"""What lies where: pieces in the van and in the store, the way through the store, and what may be taken instead.

The way: zone, aisle, bay, level; every second aisle is walked backwards, so that one comes out where the next begins.
Our own rule, after what is common in stores.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from splitpin.records.library import Library
from splitpin.records.round import Stock
from splitpin.records.supply import PickPlace

Instead = Literal["supersedes", "alternative"]
_FIELDS = 3  # aisle, bay, level


@dataclass(frozen=True, slots=True)
class Stores:
    """Stock of the van and of the store by part, each as (location, pieces) in the order of the way."""

    van: dict[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)
    store: dict[str, tuple[tuple[str, int], ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, in_van: Iterable[Stock], in_store: Iterable[Stock]) -> "Stores":
        """From the rows of the tables."""
        return cls(_by_part(in_van), _by_part(in_store))

    def in_van(self, part: str) -> int:
        """Pieces in the van."""
        return sum(pieces for _, pieces in self.van.get(part, ()))

    def in_store(self, part: str) -> int:
        """Pieces in the store."""
        return sum(pieces for _, pieces in self.store.get(part, ()))

    def there(self, part: str) -> int:
        """Pieces in either."""
        return self.in_van(part) + self.in_store(part)

    def counted(self, part: str) -> bool:
        """Whether a table names the part, if only with none of it."""
        return part in self.van or part in self.store

    def places(self, part: str, pieces: int) -> tuple[PickPlace, ...]:
        """Where so many pieces are drawn from the store, first place on the way first."""
        return _taken(self.store.get(part, ()), pieces)

    def bins(self, part: str, pieces: int) -> tuple[PickPlace, ...]:
        """Where so many pieces lie in the van, likewise."""
        return _taken(self.van.get(part, ()), pieces)


def _taken(places: Iterable[tuple[str, int]], pieces: int) -> tuple[PickPlace, ...]:
    found = []
    for location, there in places:
        taken = min(there, pieces)
        if taken:
            found.append(PickPlace(location=location, pieces=taken))
            pieces -= taken
    return tuple(found)


def _by_part(rows: Iterable[Stock]) -> dict[str, tuple[tuple[str, int], ...]]:
    found: dict[str, list[tuple[str, int]]] = {}
    for row in rows:
        found.setdefault(row.part, []).append((row.location, row.quantity))
    return {part: tuple(sorted(places, key=lambda place: on_the_way(place[0]))) for part, places in found.items()}


def on_the_way(location: str) -> tuple[int, str, tuple[int, ...]]:
    """The turn of a location; what has none comes last. Within an aisle of even number bays count backwards."""
    if not location:
        return (1, "", ())
    zone, *numbers = re.split("-", location)
    aisle, bay, level = (*map(int, numbers), 0, 0, 0)[:_FIELDS]
    return (0, zone, (aisle, -bay if aisle % 2 == 0 else bay, level))


def instead_of(part: str, library: Library) -> tuple[tuple[str, Instead], ...]:
    """What may be taken in a part's place: what superseded it, newest first, then its alternatives and theirs."""
    line = [part]
    while (row := library.parts.get(line[-1])) is not None and row.superseded_by not in (None, *line):
        line.append(str(row.superseded_by))
    found: dict[str, Instead] = dict.fromkeys(reversed(line[1:]), "supersedes")
    for name in line:
        for other in library.parts[name].alternatives if name in library.parts else ():
            found.setdefault(other, "alternative")
    found.pop(part, None)
    return tuple(found.items())


def stand_in(part: str, stores: Stores, library: Library) -> str:
    """The part itself where any of it is there, else the first in stock of what may be taken instead."""
    if stores.there(part):
        return part
    return next((other for other, _ in instead_of(part, library) if stores.there(other)), part)
