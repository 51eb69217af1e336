"""Plans are marked as an engineer marks them: those named in `passes.toml` pass, and the rest is still to be mended."""

import tomllib
from dataclasses import replace

import pytest
from tests.marking.marker import HERE, Expected, Marked, expectations, missed, passes

from splitpin.planning import plan_visit
from splitpin.records.plan import Step

JOBS = expectations()
PASSING = frozenset(tomllib.loads((HERE / "passes.toml").read_text(encoding="utf-8"))["passes"])
MENDING = pytest.mark.xfail(strict=True, reason="lines are missed that its mending is to bring")


def marked(job: Marked) -> object:
    return pytest.param(job, id=job.id, marks=() if job.id in PASSING else MENDING)


@pytest.mark.parametrize("job", [marked(job) for job in JOBS])
def test_a_plan_passes(job: Marked) -> None:
    lines = missed(plan_visit(job.visit()).plan, job)
    assert passes(lines), [f"{row.mark} law {row.law}: {row.says}" for row in lines]


def test_every_assembly_has_at_least_four_jobs_and_every_name_that_passes_is_one() -> None:
    counts = [sum(job.assembly == name for job in JOBS) for name in sorted({job.assembly for job in JOBS})]
    assert len(counts) == 12 and min(counts) >= 4
    assert {job.id for job in JOBS} >= PASSING


STEPS = ("Shut the feed.", "Drain the loop.", "Fill slowly.", "Look for leaks when hot.")


def lacks(*expected: Expected) -> list[str]:
    """Which of the expectations a plan of four steps does not meet."""
    job = replace(JOBS[0], expected=expected)
    plan = plan_visit(job.visit()).plan
    first = plan.steps[0]
    steps: tuple[Step, ...] = tuple(replace(first, n=n, text=text, record=None) for n, text in enumerate(STEPS, 1))
    return [row.says for row in missed(replace(plan, steps=steps), job)]


def row(says: str, *words: str, **more: object) -> Expected:
    return Expected(mark="A", law=5, says=says, words=words, **more)  # type: ignore[arg-type]


def test_an_expectation_is_met_by_words_order_number_and_absence() -> None:
    assert lacks(
        row("there", "feed", "shut|close"),
        row("not there", "feed", "open"),
        row("before", "feed", before=("drain",)),
        row("not before", "fill", before=("drain",)),
        row("after", "fill", after=("drain",)),
        row("not after", "feed", after=("drain",)),
        row("after what is not there", "fill", after=("weld",)),
        row("once", "hot", once=True),
        row("more than once", "the", once=True),
        row("absent", "weld", absent=True),
        row("not absent", "drain", absent=True),
        row("a short word whole", "ee"),
    ) == [
        "not there",
        "not before",
        "not after",
        "after what is not there",
        "more than once",
        "not absent",
        "a short word whole",
    ]


def test_a_plan_without_steps_meets_nothing() -> None:
    job = replace(JOBS[0], expected=(row("absent", "weld", absent=True),))
    assert missed(replace(plan_visit(job.visit()).plan, steps=()), job)


def test_one_a_fails_and_two_b_pass() -> None:
    a, b, c = (replace(row("x", "x"), mark=mark) for mark in ("A", "B", "C"))
    assert passes((b, b, c)) and not passes((a,)) and not passes((b, b, b))
