"""The answers: an opening, how a search for the least one ended, and why there may be none."""

from dataclasses import dataclass
from typing import Literal

TARGETS = -1
"""Stands for the targets where a node number is expected."""

Status = Literal["proved", "bounded", "impossible"]


@dataclass(frozen=True, slots=True)
class Opening:
    """One set that can be opened, with the alternative chosen for every need.

    nodes: everything in the set; each is a target or asked for by a node of the set.
    choices: (node or -1 for the targets, need, alternative), one for every need of every node of the set, sorted.
    before: (earlier, later) pairs that the chosen alternatives force, sorted, without a circle.
    charges: the fixed charges the nodes bring. cost: nodes and charges, each once.
    """

    nodes: frozenset[int]
    choices: tuple[tuple[int, int, int], ...]
    before: tuple[tuple[int, int], ...]
    charges: frozenset[int]
    cost: int


@dataclass(frozen=True, slots=True)
class Cause:
    """One need that cannot be met.

    node: whose need it is; -1 for the targets. need: its number there.
    blockers: for each alternative in turn, one node of it that cannot be opened; empty when there is no alternative.
    circular: following the blockers leads back to this same need.
    """

    node: int
    need: int
    blockers: tuple[int, ...]
    circular: bool


@dataclass(frozen=True, slots=True)
class AccessResult:
    """How the search for the least opening ended.

    status: "proved" (nothing cheaper exists), "bounded" (stopped early: best so far, with a proved bound) or
        "impossible" (no set exists: see causes).
    opening: the best one found; none only when impossible. bound: no opening costs less than this.
    """

    status: Status
    opening: Opening | None
    bound: int
    causes: tuple[Cause, ...] = ()

    @property
    def gap(self) -> int:
        """How far the answer may be from the least cost; 0 when proved or impossible."""
        return 0 if self.opening is None else self.opening.cost - self.bound
