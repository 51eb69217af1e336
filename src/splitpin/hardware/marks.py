"""The marks after the size of a designation: property class, point, recess letter, temper, hardness."""

import re
from functools import cache

from splitpin.hardware import sizes, tables
from splitpin.hardware.cursor import Cursor
from splitpin.hardware.standard import Standard

STAINLESS = re.compile(r"A[1-5](-(50|70|80|100|025|035|040|1\dH|2\dH))?")
NON_FERROUS = re.compile(r"(CU|AL)[1-7]")  # ISO 8839
HARDNESS = re.compile(r"\d{3} HV")
NUT_CLASSES = ("04", "05", "4", "5", "6", "8", "9", "10", "12")  # ISO 898-2
SET_CLASSES = ("14H", "22H", "33H", "45H")  # ISO 898-5
TEMPERS = ("R220", "R250", "R290")  # copper tube, EN 1057
POINTS = ("C", "F", "R")  # ISO 1478
RECESSES = ("H", "Z")  # ISO 4757


@cache
def screw_classes() -> tuple[str, ...]:
    """The property classes of steel screws (ISO 898-1), each also with the 0 that marks a head of reduced strength."""
    named = tuple(dict.fromkeys(row["class"] for row in tables.rows("property_classes")))
    return named + tuple(f"0{name}" for name in named)


def is_class(mark: str, standard: Standard) -> bool:
    """Whether the mark is a property class (hardness, temper) that parts of this standard come in."""
    family = standard.classes
    if family == "screw":
        return mark in screw_classes() or bool(STAINLESS.fullmatch(mark) or NON_FERROUS.fullmatch(mark))
    if family == "nut":
        return mark in NUT_CLASSES or bool(STAINLESS.fullmatch(mark) or NON_FERROUS.fullmatch(mark))
    if family == "set":
        return mark in SET_CLASSES or bool(STAINLESS.fullmatch(mark))
    if family == "tapping":
        return mark == "St" or bool(STAINLESS.fullmatch(mark))
    if family == "washer":
        return bool(HARDNESS.fullmatch(mark) or STAINLESS.fullmatch(mark))
    return family == "tube" and mark in TEMPERS


def class_trouble(mark: str, standard: Standard) -> tuple[str, str] | None:
    """Message and hint for a mark that is a class, but of other parts; None where it is no class at all."""
    nouns = {"screw": "screws", "nut": "nuts", "set": "set screws", "tapping": "tapping screws", "washer": "washers"}
    own = nouns.get(standard.classes)
    family = next((name for name in nouns if name != standard.classes and _in_family(mark, name)), None)
    if family is None:
        return None
    if own is None:
        return f"`{mark}` is a property class of {nouns[family]}: {standard.name} has none", "leave it out"
    message = f"`{mark}` is a property class of {nouns[family]}, not {own}"
    if standard.is_nut and family == "screw":
        return message, f"the nut that goes with {mark} screws is of class {int(float(mark.lstrip('0')))}"
    if standard.classes == "screw" and family == "nut":
        fits = [name for name in screw_classes() if name.split(".")[0] == mark.lstrip("0")]
        return message, f"write {fits[0]}" if fits else f"known: {', '.join(screw_classes()[:9])}"
    return message, f"{standard.name} takes {_known(standard)}"


def _in_family(mark: str, family: str) -> bool:
    if family == "screw":
        return mark in screw_classes()
    if family == "nut":
        return mark in NUT_CLASSES
    if family == "set":
        return mark in SET_CLASSES
    return family == "washer" and bool(HARDNESS.fullmatch(mark))


def _known(standard: Standard) -> str:
    known = {
        "screw": ", ".join(screw_classes()[:9]) + " or a stainless class such as A2-70",
        "nut": ", ".join(NUT_CLASSES) + " or a stainless class such as A2-70",
        "set": ", ".join(SET_CLASSES) + " or a stainless class such as A2-21H",
        "tapping": "St or a stainless class such as A2-20H",
        "washer": "a hardness such as 200 HV, or A2, A4",
        "tube": ", ".join(TEMPERS),
    }
    return known.get(standard.classes, "no class")


def allowed(standard: Standard) -> str:
    """What may follow the size, in words."""
    parts = []
    if standard.classes:
        parts.append(_known(standard))
    if standard.thread == "ST":
        parts.append(f"a point ({', '.join(POINTS)})")
    if standard.drive == "cross":
        parts.append(f"a recess letter ({', '.join(RECESSES)})")
    return "; ".join(parts) or "nothing"


def read_marks(cursor: Cursor, standard: Standard, size: str) -> dict[str, str]:
    """The marks from the cursor to the end, in any order, by name: `property_class`, `point`, `recess`.

    A recess letter that is missing is a fault; its hint names the drivers of the size (empty: no size was read).
    """
    found: dict[str, str] = {}
    cursor.skip_gap()
    while (token := cursor.token()) is not None:
        _read_mark(cursor, standard, token, found)
        cursor.skip_gap()
    if standard.drive == "cross" and size and "recess" not in found:
        number = sizes.tool_row(standard, float(size.split(" x ")[0].lstrip("MST")))["number"]
        message = "the recess letter is missing: which cross recess is it, H or Z?"
        hint = f"add ` - H` (driver PH{number}) or ` - Z` (driver PZ{number})"
        cursor.fault(cursor.end, cursor.end, message, hint)
    return found


def _read_mark(cursor: Cursor, standard: Standard, token: re.Match[str], found: dict[str, str]) -> None:
    typed = token[0]
    upper = re.sub(r"\s*HV$", " HV", typed.upper()).replace(",", ".")
    name = "St" if upper == "ST" else upper
    slot = None
    if is_class(name, standard):
        slot = "property_class"
    elif standard.thread == "ST" and name in POINTS:
        slot = "point"
    elif standard.drive == "cross" and name in RECESSES:
        slot = "recess"
    if slot is None:
        trouble = class_trouble(name, standard)
        if trouble is None and name in RECESSES:
            trouble = f"a {standard.title} has no recess letter", "leave it out"
        if trouble is None:
            trouble = f"`{typed}` is not understood here", f"after the size may stand: {allowed(standard)}"
        cursor.fault(*token.span(), *trouble)
    elif slot in found and found[slot] != name:
        cursor.fault(*token.span(), f"`{typed}` contradicts `{found[slot]}`", "keep one of the two")
    else:
        found[slot] = name
