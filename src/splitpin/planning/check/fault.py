"""One thing wrong with a plan."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """A rule that a plan breaks. `step` is the number on the sheet, or none where the plan as a whole is at fault."""

    step: int | None
    rule: str
    message: str
