"""An independent check of a finished plan against the definitions."""

from splitpin.planning.check.fault import Fault
from splitpin.planning.check.laws import ALL_LAWS, KEPT_LAWS, Law
from splitpin.planning.check.verdict import check_plan

__all__ = ["ALL_LAWS", "KEPT_LAWS", "Fault", "Law", "check_plan"]
