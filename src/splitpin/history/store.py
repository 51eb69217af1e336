"""The visits that were, in one SQLite file. Several may write at once: each visit is there whole or not at all.

The file is in write-ahead mode and synchronised at every commit, so that a visit that was recorded is there after a
power cut. Its version stands in `user_version`, its kind in `application_id`.
"""

import datetime
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from splitpin.history.visit import PastVisit
from splitpin.records.actual import ActualPart, ActualReading

VERSION = 1
KIND = int.from_bytes(b"SpPn")
PATIENCE_S = 30  # how long a writer waits for another before it gives up
TRIES = 200  # to begin a new file while others begin it too

_SCHEMA = """
CREATE TABLE visit (
    id INTEGER PRIMARY KEY,
    job TEXT NOT NULL, date TEXT NOT NULL, assembly TEXT NOT NULL, plant TEXT NOT NULL,
    planned_s REAL NOT NULL, taken_s REAL NOT NULL, waiting_s REAL, notes TEXT, splitpin TEXT NOT NULL,
    UNIQUE (job, date)
);
CREATE TABLE phase (visit INTEGER NOT NULL REFERENCES visit ON DELETE CASCADE,
    phase TEXT NOT NULL, planned_s REAL NOT NULL, taken_s REAL NOT NULL);
CREATE TABLE task (visit INTEGER NOT NULL REFERENCES visit ON DELETE CASCADE,
    component TEXT NOT NULL, task TEXT NOT NULL);
CREATE TABLE symptom (visit INTEGER NOT NULL REFERENCES visit ON DELETE CASCADE, symptom TEXT NOT NULL);
CREATE TABLE found (visit INTEGER NOT NULL REFERENCES visit ON DELETE CASCADE,
    component TEXT NOT NULL, task TEXT NOT NULL);
CREATE TABLE reading (visit INTEGER NOT NULL REFERENCES visit ON DELETE CASCADE, reading TEXT NOT NULL);
CREATE TABLE part (visit INTEGER NOT NULL REFERENCES visit ON DELETE CASCADE,
    part TEXT NOT NULL, quantity INTEGER NOT NULL);
"""


class StoreError(Exception):
    """The store cannot be used; the message says why and what to do."""


class AlreadyThere(StoreError):
    """A visit of this job on this day is recorded already."""


@contextmanager
def store(path: Path, *, create: bool = False) -> Iterator["Store"]:
    """The store at `path`, closed at the end. Raises StoreError for a file that is none or cannot be opened."""
    if not create and not path.exists():
        raise StoreError(f"there is no record of visits at {path}")
    try:
        connection = sqlite3.connect(path, timeout=PATIENCE_S, isolation_level=None)
    except sqlite3.Error:
        raise StoreError(f"{path} cannot be opened") from None
    try:
        opened = Store(connection, path)
        opened.prepare()
        yield opened
    except sqlite3.OperationalError as error:
        raise StoreError(f"{path} cannot be used: {error}") from None
    except sqlite3.DatabaseError:
        raise StoreError(
            f"{path} is no record of visits, or is damaged; restore it, or export the rest from a copy"
        ) from None
    finally:
        connection.close()


