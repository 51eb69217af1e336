"""The text of a file, or the notice that says why there is none."""

from dataclasses import dataclass
from pathlib import Path

from splitpin.notices import Notice, Place


@dataclass(frozen=True, slots=True)
class Source:
    """A file's text as the TOML reader wants it: `\\n` line ends, no byte-order mark. `path` is the one to print."""

    path: str
    text: str


def read_source(file: Path, path: str) -> Source | Notice:
    """The text of `file`, which is called `path` in print."""
    try:
        content = file.read_bytes()
    except FileNotFoundError:
        return Notice("file-missing", "there is no such file", Place(path))
    except IsADirectoryError:
        return Notice("file-unreadable", "this is a folder, not a file", Place(path))
    except OSError as error:
        reason = (error.strerror or "no reason given").lower()
        return Notice("file-unreadable", f"the file cannot be read: {reason}", Place(path))
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return _not_utf8(content, error.start, path)
    return Source(path, text.replace("\r\n", "\n"))


def _not_utf8(content: bytes, offset: int, path: str) -> Notice:
    """`offset` counts from after a byte-order mark where `content` has one."""
    content = content.removeprefix(b"\xef\xbb\xbf")
    before = content[:offset]
    line_start = before.rfind(b"\n") + 1
    place = Place(path, before.count(b"\n") + 1, len(before[line_start:].decode("utf-8")) + 1)
    return Notice(
        "file-not-utf8",
        f"byte 0x{content[offset]:02X} is not UTF-8 text",
        place,
        "save the file as UTF-8",
    )
