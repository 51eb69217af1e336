"""From a symptom to its suspects, and to the sequence of checks that finds the fault soonest."""

from splitpin.faults.diagnose import diagnose
from splitpin.faults.problem import CheckProblem
from splitpin.faults.result import CheckOrder
from splitpin.faults.search import best_checks

__all__ = ["CheckOrder", "CheckProblem", "best_checks", "diagnose"]
