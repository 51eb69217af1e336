"""What makes the same work take longer or shorter: spreads of elements, factors of the site, what may go wrong."""

from typing import Annotated, Literal

from pydantic import Field

from splitpin.records.base import Id, Ids, Sourced, Spread, Text

# What seconds are made of: pieces off and on, seals, tools picked up, changes of position, lifting, tasks, procedures.
ElementKind = Literal["off", "on", "seal", "tool", "move", "handling", "work", "procedure"]

Factor = Annotated[float, Field(gt=0, le=10, allow_inf_nan=False)]
Chance = Annotated[float, Field(ge=0, lt=1, allow_inf_nan=False)]


class TimeSpread(Sourced):
    """The standard deviation of the logarithm of one kind of time; `pace` is the factor that a whole visit shares."""

    id: Literal["pace", "seal", "tool", "move", "handling", "procedure", "wait"]
    log_sd: Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]  # beyond it totals were not checked


class SiteFactor(Sourced):
    """What one circumstance of the site does to each kind of element, and the minutes it costs once a visit.

    With `plant`, it applies to every job on plant in that state; else to the jobs that name it.
    """

    id: Id
    title: Text
    plant: Literal["clean", "weathered", "corroded"] | None = None
    off: Factor = 1.0
    on: Factor = 1.0
    seal: Factor = 1.0
    tool: Factor = 1.0
    move: Factor = 1.0
    handling: Factor = 1.0
    work: Factor = 1.0
    procedure: Factor = 1.0
    min: Spread | None = None


class Event(Sourced):
    """Something that may go wrong: how likely in each state of the plant, what it costs in minutes and parts.

    The chance is for each piece of a joint whose hardware is of one of `kinds`, undone or remade (`at`); for each time
    one of `conditions` is made; and for each time one of `proofs` is run.
    """

    id: Id
    title: Text
    kinds: Ids = ()
    at: Literal["undo", "remake"] = "undo"
    conditions: Ids = ()
    proofs: Ids = ()
    chance_clean: Chance
    chance_weathered: Chance
    chance_corroded: Chance
    min: Spread
    parts: Ids = ()