class Store:
    """An open store."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._sql = connection
        self._path = path

    def prepare(self) -> None:
        """Check what kind of file this is, and lay out a new one."""
        self._sql.execute("PRAGMA foreign_keys = ON")
        self._sql.execute("PRAGMA synchronous = FULL")
        self._sql.execute(f"PRAGMA busy_timeout = {PATIENCE_S * 1000}")
        with self._whole("BEGIN"):  # kind, version and tables of one moment, whoever lays them out meanwhile
            if self._laid_out():
                return
        self._write_ahead()
        with self._whole():
            if self._laid_out():
                return
            for statement in _SCHEMA.split(";"):
                self._sql.execute(statement)
            self._sql.execute(f"PRAGMA application_id = {KIND}")
            self._sql.execute(f"PRAGMA user_version = {VERSION}")

    def _write_ahead(self) -> None:
        """Turn on write-ahead mode. For this SQLite waits for nobody, so between tries wait for others by a lock."""
        for _ in range(TRIES):
            try:
                self._sql.execute("PRAGMA journal_mode = WAL")
            except sqlite3.OperationalError:
                with self._whole("BEGIN EXCLUSIVE"):
                    pass
            else:
                return
        raise StoreError(f"{self._path} is in use by others; try again")

    def _laid_out(self) -> bool:
        """Whether this is a store; False for an empty file. StoreError for anything else."""
        kind, version = self._one("PRAGMA application_id"), self._one("PRAGMA user_version")
        if kind == KIND and version > VERSION:
            raise StoreError(
                f"{self._path} was written by a newer splitpin (version {version}; this one reads {VERSION})"
            )
        if kind == KIND and version == VERSION:
            return True
        if kind != 0 or version != 0 or self._one("SELECT count(*) FROM sqlite_master"):
            raise StoreError(f"{self._path} is a database of something else; name another file")
        return False

    @contextmanager
    def _whole(self, begin: str = "BEGIN IMMEDIATE") -> Iterator[None]:
        """One transaction: all of it or nothing."""
        self._sql.execute(begin)
        try:
            yield
        except BaseException:
            self._sql.execute("ROLLBACK")
            raise
        self._sql.execute("COMMIT")

    def _one(self, sql: str) -> int:
        return int(self._sql.execute(sql).fetchone()[0])

    def add(self, visit: PastVisit, *, replace: bool = False) -> None:
        """Record a visit, in place of that of its job and day where `replace` says so; else AlreadyThere is raised."""
        self.add_all([visit], replace=replace)

    def add_all(self, visits: list[PastVisit], *, replace: bool = False) -> None:
        """Record all of them or none."""
        with self._whole():
            for visit in visits:
                self._add(visit, replace)

    def add_missing(self, visits: Sequence[PastVisit]) -> int:
        """Record those whose job and day are not on record yet, all or none; how many they were."""
        with self._whole():
            known = set(self._sql.execute("SELECT job, date FROM visit"))
            fresh = [visit for visit in visits if (visit.job, visit.date.isoformat()) not in known]
            for visit in fresh:
                self._add(visit, replace=False)
        return len(fresh)

    def _add(self, visit: PastVisit, replace: bool) -> None:
        key = (visit.job, visit.date.isoformat())
        if replace:
            self._sql.execute("DELETE FROM visit WHERE job = ? AND date = ?", key)
        try:
            cursor = self._sql.execute(
                "INSERT INTO visit (job, date, assembly, plant, planned_s, taken_s, waiting_s, notes, splitpin)"
                " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                (
                    *key,
                    visit.assembly,
                    visit.plant,
                    visit.planned_s,
                    visit.taken_s,
                    visit.waiting_s,
                    visit.notes,
                    visit.splitpin,
                ),
            )
        except sqlite3.IntegrityError:
            raise AlreadyThere(f"job {visit.job} has a visit of {visit.date} on record already") from None
        own = cursor.lastrowid
        rows: list[tuple[str, tuple[object, ...]]] = []
        rows += [
            ("INSERT INTO phase VALUES (?, ?, ?, ?)", (own, phase, *spent)) for phase, spent in visit.phases.items()
        ]
        rows += [("INSERT INTO task VALUES (?, ?, ?)", (own, *task)) for task in visit.tasks]
        rows += [("INSERT INTO symptom VALUES (?, ?)", (own, symptom)) for symptom in visit.symptoms]
        rows += [("INSERT INTO found VALUES (?, ?, ?)", (own, *cause)) for cause in visit.found]
        rows += [("INSERT INTO reading VALUES (?, ?)", (own, row.model_dump_json())) for row in visit.readings]
        rows += [("INSERT INTO part VALUES (?, ?, ?)", (own, row.part, row.quantity)) for row in visit.parts]
        for sql, values in rows:
            self._sql.execute(sql, values)

    def visits(self) -> tuple[PastVisit, ...]:
        """All visits by day, then job."""
        with self._whole("BEGIN"):  # one state of the file, whoever else writes
            rows = self._sql.execute(
                "SELECT id, job, date, assembly, plant, planned_s, taken_s, waiting_s, notes, splitpin FROM visit"
                " ORDER BY date, job"
            ).fetchall()
            return tuple(self._visit(row) for row in rows)

    def _visit(self, row: tuple) -> PastVisit:  # type: ignore[type-arg]  # as wide as the query above
        own, job, date, assembly, plant, planned_s, taken_s, waiting_s, notes, version = row

        def inner(table: str, columns: str) -> list[tuple]:  # type: ignore[type-arg]
            return self._sql.execute(f"SELECT {columns} FROM {table} WHERE visit = ? ORDER BY rowid", (own,)).fetchall()

        return PastVisit(
            job=job,
            date=datetime.date.fromisoformat(date),
            assembly=assembly,
            plant=plant,
            planned_s=planned_s,
            taken_s=taken_s,
            waiting_s=waiting_s,
            phases={phase: (planned, taken) for phase, planned, taken in inner("phase", "phase, planned_s, taken_s")},
            tasks=tuple(inner("task", "component, task")),
            symptoms=tuple(symptom for (symptom,) in inner("symptom", "symptom")),
            found=tuple(inner("found", "component, task")),
            readings=tuple(ActualReading.model_validate_json(text) for (text,) in inner("reading", "reading")),
            parts=tuple(ActualPart(part=part, quantity=n) for part, n in inner("part", "part, quantity")),
            notes=notes,
            splitpin=version,
        )
