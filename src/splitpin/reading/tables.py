"""Which kind of thing a file describes: its top tables say so, never its name."""

from functools import cache
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from splitpin.notices import Notice, Place
from splitpin.notices.nearest import nearest
from splitpin.reading.located import Located
from splitpin.records.assembly import Assembly, BuildFile
from splitpin.records.base import Record
from splitpin.records.catalogue import CatalogueFile
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.procedure import (
    CautionsFile,
    ConditionsFile,
    EmergenciesFile,
    FactsFile,
    JobTemplate,
    LimitsFile,
    ProofsFile,
    WordingsFile,
)
from splitpin.records.round import RoundFile, VanFile

_ROWS = tuple(name for name in CatalogueFile.model_fields if name not in ("place", "format"))

# A file with one of these tables is of this kind; a file with the tables of two kinds is none.
MARKS: dict[str, type[Record]] = {
    "assembly": Assembly,
    "build": BuildFile,
    "job": JobFile,
    "firm": FirmFile,
    "van": VanFile,
    "round": RoundFile,
    "template": JobTemplate,
    "jurisdiction": LimitsFile,
    "condition": ConditionsFile,
    "proof": ProofsFile,
    "caution": CautionsFile,
    "emergency": EmergenciesFile,
    "fact": FactsFile,
    "wording": WordingsFile,
    **dict.fromkeys(_ROWS, CatalogueFile),
}

_HINT = (
    "give it one of [assembly], [job], [firm], [van], [round], [template], [jurisdiction], [[condition]], [[proof]], "
    "[[caution]], [[emergency]], [[wording]], [[fact]], or rows of the catalogue: "
    + ", ".join(f"[[{name}]]" for name in _ROWS)
)


@cache
def nested(record: type[Record]) -> dict[str, tuple[type[Record], bool]]:
    """The keys of a record that hold records: of which kind, and whether they hold them by name (a table of tables)."""
    found = {}
    for name, field in record.model_fields.items():
        inner = _record_in(field.annotation)
        if inner is not None:
            found[name] = (inner, get_origin(field.annotation) is dict)
    return found


def _record_in(annotation: Any) -> type[Record] | None:
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return annotation
    if get_origin(annotation) in (tuple, dict, Annotated, Union, UnionType):
        return next(filter(None, map(_record_in, get_args(annotation))), None)
    return None


def kind_of(toml: Located) -> type[Record] | Notice:
    """What the file describes, or the notice that nothing or too much says so.

    A visit as it was names its job and its assembly; a job and an assembly themselves are tables.
    """
    if isinstance(toml.data.get("job"), str) and isinstance(toml.data.get("assembly"), str):
        from splitpin.records.actual import Actual  # few files are visits: a plan starts sooner without

        return Actual
    found = {name: MARKS[name] for name in toml.data if name in MARKS}
    kinds = list(dict.fromkeys(found.values()))
    if len(kinds) == 1:
        return kinds[0]
    if not kinds:
        near = next((near for name in toml.data if (near := nearest(name, MARKS))), None)
        hint = f"did you mean `{near}`?" if near else _HINT
        return Notice("file-kind", "nothing in this file says what it describes", Place(toml.path, 1, 1), hint)
    first, other = (next(name for name, kind in found.items() if kind is wanted) for wanted in kinds[:2])
    return Notice(
        "file-kind",
        f"this file describes two kinds of thing: `{first}` and `{other}`",
        toml.key_place(other),
        "put them into files of their own",
    )
