"""What is built together holds together, and shared build-up is written once. Our own rules."""

import re
import tomllib
from pathlib import Path

import pytest
from tests.bundled import LIBRARY

ROOT = Path(__file__).resolve().parents[2] / "catalog"
INCLUDED = {
    file.stem: [include["build"] for include in tomllib.loads(file.read_text(encoding="utf-8")).get("include", [])]
    for file in sorted((ROOT / "assemblies").glob("*.toml"))
}


@pytest.mark.parametrize("name", sorted(LIBRARY.assemblies))
def test_what_moves_across_to_a_new_carrier_is_held_by_a_joint(name: str) -> None:
    # Without one it would be taken out and put back, held by nothing, whenever its carrier is replaced.
    assembly = LIBRARY.assemblies[name]
    held = {end for joint in assembly.joint for end in joint.between}
    held |= {part for component in assembly.component for part in component.part_includes}
    assert [component.id for component in assembly.component if component.carried_by and component.id not in held] == []


@pytest.mark.parametrize("build", sorted(file.stem for file in (ROOT / "builds").glob("*.toml")))
def test_every_build_is_used_more_than_once(build: str) -> None:
    assert sum(builds.count(build) for builds in INCLUDED.values()) >= 2


@pytest.mark.parametrize(
    ("build", "assemblies"),
    [
        ("condensing-heater-body", {"wall-hung-combination-heater", "wall-hung-system-heater"}),
        ("wired-pump-head", {"circulator-set", "circulator-twin-head"}),
        (
            "plugged-pump-head",
            {"wall-hung-combination-heater", "wall-hung-system-heater", "monobloc-heat-pump", "underfloor-manifold"},
        ),
        ("motor-terminal-box", {"pressurisation-set", "roof-extract-fan"}),
    ],
)
def test_shared_build_up_is_included(build: str, assemblies: set[str]) -> None:
    assert {name for name, builds in INCLUDED.items() if build in builds} == assemblies


def test_twin_pump_has_two_heads_of_one_build() -> None:
    assert INCLUDED["circulator-twin-head"].count("wired-pump-head") == 2
    heads = [row for row in LIBRARY.assemblies["circulator-twin-head"].component if row.role == "pump-head"]
    assert [head.id for head in heads] == ["left-head", "right-head"]
    first, second = (re.sub("left|right", "one", head.model_dump_json(exclude={"place"})) for head in heads)
    assert re.sub(r'"place":\{[^}]*\}', "", first) == re.sub(r'"place":\{[^}]*\}', "", second)
