"""The allowance for rest and small delays: applied once, to work time, never to a wait.

On work time it is a share of the work: 2.00 min at 15 % is 2.30 min. On shift time it is a share of the shift, of which
the work is what remains: 2.00 min at 15 % is 2.353 min. Saying one and meaning the other is an error of 2 to 3 %.
"""

from typing import NamedTuple

from splitpin.records.firm import FirmTimes


class Allowance(NamedTuple):
    """A share (0 to 0.5) and what it is a share of: "work-time" or "shift-time"."""

    share: float
    basis: str

    @property
    def factor(self) -> float:
        """What normal time is multiplied by to give standard time."""
        return 1 + self.share if self.basis == "work-time" else 1 / (1 - self.share)


def allowance_of(times: FirmTimes) -> Allowance:
    """The firm's allowance; 0 where it gives none."""
    return Allowance(times.allowance, times.allowance_basis)
