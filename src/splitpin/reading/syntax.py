"""What a text that is not TOML is told."""

import re

import tomli

from splitpin.notices import Notice, Place
from splitpin.reading.positions import Lines

_WHERE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_MANY_DIGITS = re.compile(r"[0-9_]{4301,}")
_DECIMAL_COMMA = re.compile(r"(\d+),(\d+)")

# How the standard library's reader begins its reasons, and what is said instead.
_REASONS: tuple[tuple[str, str], ...] = (
    ("Cannot declare", "this header is there twice"),
    ("Cannot redefine", "this table is given twice"),
    ("Cannot mutate", "this table is complete where it is written in braces; nothing can be added to it"),
    ("Cannot overwrite", "this key is given twice"),
    ("Duplicate inline table key", "this key is given twice"),
    ("Expected '='", "an `=` is missing after the key"),
    ("Expected ']]'", "`]]` is missing at the end of the header"),
    ("Expected ']'", "`]` is missing at the end of the header"),
    ("Expected newline", "something is left over at the end of the line"),
    ("Illegal character '\\n'", "the text in quotes does not end on its line"),
    ("Illegal character", "a control character stands here"),
    ("Found invalid character", "a control character stands here"),
    ("Invalid initial character for a key", "a key begins with a letter, a digit, `_`, `-` or a quote"),
    ("Invalid statement", "a line is a key with its value, a header or a comment"),
    ("Invalid value", "this is no value: text in quotes, a number, true or false, a date, a list or a table"),
    ("Invalid date", "there is no such date"),
    ("Unescaped '\\'", "a `\\` in double quotes begins an escape: write `\\\\`, or use single quotes"),
    ("Unclosed array", "the list is not closed: `]` is missing"),
    ("Unclosed inline table", "the table is not closed: `}` is missing"),
)


def syntax_notice(error: ValueError | RecursionError, lines: Lines) -> Notice:
    """What is wrong in plain words, at the place that the reader gives, in the file from which the line comes."""
    if isinstance(error, RecursionError):
        return Notice("toml-syntax", "brackets stand in brackets too often to be read", Place(lines.path, 1, 1))
    if not isinstance(error, tomli.TOMLDecodeError):
        return too_long(lines, "toml-syntax")
    reason = str(error)
    where = _WHERE.search(reason)
    assert where is not None, reason
    if where[1] is None:
        end = max(0, len(lines.text.rstrip("\n")) - 1)
        hint = "a quote or a bracket is not closed"
        return Notice("toml-syntax", "the file ends in the middle of a value", lines.place(end, end), hint)
    start = lines.offset(int(where[1]), int(where[2]))
    words = next((words for begins, words in _REASONS if reason.startswith(begins)), None)
    message = words or reason[: where.start()].lower()
    return Notice("toml-syntax", message, lines.place(start, start), _hint(lines.text, start))


def too_long(lines: Lines, code: str) -> Notice:
    """The one other thing at which the readers stop: a whole number of thousands of digits."""
    found = _MANY_DIGITS.search(lines.text)
    start = found.start() if found is not None else 0
    return Notice(code, "this number has too many digits", lines.place(start, start + 1))


def _hint(text: str, start: int) -> str:
    """A figure with a decimal comma is the likeliest thing left over at the end of a line."""
    line = text[text.rfind("\n", 0, start) + 1 :].partition("\n")[0]
    column = start - text.rfind("\n", 0, start) - 1
    figure = next((found for found in _DECIMAL_COMMA.finditer(line) if found.start(2) == column + 1), None)
    return f"write {figure[1]}.{figure[2]} with a point" if figure else ""
