"""The rest of the catalogue: hardware kinds and rows, seals, tools, parts, media, boundaries, handling by mass."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from splitpin.records.assembly import Work
from splitpin.records.base import Id, Ids, Kilograms, Record, Seconds, Sourced, Text, ToolNeeds, _tuple
from splitpin.records.disturbance import Brings
from splitpin.records.effort import Event, SiteFactor, TimeSpread
from splitpin.records.states import State, Tightness

Litres = Annotated[float, Field(gt=0, le=50_000, allow_inf_nan=False)]
Reuse = Literal["reusable", "renew", "inspect", "n-times"]


class Kind(Sourced):
    """A kind of fixing: its words on the sheet and its turn among the joints of one lift (0 comes off first)."""

    id: Id
    undo: Text  # imperative, before "4 screws": "Undo", "Unplug"
    remake: Text
    rank: Annotated[int, Field(ge=0, le=9)]
    tightness: Tightness | None = None  # how a joint of this kind shows that it is tight


class Hardware(Sourced):
    """One named way of joining: tools, seconds a piece off and on, log-spread, re-use rule."""

    id: Id
    title: Text
    plural: Text | None = None
    kind: Id
    tools: ToolNeeds = ()
    off_s: Seconds
    on_s: Seconds
    log_spread: Annotated[float, Field(ge=0, le=2)]
    reuse: Reuse
    uses: Annotated[int, Field(ge=1)] | None = None  # with "n-times"
    part: Id | None = None  # what goes on the pick list when it is renewed
    consumables: Ids = ()


class Seal(Sourced):
    """What makes a joint tight, and whether it is renewed whenever the joint is opened."""

    id: Id
    title: Text
    policy: Literal["renew", "inspect"]
    placed: Literal["before-positioning", "at-the-joint"] = "at-the-joint"
    size: Text | None = None  # of an O-ring: dash number or designation
    part: Id | None = None  # default: the seal's own id names the part
    consumables: Ids = ()
    seconds: Seconds = 0  # to clean the faces and put it in


class Tool(Sourced):
    """A thing that comes back: what it is, where it is kept, how long it takes to pick up."""

    id: Id
    title: Text
    place_kept: Id | None = None
    pickup_s: Seconds | None = None  # default: the firm's
    max_nm: Annotated[float, Field(gt=0)] | None = None
    min_nm: Annotated[float, Field(gt=0)] | None = None

    def _has_figures(self) -> bool:
        return any(value is not None for value in (self.pickup_s, self.max_nm, self.min_nm))


class ToolFamily(Sourced):
    """One tool in many sizes: `id` and `title` hold `{size}`; the id takes the size with `-` for the point."""

    id: Text
    title: Text
    sizes: Annotated[tuple[Text, ...], BeforeValidator(_tuple), Field(min_length=1)]
    place_kept: Id | None = None

    def _has_figures(self) -> bool:
        return False

    def tools(self) -> tuple[Tool, ...]:
        """One tool for each size."""
        return tuple(
            Tool(
                id=self.id.replace("{size}", size.replace(".", "-")),
                title=self.title.replace("{size}", size),
                place_kept=self.place_kept,
                place=self.place,
            )
            for size in self.sizes
        )


class Part(Sourced):
    """A thing that stays in the plant, or is used up."""

    id: Id
    title: Text
    kind: Literal["part", "seal", "fixing", "consumable"] = "part"
    pack: Annotated[int, Field(ge=1)] | None = None  # pieces in one pack
    mass_kg: Kilograms | None = None  # of one piece
    volume_l: Litres | None = None  # of one piece, as it is packed
    superseded_by: Id | None = None  # the part that has taken its place
    alternatives: Ids = ()  # parts that do as well, best first
    fits: Text | None = None  # where it is used, for whoever picks it

    def _has_figures(self) -> bool:
        return any(value is not None for value in (self.pack, self.mass_kg, self.volume_l))


class Medium(Record):
    """What a circuit carries, or what a guard keeps away: what must hold before it is opened, what is proved after."""

    id: Id
    title: Text
    before_opening: Ids = ()
    after_remaking: Ids = ()
    cautions: Ids = ()
    licence: Id | None = None
    before_joints: Ids = ()  # made once the covers are off, before the first joint is undone
    brings: Brings = Brings()
    catch: ToolNeeds = ()  # of a liquid: what catches it, and what keeps it off what hangs below
    loaded: State | None = None  # the state that loads its joints
    tight: bool = False  # its joints must show that they are tight, each as its kind can


class Boundary(Record):
    """Something a component forms without being a pipe, disturbed whenever it is lifted."""

    id: Id
    title: Text
    before_opening: Ids = ()
    after_remaking: Ids = ()
    cautions: Ids = ()
    brings: Brings = Brings()


class Licence(Record):
    """Who may open a thing: `person` completes "only ... may"."""

    id: Id
    person: Text


class Handling(Sourced):
    """Seconds to lift off and put back a component of up to this mass, and the people it takes."""

    up_to_kg: Kilograms
    off_s: Seconds
    on_s: Seconds
    people: Annotated[int, Field(ge=1, le=4)]


class UsualWork(Work):
    """What the task `id` takes wherever the component, or the joint, has no work of its own for it."""

    id: Id


class CatalogueFile(Record):
    """Any file of `catalog/` that is not an assembly: tables of rows."""

    format: Literal[1]
    kind: Annotated[tuple[Kind, ...], BeforeValidator(_tuple)] = ()
    hardware: Annotated[tuple[Hardware, ...], BeforeValidator(_tuple)] = ()
    seal: Annotated[tuple[Seal, ...], BeforeValidator(_tuple)] = ()
    tool: Annotated[tuple[Tool, ...], BeforeValidator(_tuple)] = ()
    tool_family: Annotated[tuple[ToolFamily, ...], BeforeValidator(_tuple)] = ()
    part: Annotated[tuple[Part, ...], BeforeValidator(_tuple)] = ()
    medium: Annotated[tuple[Medium, ...], BeforeValidator(_tuple)] = ()
    boundary: Annotated[tuple[Boundary, ...], BeforeValidator(_tuple)] = ()
    licence: Annotated[tuple[Licence, ...], BeforeValidator(_tuple)] = ()
    handling: Annotated[tuple[Handling, ...], BeforeValidator(_tuple)] = ()
    time_spread: Annotated[tuple[TimeSpread, ...], BeforeValidator(_tuple)] = ()
    site_factor: Annotated[tuple[SiteFactor, ...], BeforeValidator(_tuple)] = ()
    usual_work: Annotated[tuple[UsualWork, ...], BeforeValidator(_tuple)] = ()
    event: Annotated[tuple[Event, ...], BeforeValidator(_tuple)] = ()
