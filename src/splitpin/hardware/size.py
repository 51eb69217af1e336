"""The size in a designation: a thread and length, a pipe thread, a dash number, or plain millimetres."""

import re
from decimal import Decimal

from splitpin.hardware import sizes, tables, thread
from splitpin.hardware.cursor import TOKEN, Cursor
from splitpin.hardware.standard import Standard

NUMBER = r"(\d+(?:[.,]\d+)?)"
BY = r"\s*[x×*]\s*"
TWO = rf"{NUMBER}(?:{BY}{NUMBER})?"
FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
FORMS = {
    "M": re.compile(rf"M\s*{TWO}(?:{BY}{NUMBER})?", re.I),
    "ST": re.compile(rf"ST\s*{TWO}", re.I),
    "washer": re.compile(rf"M?\s*{NUMBER}", re.I),
    "pin": re.compile(TWO, re.I),
    "ring": re.compile(TWO, re.I),
    "tab": re.compile(TWO, re.I),
    "tube": re.compile(rf"{NUMBER}(?:\s*mm\b)?", re.I),
    "dash": re.compile(r"(\d{3})"),
    "G": re.compile(
        rf"G\s*(?P<size>\d+\s*/\s*\d+|\d+(?:[ .]\s*\d+\s*/\s*\d+)?)?\s*(?P<glyph>[{''.join(FRACTIONS)}])?", re.I
    ),
}
EXAMPLES = {
    "M": "M8 x 25",
    "ST": "ST4.2 x 13",
    "washer": "8",
    "pin": "3.2 x 22",
    "ring": "40 x 1.75",
    "tab": "6.3 x 0.8",
    "tube": "22",
    "dash": "210",
    "G": "G 3/4",
}

Size = tuple[str, str]  # as `size` and `second` of a designation
NO_SIZE: Size = ("", "")


def read_size(cursor: Cursor, standard: Standard) -> Size | None:
    """The size at the cursor in canonical spelling.

    With a fault: None where no size stands there, an empty size where the standard does not have the one that does.
    """
    found = cursor.match(FORMS[standard.thread])
    if found is None or found[0].strip().upper() == "G":
        _missing(cursor, standard)
        return None
    if standard.thread == "G":
        return _pipe(cursor, found)
    if standard.thread == "dash":
        return _dash(cursor, found)
    return _metric(cursor, standard, found)


def _missing(cursor: Cursor, standard: Standard) -> None:
    hint = f"write it as in `{EXAMPLES[standard.thread]}`"
    typed = TOKEN.match(cursor.text, cursor.at)
    if typed is None:
        cursor.fault(cursor.end, cursor.end, f"the size of the {standard.title} is missing", hint)
    else:
        cursor.fault(*typed.span(), f"`{typed[0]}` is not a size of {standard.name}", hint)


def plain(number: str) -> str:
    """A number without trailing noughts, with a point."""
    return format(Decimal(number.replace(",", ".")).normalize(), "f")


def _metric(cursor: Cursor, standard: Standard, found: re.Match[str]) -> Size:
    letters = standard.thread if standard.thread in ("M", "ST") else ""
    first, *rest = [plain(number) for number in found.groups() if number]
    d, known = float(first), sizes.diameters(standard)
    if d not in known:
        below = [value for value in known if value < d][-1:]
        above = [value for value in known if value > d][:1]
        close = " and ".join(f"{letters}{value:g}" for value in below + above)
        odd = letters == "M" and d not in thread.diameters()
        why = "is not a preferred size (ISO 261)" if odd else f"is not a size of {standard.name}"
        cursor.fault(found.start(), found.end(1), f"{letters}{first} {why}", f"the nearest: {close}")
        return NO_SIZE
    if standard.thread == "M":
        return _thread(cursor, standard, found, first, rest)
    second = rest[0] if rest else ""
    if second:
        _check_second(cursor, standard, found, first, second)
    return f"{letters}{first}", second


