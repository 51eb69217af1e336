"""What its own check refuses is neither printed nor written, whichever command comes upon it."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from tests.cli.running import run
from tests.cli.test_office import ASKED
from tests.examples import example_job

import splitpin
from splitpin.planning import plan
from splitpin.planning.best.choose import Choice
from splitpin.planning.written.write import Written
from splitpin.records.plan import Step
from splitpin.supply import loading
from splitpin.supply.sharing import SharedLoad

HOME = Path("examples") / "skerrowdale"
JOB = HOME / "jobs" / "heater-fan.toml"
FIRM = HOME / "firm.toml"
ROUND = HOME / "rounds" / "thursday-van-2.toml"
ACTUAL = HOME / "records" / "heater-fan-2026-11-10.toml"

Change = Callable[[Any], Any]


def after(monkeypatch: pytest.MonkeyPatch, module: Any, name: str, change: Change) -> None:
    """Change what a function of the program gives."""
    right = getattr(module, name)
    monkeypatch.setattr(module, name, lambda *given, **named: change(right(*given, **named)))


def without_a_proof(written: Written) -> Written:
    return replace(written, proofs=written.proofs[1:])


def with_two_steps_swapped(written: Written) -> Written:
    """The first thing undone after what it holds has been taken."""
    steps = list(written.steps)
    at = next(n for n, step in enumerate(steps) if step.action == "take")
    steps[at - 1], steps[at] = _numbered(steps[at], at), _numbered(steps[at - 1], at + 1)
    return replace(written, steps=tuple(steps))


def _numbered(step: Step, n: int) -> Step:
    return replace(step, n=n)


def with_a_node_left_out(choice: Choice) -> Choice:
    opening = choice.candidate.opening
    node = min(opening.nodes)
    return replace(choice, candidate=replace(choice.candidate, opening=replace(opening, nodes=opening.nodes - {node})))


def too_dear(choice: Choice) -> Choice:
    opening = choice.candidate.opening
    return replace(choice, candidate=replace(choice.candidate, opening=replace(opening, cost=opening.cost + 1)))


def sooner_than_it_can_be(choice: Choice) -> Choice:
    return replace(choice, strip=replace(choice.strip, elapsed_s=choice.strip.elapsed_s - 1))


def backwards(choice: Choice) -> Choice:
    return replace(choice, strip=replace(choice.strip, order=choice.strip.order[::-1]))


def in_another_order(written: Written) -> Written:
    done = written.course.done
    return replace(written, course=replace(written.course, done=(done[1], done[0], *done[2:])))


def fewer_aboard(answer: SharedLoad) -> SharedLoad:
    """The figures stay what they were."""
    load = answer.load
    at = next(n for n, drawn in enumerate(load.drawn) if drawn)
    less = (load.counts[at] - 1, load.drawn[at] - 1)
    counts, drawn = ((*row[:at], n, *row[at + 1 :]) for row, n in zip((load.counts, load.drawn), less, strict=True))
    return replace(answer, load=replace(load, counts=counts, drawn=drawn))


def said_of(what: str, file: Path, faults: str) -> str:
    """The whole message as a pattern: where, what, why, what to send."""
    start = f"{file}: error[refused-by-own-check]: this {what} was refused by its own check: "
    hint = (
        f"  hint: the fault is in splitpin {splitpin.__version__}: send this message, {file}, the files that it names "
        "and that version to the project"
    )
    return f"{re.escape(start)}{faults}\n{re.escape(hint)}\n"


@pytest.fixture(autouse=True)
def at_home(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Files are named as from the top of the checkout."""
    monkeypatch.chdir(root)


def the_fan() -> tuple[int, int]:
    """The cost of the opening, and the seconds of the strip, as they are when nothing is wrong."""
    course = example_job("heater-fan").course
    assert course is not None
    return course.choice.candidate.opening.cost, course.choice.strip.elapsed_s


