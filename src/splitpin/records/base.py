"""What all records share: frozen, no unknown keys, a Place that takes no part in equality, a source for figures."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints, model_validator
from pydantic.json_schema import SkipJsonSchema

from splitpin.notices import NOWHERE, Place

Id = Annotated[str, StringConstraints(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=80)]
Text = Annotated[str, StringConstraints(min_length=1, max_length=20_000)]
Seconds = Annotated[int, Field(ge=0, le=86_400)]
Minutes = Annotated[float, Field(ge=0, le=1_440, allow_inf_nan=False)]
Kilograms = Annotated[float, Field(gt=0, le=5_000, allow_inf_nan=False)]
Count = Annotated[int, Field(ge=1, le=1_000)]
Basis = Literal["common practice", "from memory"]


class Record(BaseModel):
    """A table of a file. `place` is put in by the reader and is never a key of the file."""

    # Most commands use few of the records: each builds its validator when it is first needed.
    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, arbitrary_types_allowed=True, defer_build=True)

    place: SkipJsonSchema[Place] = Field(default=NOWHERE, exclude=True, repr=False)

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and _without_place(self) == _without_place(other)

    def __hash__(self) -> int:
        return hash((type(self).__name__, getattr(self, "id", None)))


class Row(BaseModel):
    """A row of what is handed on to other programs: no `place`, no unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


def _without_place(record: Any) -> dict[str, Any]:
    every = {**record.__dict__, **(record.__pydantic_extra__ or {})}
    return {name: value for name, value in every.items() if name != "place"}


class Sourced(Record):
    """A record with figures: `source` for a published one, `basis` for one that is not."""

    source: Text | None = None
    basis: Basis | None = None

    @model_validator(mode="after")
    def _figures_have_an_origin(self) -> "Sourced":
        if self.source is None and self.basis is None and self._has_figures():
            raise ValueError("no-source")
        return self

    def _has_figures(self) -> bool:
        """Whether this record holds a figure that needs an origin; most do, so the answer is yes by default."""
        return True

    @property
    def origin(self) -> str:
        """The source, or the words of the basis."""
        return self.source or self.basis or ""


def _alternatives(value: Any) -> Any:
    """`["a", "b"]` is one set; `[["a"], ["b", "c"]]` is a choice of sets."""
    if isinstance(value, list):
        if value and all(isinstance(item, list) for item in value):
            return tuple(tuple(item) for item in value)
        return (tuple(value),)
    return value


def _tuple(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


# Any one of these sets; the empty tuple () inside means: nothing.
Behind = Annotated[tuple[tuple[Id, ...], ...], BeforeValidator(_alternatives)]
Ids = Annotated[tuple[Id, ...], BeforeValidator(_tuple)]
Texts = Annotated[tuple[Text, ...], BeforeValidator(_tuple)]


def _one_or_any(value: Any) -> Any:
    """Each item is a needed thing; a list inside is a choice, best first."""
    if isinstance(value, list):
        return tuple(tuple(item) if isinstance(item, list) else (item,) for item in value)
    return value


# Every one of these is needed; each is a choice, best first.
ToolNeeds = Annotated[tuple[tuple[Id, ...], ...], BeforeValidator(_one_or_any)]


class Spread(Record):
    """A time in minutes as low / most likely / high, hands-on."""

    low: Minutes
    mode: Minutes
    high: Minutes

    @model_validator(mode="after")
    def _in_order(self) -> "Spread":
        if not self.low <= self.mode <= self.high:
            raise ValueError("spread-order")
        return self
