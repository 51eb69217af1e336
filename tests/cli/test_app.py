"""The command line collects its commands; each is one module, and stays on disk while another one runs."""

import inspect
import re
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
import typer
from tests.cli.running import run
from typer.models import ParameterInfo

from splitpin.cli import app

CLI = Path(app.__file__).parent
SHARED = {  # what several commands need; none of them is a command
    "__init__",
    "actual",
    "app",
    "arguments",
    "budget",
    "document",
    "exits",
    "known",
    "office",
    "picked",
    "planned",
    "quoted",
    "saying",
}
PLAN = {"app", "arguments", "budget", "exits", "plan", "planned", "saying"}
LOADED = """
import sys
from typer.testing import CliRunner
from splitpin.cli.app import app
done = CliRunner().invoke(app, sys.argv[1:])
print(done.exit_code, *(name for name in sys.modules if name.startswith("splitpin.")))
"""


def commands_of(name: str) -> list[str]:
    """The functions of a module whose arguments the command line fills."""
    module = import_module(f"splitpin.cli.{name}")
    own = [
        value for value in vars(module).values() if inspect.isfunction(value) and value.__module__ == module.__name__
    ]
    return [function.__name__ for function in own if any(map(filled, inspect.signature(function).parameters.values()))]


def filled(parameter: inspect.Parameter) -> bool:
    return any(isinstance(mark, ParameterInfo) for mark in getattr(parameter.annotation, "__metadata__", ()))


def test_every_module_is_a_command_or_is_shared() -> None:
    assert {file.stem for file in CLI.glob("*.py")} == {*app.COMMANDS, *SHARED}


@pytest.mark.parametrize("name", sorted({*app.COMMANDS, *SHARED} - {"__init__"}))
def test_a_module_registers_its_command_and_no_other(name: str) -> None:
    assert commands_of(name) == (["run"] if name in app.COMMANDS else [])


@pytest.mark.parametrize("name", app.COMMANDS)
def test_a_command_imports_no_other_command(name: str) -> None:
    text = (CLI / f"{name}.py").read_text(encoding="utf-8")
    assert set(re.findall(r"from splitpin\.cli\.(\w+) import", text)) <= SHARED
    assert set(re.findall(r"from splitpin\.cli import (.*)", text)) <= {"exits"}


@pytest.mark.parametrize("name", app.COMMANDS)
def test_the_help_of_a_command_is_found_without_the_other_commands(name: str) -> None:
    command = typer.main.get_command(app.app)
    with typer.Context(command) as context:
        command.get_command(context, name)  # type: ignore[attr-defined]
    assert list(command.commands) == [name]  # type: ignore[attr-defined]


def test_a_plan_imports_no_other_command_and_no_page(root: Path) -> None:
    job = root / "examples" / "skerrowdale" / "jobs" / "heater-fan.toml"
    done = subprocess.run(
        [sys.executable, "-c", LOADED, "plan", job, "--json"], capture_output=True, text=True, check=True
    )
    code, *loaded = done.stdout.split()
    assert code == "0"
    commands = {name for name in loaded if name.startswith("splitpin.cli.")}
    assert commands == {f"splitpin.cli.{name}" for name in PLAN}
    assert not {name.split(".")[1] for name in loaded} & {"timing", "faults", "supply", "pricing", "sheets", "history"}


def test_the_help_lists_the_commands_in_their_order() -> None:
    said = run("--help").stdout.partition("Commands:")[2]
    assert re.findall(r"^  ([a-z]+) ", said, flags=re.MULTILINE) == list(app.COMMANDS)


def test_a_mistyped_command_is_told_with_the_nearest() -> None:
    done = run("pln")
    assert done.returncode == 2
    assert "No such command 'pln'. Did you mean 'plan'?" in done.stderr


@pytest.mark.parametrize("day", ["2027-02-30", "2.3.2027", "20270302"])
def test_a_day_that_is_none_is_told(day: str) -> None:
    done = run("quote", "job.toml", "--date", day)
    assert done.returncode == 2
    assert f"{day} is no day; write it like 2027-03-31" in done.stderr
