"""Every command gives the same answer to "is this sound": that of `check`."""

import re
from pathlib import Path

import pytest
from tests.cli.running import run

ASSEMBLY = """format = 1

[assembly]
id = "own-unit"
title = "own unit"
positions = ["front"]

[[component]]
id = "lid"
title = "lid"
role = "cover"
position = "front"
[component.work.inspect]
needs = "out"
min = { low = 1, mode = 2, high = 3 }
basis = "common practice"

[[joint]]
id = "lid-screws"
between = ["lid", "frame"]
hardware = "ISO 4762 - M9 x 25"
position = "front"
"""
JOB = """format = 1

[job]
reference = "T"
title = "own"
assembly = "{}"

{}
"""


def codes(text: str) -> list[str]:
    return re.findall(r"error\[([a-z-]+)\]", text)


@pytest.fixture
def own(firm: Path) -> Path:
    """The firm with an assembly of its own, whose screws no standard has, and a job on it."""
    assemblies = firm / "catalog" / "assemblies"
    assemblies.mkdir(parents=True)
    (assemblies / "own-unit.toml").write_text(ASSEMBLY, encoding="utf-8")
    job = JOB.format("own-unit", '[[task]]\ndo = "inspect"\ncomponent = "lid"')
    (firm / "jobs" / "own.toml").write_text(job, encoding="utf-8")
    return firm


def test_a_designation_that_no_standard_has_is_told_by_check_and_plan(own: Path) -> None:
    for words in (["check", own], ["plan", own / "jobs" / "own.toml"]):
        done = run(*words)
        assert (done.returncode, codes(done.stderr)) == (1, ["bad-designation"])


def test_a_reading_out_of_range_is_told_by_check_plan_and_load(firm: Path) -> None:
    round_file = firm / "rounds" / "thursday-van-2.toml"
    named = re.findall(r'job = "(.*)"', round_file.read_text("utf-8"))
    job = (round_file.parent / named[0]).resolve()
    text = job.read_text("utf-8").replace("[[task]]", "[readings.vessel-precharge]\nstatic_m = -1\n\n[[task]]", 1)
    job.write_text(text, encoding="utf-8")
    for words in (["check", firm], ["plan", job], ["load", round_file]):
        done = run(*words)
        assert (done.returncode, codes(done.stderr)) == (1, ["bad-reading"])


def test_a_syntax_error_in_a_build_is_told_where_it_stands(own: Path) -> None:
    build = own / "catalog" / "builds" / "screws.toml"
    build.parent.mkdir()
    build.write_text(
        'format = 1\n\n[build]\nid = "screws"\ntitle = "-"\n\n[[component]]\nid = "hatch"\nid = "x"\n', encoding="utf-8"
    )
    unit = own / "catalog" / "assemblies" / "own-unit.toml"
    including = ASSEMBLY.replace("M9 x 25", "M6 x 25").replace(
        'position = "front"\n[component', 'position = "front"\nbehind = ["hatch"]\n[component'
    )
    unit.write_text(
        including.replace("[[component]]", '[[include]]\nbuild = "screws"\n\n[[component]]', 1), encoding="utf-8"
    )
    for words in (["check", own], ["plan", own / "jobs" / "own.toml"]):
        done = run(*words)
        assert done.returncode == 1
        assert "screws.toml:9:9: error[toml-syntax]: this key is given twice" in done.stderr


def test_what_only_shows_with_the_build_is_told_in_the_build(own: Path) -> None:
    build = own / "catalog" / "builds" / "screws.toml"
    build.parent.mkdir()
    build.write_text(
        'format = 1\n\n[build]\nid = "screws"\ntitle = "-"\n\n[component]\nid = "hatch"\n', encoding="utf-8"
    )
    unit = own / "catalog" / "assemblies" / "own-unit.toml"
    unit.write_text(
        ASSEMBLY.replace("[[component]]", '[[include]]\nbuild = "screws"\n\n[[component]]', 1), encoding="utf-8"
    )
    done = run("check", unit)
    assert "screws.toml:7:11: error[toml-syntax]: this header is there twice" in done.stderr
