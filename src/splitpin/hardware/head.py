"""The head of a designation: which standard, which edition, and perhaps a second standard the part may be of."""

import re

from splitpin.hardware.cursor import Cursor
from splitpin.hardware.standard import Standard, near, standards

# A part number (`-2` of EN 1254-2) is not followed by "x": in ISO 1234-3.2x22 the size begins there.
HEAD = re.compile(
    r"\s*(?:(?:BS|DIN|NF|UNI|EN)[ ]+)*?(?P<body>ISO|DIN|EN|IEC)[ ]*(?P<number>\d+)"
    r"(?:[ ]?-[ ]?(?P<part>\d+)(?![\d.,]*[ ]*[x×*]))?",
    re.I,
)
EDITION = re.compile(r"[ ]*:[ ]*(\d{4})\b")
STROKE = re.compile(r"[ ]*/[ ]*")


def read_standard(cursor: Cursor) -> Standard | None:
    """The standard at the cursor; national prefixes (`DIN EN ISO`, `BS EN`) mean the same standard."""
    start = cursor.at
    head = HEAD.match(cursor.text, start)
    if head is None:
        message = "this is not a standard designation"
        cursor.fault(start, cursor.end, message, "it begins with a standard, as in `ISO 4762 - M6 x 25 - 8.8`")
        cursor.at = len(cursor.text)
        return None
    name = f"{head['body'].upper()} {head['number']}"
    whole = f"{name}-{head['part']}" if head["part"] else name
    if whole in standards():
        cursor.at = head.end()
        return standards()[whole]
    if name in standards():
        cursor.at = head.end("number")
        return standards()[name]
    cursor.at = head.end()
    close = near(whole) or near(name)
    hint = f"did you mean {' or '.join(close)}?" if close else "see catalog/standards/standards.csv for those known"
    cursor.fault(head.start("body"), head.end(), f"{whole} is not a standard known here", hint)
    return None


def read_alternative(cursor: Cursor, first: Standard) -> str:
    """The second standard of `ISO 4017/DIN 933`; empty where none stands there."""
    if cursor.match(STROKE) is None:
        return ""
    start = cursor.at
    second = read_standard(cursor)
    if second is None:
        return ""
    if (second.drive, second.is_nut, second.thread) != (first.drive, first.is_nut, first.thread):
        message = f"{second.name} is another kind of part than {first.name}"
        cursor.fault(start, cursor.at, message, "a stroke joins two standards of one part, as in `ISO 4017/DIN 933`")
    return second.name


def read_edition(cursor: Cursor) -> str:
    """The year behind a colon; empty where none stands there."""
    found = cursor.match(EDITION)
    return found[1] if found else ""
