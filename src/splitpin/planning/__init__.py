"""From a job and the catalogue to a plan."""

from splitpin.planning.asked.emergency import stops_for_emergency
from splitpin.planning.plan import plan_visit
from splitpin.planning.planned import Planned

__all__ = ["Planned", "plan_visit", "stops_for_emergency"]
