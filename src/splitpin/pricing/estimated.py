"""What a quote asks of an estimate."""

from typing import Protocol

from splitpin.timing import PossibleEvent, Spread


class Estimated(Protocol):
    """The times of one visit, in seconds; `timing.Estimate` is one."""

    @property
    def hands_on(self) -> Spread:
        """Without the waits in which hands are idle."""
        ...

    @property
    def elapsed(self) -> Spread:
        """On site, waits included."""
        ...

    @property
    def events(self) -> tuple[PossibleEvent, ...]:
        """What may go wrong; its time is in the spreads."""
        ...

    @property
    def visits(self) -> int:
        """How many recorded visits stand behind it."""
        ...