COST, STRIP_S = the_fan()
# What is wrong: where it is put in, how, and what is said of it, a fault each.
WRONG: dict[str, tuple[str, Change, tuple[str, ...]]] = {
    "proof dropped": (
        "write",
        without_a_proof,
        (r"step \d+: earth-continuity is not listed among the proofs \(proof-list\)",),
    ),
    "steps swapped": (
        "write",
        with_two_steps_swapped,
        (
            r".*step 14: take casing while casing-hooks is made \(still-held\)",
            r".*step 15: starts at \d+ s, before the step before it ends at \d+ s \(clock\)",
            r".*",
        ),
    ),
    "order changed": (
        "write",
        in_another_order,
        (
            r'the order of the strip: "Close the appliance gas valve\." comes before '
            r'"Write down the settings, .* supply\."',
        ),
    ),
    "node left out": (
        "choose",
        with_a_node_left_out,
        ("the opening: needed-node-missing -1, 0, 0", r"the opening: .*"),
    ),
    "dear opening": ("choose", too_dear, (rf"the opening: wrong-cost {COST + 1}, {COST}",)),
    "too quick": (
        "choose",
        sooner_than_it_can_be,
        (
            f"the order of the strip: it takes {STRIP_S} s, not {STRIP_S - 1} s as found",
            "the order of the strip: it takes less than it is proved to take",
        ),
    ),
    "backwards": (
        "choose",
        backwards,
        (
            r'the order of the strip: "Compare the new combustion fan .*" comes before "Undo 4 .*"',
            r"the order of the strip: .* comes before .*",
        ),
    ),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_a_wrong_plan_is_refused_with_its_faults_and_what_to_send(wrong: str, monkeypatch: pytest.MonkeyPatch) -> None:
    name, change, faults = WRONG[wrong]
    after(monkeypatch, plan, name, change)
    done = run("plan", JOB)
    assert (done.returncode, done.stdout) == (1, "")
    assert re.fullmatch(said_of("plan", JOB, "; ".join(faults)), done.stderr), done.stderr


COMMANDS: dict[str, tuple[object, ...]] = {
    "plan": ("plan", JOB, "--json"),
    "time": ("time", JOB),
    "sheet": ("sheet", JOB, "--out"),
    "quote": ("quote", JOB, "--out"),
    "pack": ("pack", JOB, "--out"),
    "pick": ("pick", JOB, "--csv"),
    "load": ("load", ROUND, "--out"),
    "maintainability": ("maintainability", "circulator-set"),
    "report": ("report", JOB, "--actual", ACTUAL, "--out"),
    "record": ("record", JOB, "--actual", ACTUAL, "--store"),
}


@pytest.mark.parametrize("command", COMMANDS)
def test_no_command_hands_on_what_the_referee_refuses(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    after(monkeypatch, plan, "write", without_a_proof)
    words = COMMANDS[command]
    out = tmp_path / "out.html"
    done = run(*words, *([out] if str(words[-1]).startswith("--") and words[-1] != "--json" else []))
    assert (done.returncode, done.stdout) == (1, "")
    assert "error[refused-by-own-check]: this plan was refused by its own check: " in done.stderr
    assert not list(tmp_path.iterdir())


def test_no_diagnosis_rests_on_a_refused_plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "firm.toml").write_bytes(FIRM.read_bytes())
    job = tmp_path / "job.toml"
    head = 'reference = "T-1"\ntitle = "no flow"\nassembly = "circulator-set"\nsymptoms = ["no-circulation"]\n'
    job.write_text(f"format = 1\n[job]\n{head}{ASKED}", encoding="utf-8")
    assert run("diagnose", job).returncode == 0
    after(monkeypatch, plan, "write", without_a_proof)
    done = run("diagnose", job)
    assert (done.returncode, done.stdout) == (1, "")
    assert "error[refused-by-own-check]: this plan was refused by its own check: " in done.stderr


def test_a_wrong_load_is_not_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    after(monkeypatch, loading, "shared_load", fewer_aboard)
    done = run("load", ROUND)
    assert (done.returncode, done.stdout) == (1, "")
    assert re.fullmatch(said_of("load", ROUND, r"cost: \d+, by counting \d+"), done.stderr), done.stderr
