"""A standard designation read from left to right: the standard, the size, the marks, and a nut after `+`.

`ISO4762 M6x25-8.8` by hand: body ISO, number 4762 (a socket screw, so the size is a thread), M6, length 25, and
`8.8`, which screws of ISO 898-1 come in. Separators are blanks, commas and dashes of any length; `x`, `X`, `×` and
`*` all mean "by". Every fault is found in one pass and says where it stands.
"""

from dataclasses import replace

from splitpin.hardware.cursor import Cursor
from splitpin.hardware.designation import Designation
from splitpin.hardware.fault import Fault
from splitpin.hardware.head import read_alternative, read_edition, read_standard
from splitpin.hardware.marks import read_marks
from splitpin.hardware.size import read_size


def parse(text: str) -> Designation | tuple[Fault, ...]:
    """The designation that the text means, or everything that is wrong with it, by place.

    The nut of a screw may follow after `+`. Cost: linear in the text, beside the tables of the standards it names.
    """
    own, plus, nut = text.partition("+")
    screw, faults = _read(Cursor(own))
    if not plus:
        return tuple(faults) if faults or screw is None else screw
    mate, others = _read(Cursor(nut, base=len(own) + 1))
    faults += others
    if screw is not None and mate is not None and not faults:
        faults = _pair_faults(screw, mate, len(own), len(text))
    if faults or screw is None:
        return tuple(faults)
    return replace(screw, mate=mate)


def _read(cursor: Cursor) -> tuple[Designation | None, list[Fault]]:
    standard = read_standard(cursor)
    if standard is None:
        return None, cursor.faults
    other = read_alternative(cursor, standard)
    edition = read_edition(cursor)
    cursor.skip_gap()
    if cursor.faults and cursor.at == len(cursor.text):  # nothing left to be wrong: no size to miss
        return None, cursor.faults
    size = read_size(cursor, standard)
    if size is None:
        return None, cursor.faults
    marks = read_marks(cursor, standard, size[0])
    if not size[0]:
        return None, cursor.faults
    designation = Designation(
        standard=standard.name,
        size=size[0],
        second=size[1],
        edition=edition,
        other=other,
        property_class=marks.get("property_class", ""),
        point=marks.get("point", ""),
        recess=marks.get("recess", ""),
    )
    return designation, cursor.faults


def _pair_faults(screw: Designation, nut: Designation, plus: int, end: int) -> list[Fault]:
    behind = plus + 1, max(end - plus - 1, 1)
    if screw.means.thread != "M" or screw.means.is_nut or screw.means.classes == "set":
        message = f"{screw.standard} is not a screw that takes a nut"
        return [Fault(0, max(plus, 1), message, "leave out what follows `+`")]
    if not nut.means.is_nut:
        message = f"{nut.standard} is not a nut"
        return [Fault(*behind, message, "after `+` stands the nut, as in `+ ISO 4032 - M8 - 8`")]
    if nut.size != screw.size:
        message = f"a nut {nut.size} does not go on a screw {screw.size}"
        return [Fault(*behind, message, f"write {screw.size} for both")]
    return []
