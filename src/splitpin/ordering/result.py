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
    and ends. elapsed_s: end of the last operation. hands_on_s: work and set-ups without idle time. bound_s: no order
    can take less; equal to elapsed_s when proved. explored: states expanded. causes: when impossible, a shortest
    cycle of operations, each after the one before it in the tuple, first and last the same; empty when no cycle but
    the forbidden change-overs rule out every order.
    """

    status: Status
    order: tuple[int, ...] = ()
    starts_s: tuple[int, ...] = ()
    ends_s: tuple[int, ...] = ()
    elapsed_s: int = 0
    hands_on_s: int = 0
    bound_s: int = 0
    explored: int = 0
    causes: tuple[int, ...] = ()
