"""The firm that does the work, as `firm.toml` describes it."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from splitpin.records.base import Id, Ids, Record, Seconds, Sourced, Text, _tuple
from splitpin.records.charges import Charges
from splitpin.records.round import Supply
from splitpin.records.words import HabitId

HabitIds = Annotated[tuple[HabitId, ...], BeforeValidator(_tuple)]


class FirmHead(Record):
    """The `[firm]` table."""

    id: Id
    title: Text
    jurisdiction: Id
    phone: Text | None = None


class FirmTimes(Sourced):
    """Seconds that belong to the firm's way of working."""

    pickup_s: Seconds  # to pick up one tool that is not in the hands
    move_s: Seconds  # to change position where the assembly gives no figure
    allowance: Annotated[float, Field(ge=0, le=0.5, allow_inf_nan=False)] = 0.0  # for rest and small delays
    allowance_basis: Literal["work-time", "shift-time"] = "work-time"  # what the allowance is a share of


class FirmTools(Record):
    """The tools the firm owns; where it is absent, every tool of the catalogue is taken as owned."""

    owned: Ids


class FirmHabits(Record):
    """The habits of the trade that the firm keeps beside the usual ones, and those of them that it does not keep."""

    on: HabitIds = ()
    off: HabitIds = ()


class EmergencyNumbers(Record):
    """Whom to call in an emergency, as the firm has it from its own authorities; none is known beforehand."""

    general: Text | None = None
    gas: Text | None = None
    electricity: Text | None = None


class FirmFile(Record):
    """`firm.toml`."""

    format: Literal[1]
    firm: FirmHead
    times: FirmTimes
    tools: FirmTools | None = None
    habits: FirmHabits = FirmHabits()
    emergency_numbers: EmergencyNumbers = EmergencyNumbers()
    charges: Charges | None = None
    supply: Supply | None = None
