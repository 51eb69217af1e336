"""The store of visits that belongs to a job: the one that is named, or `records/visits.sqlite` beside its firm."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import typer

from splitpin.cli import exits
from splitpin.cli.saying import usage
from splitpin.history import PastVisit, Store, StoreError, store
from splitpin.reading.folders import firm_file

STORE = Path("records") / "visits.sqlite"


def store_of(job: Path, named: Path | None) -> Path:
    """Where the visits of this job's firm are kept."""
    if named is not None:
        return named
    firm = firm_file(job)
    if firm is None:
        raise usage("there is no firm.toml above this job, so name the store: --store FILE")
    return firm.parent / STORE


@contextmanager
def opened(path: Path, *, create: bool = False) -> Iterator[Store]:
    """The store, its faults said as a message and exit code 1."""
    if create:
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError:
            raise usage(f"the folder {path.parent} cannot be made for the record of visits") from None
    try:
        with store(path, create=create) as found:
            yield found
    except StoreError as fault:
        typer.echo(f"splitpin: {fault}", err=True)
        raise SystemExit(exits.ERRORS) from None


def past_visits(job: Path, named: Path | None) -> tuple[PastVisit, ...]:
    """The visits on record; none where there is no store yet and none was named."""
    path = store_of(job, named)
    if named is None and not path.exists():
        return ()
    with opened(path) as found:
        return found.visits()
