"""What was read of a job, kept for the next time: an unchanged job is planned without reading its files again.

A snapshot is one file for one job in the user's cache folder: a stamp, the visit as plain rows, and what its standard
designations stand for. The stamp names every file that was read or could have been, with its size and its times, and
the program itself; a snapshot counts only where nothing of that has changed. It never says anything that reading would
not say: whoever deletes it loses half a second. Damaged, foreign or unreadable snapshots count as none, and a folder
that cannot be written to keeps none.
"""

from __future__ import annotations

import os
import pickle
import sys
import time
import zlib
from contextlib import suppress
from datetime import date
from decimal import Decimal
from io import BytesIO
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

from splitpin import __version__
from splitpin.cli.cache import cache_folder
from splitpin.cli.planned import visit_of
from splitpin.hardware.fault import Fault
from splitpin.hardware.fixing import Fixing
from splitpin.hardware.given import Torque
from splitpin.hardware.resolving import remember, worked_out
from splitpin.notices import Notice, Place
from splitpin.reading.folders import CATALOG, PROCEDURES, data_folders, firm_file

if TYPE_CHECKING:
    from collections.abc import Iterator

    from splitpin.records.library import Visit

KEPT = 50  # snapshots at most; the oldest go
_SETTLED_S = 2.0  # a file changed more lately than this may change again within one tick of its file system's clock
_MARK = b"splitpin snapshot\n"

Stamp = tuple[Any, ...]
Read = tuple["Visit", tuple[Notice, ...]]


def known_visit(job: Path) -> Read:
    """The visit of a job file and what reading had to say, as `visit_of` gives them.

    From a snapshot come plain rows: the fields and properties of the records, nothing else. Errors in the files are
    said and end the command; then nothing is kept. Cost: one look at the times of some 400 files.
    """
    folder = cache_folder()
    if folder is None:
        return visit_of(job)
    file = folder / f"{zlib.crc32(os.fsencode(Path.cwd() / job)):08x}.snapshot"
    began = time.time()
    stamp = stamp_of(job)
    found = recall(file, stamp)
    if found is None:
        found = visit_of(job)
        if all(began - changed_ns / 1e9 > _SETTLED_S for *_, changed_ns in stamp[-1]):
            keep(file, stamp, found)
    return found


def stamp_of(job: Path) -> Stamp:
    """All that decides what reading gives: the program, the paths as typed, and each file's size and times."""
    firm = firm_file(job)
    own = [] if firm is None else [firm.parent / CATALOG, firm.parent / PROCEDURES]
    files = [_state(file) for file in (job, firm) if file is not None]
    for folder in (Path(__file__).parent.parent, *data_folders(), *own):
        files += _below(str(folder))
    return __version__, sys.version, str(Path.cwd()), str(job), tuple(files)


def recall(file: Path, stamp: Stamp) -> Read | None:
    """The visit in a snapshot file, where it is whole and bears this stamp."""
    try:
        mark, check, body = file.read_bytes().split(b"\n", 2)
    except (OSError, ValueError):
        return None
    if mark + b"\n" != _MARK or check != b"%08x" % zlib.crc32(body):
        return None
    stream = BytesIO(body)
    try:
        if _Rows(stream).load() != stamp:
            return None
        visit, notices, designations = _Rows(stream).load()
    except (pickle.UnpicklingError, EOFError):
        return None
    remember(designations)
    return visit, notices


def keep(file: Path, stamp: Stamp, found: Read) -> None:
    """Write a snapshot, whole or not at all, and delete the oldest beyond the number kept."""
    body = pickle.dumps(stamp) + _plain((*found, worked_out()))
    part = file.with_suffix(f".{os.getpid()}.snapshot")
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        part.write_bytes(_MARK + b"%08x\n" % zlib.crc32(body) + body)
        part.replace(file)
        by_age = sorted(file.parent.glob("*.snapshot"), key=lambda one: one.stat().st_mtime_ns, reverse=True)
        for old in by_age[KEPT:]:
            old.unlink()
    except OSError:
        with suppress(OSError):
            part.unlink()


def _plain(rows: object) -> bytes:
    from splitpin.records.base import Record
    from splitpin.records.library import Library, Visit

    class Plainly(pickle.Pickler):
        """Records become plain rows: their fields, and their properties worked out."""

        def reducer_override(self, thing: object) -> Any:
            if not isinstance(thing, Record | Library | Visit):
                return NotImplemented
            names = type(thing).model_fields if isinstance(thing, Record) else type(thing).__dataclass_fields__
            properties = (
                name
                for kind in type(thing).__mro__
                if kind.__module__.startswith("splitpin.")
                for name, value in vars(kind).items()
                if isinstance(value, property)
            )
            return SimpleNamespace, (), {name: getattr(thing, name) for name in (*names, *properties)}

    out = BytesIO()
    Plainly(out, protocol=5).dump(rows)
    return out.getvalue()


_HARMLESS = {
    (kind.__module__, kind.__qualname__): kind
    for kind in (SimpleNamespace, Place, Notice, Fault, Fixing, Torque, date, Decimal)
}


class _Rows(pickle.Unpickler):
    """Reads plain rows and nothing that could do anything."""

    def find_class(self, module: str, name: str) -> Any:
        try:
            return _HARMLESS[module, name]
        except KeyError:
            raise pickle.UnpicklingError(f"{module}.{name} does not belong into a snapshot") from None


def _below(folder: str) -> Iterator[tuple[Any, ...]]:
    """The states of all files below a folder but compiled ones, by name; none where there is no such folder."""
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError:
        return
    for entry in entries:
        if entry.is_dir():
            if entry.name != "__pycache__":
                yield from _below(entry.path)
        else:
            yield entry.path, *_times(entry.stat())


def _state(file: Path) -> tuple[Any, ...]:
    try:
        return str(file), *_times(file.stat())
    except OSError:
        return str(file), 0, 0, 0


def _times(state: os.stat_result) -> tuple[int, int, int]:
    """Size, time of the last change of the content, and of any change: that one cannot be set back."""
    return state.st_size, state.st_mtime_ns, state.st_ctime_ns
