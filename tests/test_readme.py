"""The README's command lines and its example file work as printed."""

import re
import subprocess
import sys
import tomllib
from pathlib import Path

from splitpin.records.job import JobFile

BIN = Path(sys.executable).parent


def blocks(root: Path, language: str) -> list[str]:
    text = (root / "README.md").read_text(encoding="utf-8")
    return re.findall(rf"^```{language}\n(.*?)^```$", text, flags=re.MULTILINE | re.DOTALL)


def test_the_first_command_makes_the_step_sheet(root: Path, tmp_path: Path) -> None:
    first, _ = blocks(root, "")
    set_up, _, command = first.strip().rpartition(" && ")
    assert set_up == "python3 -m venv .venv && .venv/bin/pip install -q -e ."
    words = command.split()
    assert words[0] == ".venv/bin/splitpin" and words[-2:] == ["--out", "step-sheet.html"]
    out = tmp_path / "step-sheet.html"
    subprocess.run([BIN / "splitpin", *words[1:-1], out], cwd=root, check=True, capture_output=True)
    assert out.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_the_second_command_is_what_ci_runs(root: Path) -> None:
    _, second = blocks(root, "")
    assert second.strip() == 'python3 -m venv .venv && .venv/bin/pip install -q -e ".[test]" && .venv/bin/pytest'
    assert second.strip() in (root / ".ci" / "run").read_text(encoding="utf-8").splitlines()


def test_the_readme_job_is_a_job(root: Path) -> None:
    (example,) = blocks(root, "toml")
    job = JobFile.model_validate(tomllib.loads(example))
    assert job.job.rule_out == ("service-valves",)


def test_every_command_is_in_the_readme(root: Path) -> None:
    shown = set(re.findall(r"`splitpin ([a-z]+)", (root / "README.md").read_text(encoding="utf-8")))
    printed = subprocess.run([BIN / "splitpin", "--help"], capture_output=True, text=True, check=True).stdout
    commands = set(re.findall(r"^  ([a-z]+) ", printed.partition("Commands:")[2], flags=re.MULTILINE))
    assert commands and commands == shown
