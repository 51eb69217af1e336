"""A van visits jobs in turn; each has one of several faults, and each fault needs pieces and tools aboard.

Which pieces are carried, so that carrying them and the return visits that follow from what is missing cost least? By
hand: one job, a fault that needs a board (chance 1/2), else nothing; a return visit costs 60, carrying the board 20.
With the board 20, without it 60/2 = 30: it is carried. At a carrying cost of 40 it is not.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One kind of piece. `aboard` pieces lie in the van already and cost and weigh nothing more; `stock` can be drawn.

    `cost` (0 or more, whole, in the unit of the penalties), `mass` and `volume` (whole, any unit) are those of one
    drawn piece. What is not `used_up` is a tool: it comes back and serves every job.
    """

    cost: int = 0
    mass: int = 0
    volume: int = 0
    aboard: int = 0
    stock: int = 0
    used_up: bool = True

    def __post_init__(self) -> None:
        if min(self.cost, self.mass, self.volume, self.aboard, self.stock) < 0:
            raise ValueError("the figures of an item are 0 or more")


@dataclass(frozen=True, slots=True)
class Fault:
    """What may be wrong: its share among the faults of its job, and the pieces of each item that cure it."""

    weight: int
    needs: tuple[tuple[int, int], ...] = ()

    def __post_init__(self) -> None:
        if self.weight < 1:
            raise ValueError("a weight is 1 or more")
        if any(pieces < 1 for _, pieces in self.needs):
            raise ValueError("a need is of 1 piece or more")
        if len({item for item, _ in self.needs}) < len(self.needs):
            raise ValueError("an item is needed twice by one fault")


@dataclass(frozen=True, slots=True)
class Job:
    """One visit: exactly one of its faults is there, the faults of different jobs independently of each other.

    `penalty` is what it costs when the visit does not finish the job.
    """

    penalty: int
    faults: tuple[Fault, ...]

    def __post_init__(self) -> None:
        if self.penalty < 0 or not self.faults:
            raise ValueError("a job has a penalty of 0 or more and at least one fault")

    @property
    def weight(self) -> int:
        """The sum of its faults' weights."""
        return sum(fault.weight for fault in self.faults)


@dataclass(frozen=True, slots=True)
class LoadProblem:
    """Jobs in visiting order; items by number; `mass` and `volume` limit what is drawn (None: no limit)."""

    items: tuple[Item, ...]
    jobs: tuple[Job, ...]
    mass: int | None = None
    volume: int | None = None

    def __post_init__(self) -> None:
        if any(limit is not None and limit < 0 for limit in (self.mass, self.volume)):
            raise ValueError("a limit is 0 or more")
        needed = {item for job in self.jobs for fault in job.faults for item, _ in fault.needs}
        if not needed <= set(range(len(self.items))):
            raise ValueError("an item that is not there")

    def drawn(self, counts: tuple[int, ...]) -> tuple[int, ...]:
        """Of `counts` pieces aboard in the end, those that have to be drawn."""
        return tuple(max(0, count - item.aboard) for count, item in zip(counts, self.items, strict=True))
