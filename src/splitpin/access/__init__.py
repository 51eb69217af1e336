"""What must be open before what, and the least set of openings for a set of targets."""

from splitpin.access.causes import why_not
from splitpin.access.check import Fault, causes_hold, check_opening
from splitpin.access.listing import openings
from splitpin.access.problem import AccessProblem, Node
from splitpin.access.reduction import always_before
from splitpin.access.result import TARGETS, AccessResult, Cause, Opening
from splitpin.access.search import least_opening

__all__ = [
    "TARGETS",
    "AccessProblem",
    "AccessResult",
    "Cause",
    "Fault",
    "Node",
    "Opening",
    "always_before",
    "causes_hold",
    "check_opening",
    "least_opening",
    "openings",
    "why_not",
]
