"""The answer: an order with its times, and how the search ended."""

from dataclasses import dataclass
from enum import StrEnum


class Status(StrEnum):
    """How the search ended: with a proof, with a bound, or with a proof that no order exists."""

    PROVED = "proved"
    BOUNDED = "bounded"
    IMPOSSIBLE = "impossible"


@dataclass(frozen=True, slots=True)
class OrderResult:
    """An order and what is known about it.

    order: operation indices, first to last. starts_s, ends_s: when the work of order[k] begins (its set-up is over)
    and ends. elapsed_s: end of the last operation. hands_on_s: work and set-ups without idle time. changes: how often
    the tools in the hands, and how often the position, are others than before, both together. bound_s: no order can
    take less; equal to elapsed_s when proved. hands_on_bound_s: no order that ends as soon has fewer hands-on seconds;
    changes_bound: none that ends as soon with as few hands-on seconds has fewer changes. explored: states expanded.
    causes: when impossible, a shortest cycle of operations, each after the one before it in the tuple, first and last
    the same; empty when no cycle but the forbidden change-overs rule out every order.
    """

    status: Status
    order: tuple[int, ...] = ()
    starts_s: tuple[int, ...] = ()
    ends_s: tuple[int, ...] = ()
    elapsed_s: int = 0
    hands_on_s: int = 0
    changes: int = 0
    bound_s: int = 0
    hands_on_bound_s: int = 0
    changes_bound: int = 0
    explored: int = 0
    causes: tuple[int, ...] = ()

    @property
    def hands_on_proved(self) -> bool:
        """Whether the elapsed time is proved least, and of all orders that take it none has fewer hands-on seconds."""
        return self.status is Status.PROVED and self.hands_on_s <= self.hands_on_bound_s

    @property
    def changes_proved(self) -> bool:
        """Whether all three are proved: elapsed, hands-on seconds, and of all orders with both the fewest changes."""
        return self.hands_on_proved and self.changes <= self.changes_bound
