"""The best order of operations for one worker under precedence, set-ups and waits. Knows no screws, only numbers."""

from splitpin.ordering.best import best_order, lower_bound
from splitpin.ordering.check import Verification, check_order
from splitpin.ordering.problem import Operation, OrderingProblem, PairwiseProblem
from splitpin.ordering.result import OrderResult, Status

__all__ = [
    "Operation",
    "OrderResult",
    "OrderingProblem",
    "PairwiseProblem",
    "Status",
    "Verification",
    "best_order",
    "check_order",
    "lower_bound",
]
