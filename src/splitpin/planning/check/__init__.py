"""An independent check of a finished plan against the definitions."""

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.verdict import check_plan

__all__ = ["Fault", "check_plan"]
