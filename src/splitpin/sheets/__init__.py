"""Documents: a plan on paper and a plan on the terminal."""

from splitpin.sheets.paper import Paper, step_sheet
from splitpin.sheets.terminal import plan_text

__all__ = ["Paper", "plan_text", "step_sheet"]
