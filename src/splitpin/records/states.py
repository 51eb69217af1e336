"""The states that plant can be in for a step, and what shows that a joint is tight."""

from typing import Annotated, Literal

from pydantic import BeforeValidator

from splitpin.records.base import _tuple

# Locked off; supply on; cold; full and under pressure; its pump alone; in normal use; at its highest temperature.
State = Literal["dead", "powered", "cold", "pressurised", "pump-alone", "running", "at-heat"]
States = Annotated[tuple[State, ...], BeforeValidator(_tuple)]

# A torque (a figure with its source, or a blank for the maker's), or a pull at each core.
Tightness = Literal["torque", "pull", "none"]
