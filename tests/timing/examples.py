"""The example jobs of the fictional firm, each planned once for all tests of times."""

from functools import cache
from pathlib import Path

from splitpin.planning import plan_visit
from splitpin.reading.visit import read_visit
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

JOBS = sorted((Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs").glob("*.toml"))
NAMES = tuple(job.stem for job in JOBS if "do = " in (text := job.read_text(encoding="utf-8")) or "template = " in text)


@cache
def example(name: str) -> tuple[Plan, Visit]:
    """The plan of an example job and its visit."""
    visit, _ = read_visit(next(job for job in JOBS if job.stem == name))
    assert visit is not None
    return plan_visit(visit), visit
