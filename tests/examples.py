"""The example jobs of the fictional firm, each read and planned once for all tests of a process."""

import shutil
from functools import cache
from pathlib import Path

from splitpin.planning import Planned, plan_visit
from splitpin.planning.written.course import Course
from splitpin.reading.visit import read_visit
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

FIRM = Path(__file__).resolve().parents[1] / "examples" / "skerrowdale"
JOBS = tuple(sorted((FIRM / "jobs").glob("*.toml")))
NAMES = tuple(job.stem for job in JOBS if "do = " in (text := job.read_text(encoding="utf-8")) or "template = " in text)


def firm_in(folder: Path) -> Path:
    """The folder, with a copy of the firm in it: its charges, prices, stock, vans, jobs and rounds."""
    return shutil.copytree(FIRM, folder, dirs_exist_ok=True)


@cache
def job(path: Path) -> Planned:
    """A job file planned; the file must have no error that keeps it from being read."""
    visit, notices = read_visit(path)
    assert visit is not None, notices
    return plan_visit(visit)


def planned(path: Path) -> tuple[Plan, Visit]:
    """The plan of a job file and its visit."""
    found = job(path)
    return found.plan, found.visit


def example_job(name: str) -> Planned:
    """An example job planned."""
    return job(FIRM / "jobs" / f"{name}.toml")


def course(name: str) -> Course:
    """The course of an example job, which has one."""
    found = example_job(name).course
    assert found is not None, name
    return found


def example(name: str) -> tuple[Plan, Visit]:
    """The plan of an example job and its visit."""
    return planned(FIRM / "jobs" / f"{name}.toml")
