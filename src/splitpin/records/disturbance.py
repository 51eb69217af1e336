"""What disturbed plant must be shown to do again: proofs by disturbance, examinations, functions, stored energy."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from splitpin.records.base import Behind, Id, Ids, Record, Sourced, Text, ToolNeeds, _tuple

# Opened: a joint undone or a component lifted. Put back: the same piece. Changed: a new piece, or one adjusted.
Disturbance = Literal["opened", "put_back", "changed"]
Occasion = Literal["anything-opened", "boundary-disturbed", "part-changed", "settings-lost", "stopped"]


class Brings(Record):
    """The proofs that each kind of disturbance brings."""

    opened: Ids = ()
    put_back: Ids = ()
    changed: Ids = ()


class Examination(Sourced):
    """Proofs that follow work on this kind of plant, whatever was opened. `of` narrows the occasion to some things."""

    id: Id
    title: Text
    when: Annotated[tuple[Occasion, ...], BeforeValidator(_tuple), Field(min_length=1)]
    of: Ids = ()
    proofs: Annotated[tuple[Id, ...], BeforeValidator(_tuple), Field(min_length=1)]


class Function(Sourced):
    """A mode or a safety device by its name: what to call, what is to be seen, and what it proves.

    `resets` makes it a safety device. `behind` is what covers the place where it is called.
    """

    id: Id
    title: Text
    call: Text
    see: Text
    proof: Id
    components: Ids = ()
    circuits: Ids = ()
    resets: Literal["by-hand", "by-itself"] | None = None
    behind: Behind = ((),)

    def _has_figures(self) -> bool:
        return False


class Store(Sourced):
    """Energy or liquid held in a component: let down or held by a condition, or caught in something."""

    kind: Literal["gas-charge", "electric-charge", "spring", "water", "wheel", "weight"]
    litres: Annotated[float, Field(gt=0, le=50_000, allow_inf_nan=False)] | None = None
    condition: Id | None = None
    catch: ToolNeeds = ()

    def _has_figures(self) -> bool:
        return self.litres is not None
