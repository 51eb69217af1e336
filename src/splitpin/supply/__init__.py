"""What a visit and a round need aboard: the load that finishes most jobs for what it costs, and the pick list."""

from splitpin.supply.chances import Chances, chances_of
from splitpin.supply.problem import Fault, Item, Job, LoadProblem
from splitpin.supply.result import Load
from splitpin.supply.search import best_load
from splitpin.supply.sharing import SharedLoad, shared_load

__all__ = [
    "Chances",
    "Fault",
    "Item",
    "Job",
    "Load",
    "LoadProblem",
    "SharedLoad",
    "best_load",
    "chances_of",
    "shared_load",
]
