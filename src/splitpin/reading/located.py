"""The values of one TOML text together with the places where they stand."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, partial
from typing import Any

from splitpin.notices import Place
from splitpin.reading.positions import Lines, Spot, scan

_LONGEST = 60  # characters of a value that are repeated in a message

# A way to a value: keys of tables and indices of lists.
Steps = tuple[str | int, ...]


@dataclass(frozen=True)
class Located:
    """`data` as the TOML reader gives it, and the text it comes from, which `scanned` looks through for places."""

    data: dict[str, Any]
    lines: Lines
    scanned: Callable[[str], Spot] = scan

    @cached_property
    def spots(self) -> Spot:
        """The places of all keys and values, in the shape of the data; looked for when a place is asked for."""
        return self.scanned(self.lines.text)

    @property
    def path(self) -> str:
        """The file as it is named in print."""
        return self.lines.path

    def value(self, steps: Steps) -> Any:
        """The value at the end of the steps; None where they lead nowhere."""
        here: Any = self.data
        for step in steps:
            known = step in here if isinstance(here, dict) else isinstance(here, list) and step in range(len(here))
            if not known:
                return None
            here = here[step]
        return here

    def spot(self, steps: Steps) -> Spot:
        """The spot at the end of the steps, or as far along them as there are spots."""
        here = self.spots
        for step in steps:
            inner = here.child(step)
            if inner is None:
                break
            here = inner
        return here

    def place(self, *steps: str | int) -> Place:
        """The place of a value, or of the table that it is missing from: a header, a brace."""
        spot = self.spot(steps)
        return self.lines.place(spot.start, spot.end)

    def later(self, steps: Steps) -> Place:
        """The same place, looked for when it is asked for."""
        return Place.looked_up(partial(self.place, *steps))

    def key_place(self, *steps: str | int) -> Place:
        """The place of a key."""
        spot = self.spot(steps)
        return self.lines.place(spot.key, spot.key_end)

    def typed(self, *steps: str | int) -> str:
        """The value as it was typed, on one line, cut where it is long."""
        spot = self.spot(steps)
        text = " ".join(self.lines.text[spot.start : spot.end].split())
        return text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"

    def named(self, steps: Steps) -> str:
        """A table as a person would point at it: `[[component]] pump`, `[firm]`, `min` in braces, the file."""
        if not steps:
            return "this file"
        name = ".".join(step for step in steps if isinstance(step, str))
        if self.lines.text.startswith("{", self.spot(steps).start):
            last = name.rpartition(".")[2]
            return f"an item of `{last}`" if isinstance(steps[-1], int) else f"`{last}`"
        table = self.value(steps)
        own = table.get("id") if isinstance(table, dict) else None
        header = f"[[{name}]]" if isinstance(steps[-1], int) else f"[{name}]"
        return f"{header} {own}" if isinstance(own, str) else header