def _thread(cursor: Cursor, standard: Standard, found: re.Match[str], d: str, rest: list[str]) -> Size:
    # Two numbers are pitch and length. One is the pitch of a nut; of a screw only where it is a fine pitch of that
    # thread, for no screw from M8 up is as short as that.
    coarse, *fine = thread.pitches(float(d))
    pitch = length = ""
    if len(rest) == 2:
        pitch, length = rest
    elif rest and (standard.is_nut or float(rest[0]) in fine):
        pitch = rest[0]
    elif rest:
        length = rest[0]
    span = found.span(2)
    if pitch and float(pitch) not in (coarse, *fine):
        known = f"coarse {coarse:g}" + (f"; fine {', '.join(f'{value:g}' for value in fine)}" if fine else "")
        cursor.fault(*span, f"{pitch} mm is not a pitch of M{d}", known)
    elif pitch and float(pitch) in fine and standard.pitch == "coarse":
        hint = "leave the pitch out, or name the standard for fine threads"
        cursor.fault(*span, f"{standard.name} has the coarse pitch only", hint)
    elif standard.pitch == "fine" and (not pitch or float(pitch) == coarse):
        message = f"{standard.name} is for fine threads: the pitch is missing"
        cursor.fault(found.start(), found.end(1), message, f"write M{d} x {fine[0]:g}")
    if length and float(length) in fine:  # and it would read back as the pitch
        cursor.fault(*found.span(3), f"no screw M{d} is {length} mm long", "give the length in mm")
    if length and standard.is_nut:
        cursor.fault(*found.span(3), "a nut has no length", "leave it out")
    fine_pitch = f" x {pitch}" if pitch and float(pitch) != coarse else ""
    return f"M{d}{fine_pitch}", length


def _check_second(cursor: Cursor, standard: Standard, found: re.Match[str], first: str, second: str) -> None:
    span = found.span(2)
    if standard.thread == "pin":
        row = tables.index("split_pins", "hole_mm")[(first,)]
        low, high = row["length_from_mm"], row["length_to_mm"]
        if not float(low) <= float(second) <= float(high):
            message = f"a {first} split pin is not made {second} mm long"
            cursor.fault(*span, message, f"lengths run from {low} to {high} mm")
    elif standard.thread == "ring":
        thick = tables.index("retaining_rings", "standard", "d_mm")[standard.name, first]["thickness_mm"]
        if float(thick) != float(second):
            cursor.fault(*span, f"a {first} ring is not {second} mm thick", f"write {first} x {thick}")
    elif standard.thread == "tab":
        made = [row["thickness_mm"] for row in tables.rows("tabs") if row["width_mm"] == first]
        if second not in made:
            cursor.fault(*span, f"a {first} mm tab is not {second} mm thick", f"thickness {' or '.join(made)} mm")


def _pipe(cursor: Cursor, found: re.Match[str]) -> Size:
    whole = re.sub(r"\s*/\s*", "/", (found["size"] or "").replace(".", " "))
    size = " ".join(f"{whole} {FRACTIONS.get(found['glyph'] or '', '')}".split())
    if (size,) not in tables.index("pipe_threads", "size"):
        known = ", ".join(f"G {row['size']}" for row in tables.rows("pipe_threads"))
        cursor.fault(found.start(), cursor.at, f"G {size} is not a size of ISO 228-1", f"known: {known}")
        return NO_SIZE
    return f"G {size}", ""


def _dash(cursor: Cursor, found: re.Match[str]) -> Size:
    number = found[1]
    if (number,) in tables.index("o_rings", "dash"):
        return number, ""
    series = [row["dash"] for row in tables.rows("o_rings") if row["dash"][0] == number[0]]
    hint = f"the series runs from {series[0]} to {series[-1]}" if series else "dash numbers run from 001 to 475"
    cursor.fault(*found.span(), f"{number} is not a dash number", hint)
    return NO_SIZE
