"""The smaller rows of a plan: points set, what a step has done, what brought a proof, functions, stop lines."""

from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal, NamedTuple

Act = Literal[
    "tell", "note", "as-found", "compare", "mark", "match", "lay", "catch", "turn-by-hand", "look-inside", "pull",
    "function",
]  # fmt: skip


class AtLeast(NamedTuple):
    """The least that a whole number may be, for the schema. Only who asks for the schema loads pydantic."""

    least: int

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> dict[str, Any]:
        return {**handler(source), "ge": self.least}


class PlanRow:
    __pydantic_config__: ClassVar = {"extra": "forbid"}

    def __repr__(self) -> str:
        """One for all rows: written for each, it would take a tenth of the time that a plan takes to start."""
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in vars(self).items())})"


@dataclass(frozen=True, kw_only=True, repr=False)
class StepPoint(PlanRow):
    """A point of the plant that the line sets, and what to; its title stands in the line's text."""

    id: str
    title: str
    to: str


@dataclass(frozen=True, kw_only=True, repr=False)
class StepAct(PlanRow):
    """What a line has done beside its action. Its words stand in the line's text or blank, else it counts for nothing.

    tell: who is told, and what service goes or comes back. note: a component, the settings in it by name. as-found: a
    reading, its title. compare: a component, what must match. mark, match: a component, its orientation. lay, catch: a
    tool, its title. turn-by-hand: a component, its title and "by hand". look-inside: a cover, its title and "inside".
    pull: a joint, "pull", `count` cores. function: a function, what to call; what is to be seen.
    """

    act: Act
    thing: str
    count: Annotated[int, AtLeast(1)] = 1


@dataclass(frozen=True, kw_only=True, repr=False)
class Brought(PlanRow):
    """What brought a proof: the thing, how it was disturbed, and the rule or table that asks for the proof."""

    thing: str
    disturbance: Literal["opened", "put_back", "changed"] | None = None
    rule: str


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanWay(PlanRow):
    """The way a proof is done where there are several: who decided, by whose consent, who is there, what is watched."""

    id: str
    title: str
    decided_by: str
    consent: str
    people: Annotated[int, AtLeast(1)] = 1
    watch: str | None = None
    instead: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class PlanFunction(PlanRow):
    """A mode or a safety device that the work touched: what to call, what is to be seen, in which proof."""

    id: str
    title: str
    call: str
    see: str
    proof: str
    because: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True, repr=False)
class StopLine(PlanRow):
    """What lies beside the work and stays shut."""

    component: str
    text: str
