"""Every figure of the catalogue and the procedures says where it comes from, and every name leads to something.

The files are walked here as plain TOML, without the reader: a mistake of the reader cannot hide one in the files.
"""

import csv
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.records.catalogue import Hardware
from splitpin.records.library import Library

ROOT = Path(__file__).resolve().parents[2]
FILES = sorted([*(ROOT / "catalog").rglob("*.toml"), *(ROOT / "procedures").rglob("*.toml")])
TABLES = sorted((ROOT / "catalog").rglob("*.csv"))
ASSEMBLIES = [file for file in FILES if file.parent.name == "assemblies"]
BUILDS = [file for file in FILES if file.parent.name == "builds"]
BLANK = re.compile(r"\{[a-z_]+\}")  # filled in by the assembly that includes the build

# How many pieces a thing has, and the version of the format, are the thing itself, not figures about it.
COUNTS = {"format", "count", "seal_count"}
# Tables that share the origin of the table they stand in: `min = { low, mode, high }`, the suspects of a symptom.
SHARING = {"min", "suspects", "check"}
BASES = {"common practice", "from memory"}

# Which rows a key's ids name. A list inside a list is a choice.
NAMES = {
    "tools": "tool",
    "consumables": "part",
    "parts": "part",
    "part": "part",
    "seal": "seal",
    "kind": "kind",
    "medium": "medium",
    "guards": "medium",
    "forms": "boundary",
    "closed_to": "licence",
    "licence": "licence",
    "conditions": "condition",
    "before_opening": "condition",
    "makes": "condition",
    "held": "condition",
    "excludes": "condition",
    "proofs": "proof",
    "proves": "proof",
    "after_remaking": "proof",
    "cautions": "caution",
    "kinds": "kind",
    "limit": "limit",
}


def load(file: Path) -> dict[str, Any]:
    return tomllib.loads(file.read_text(encoding="utf-8"))


def is_figure(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def has_origin(table: dict[str, Any]) -> bool:
    return bool(str(table.get("source", "")).strip()) or table.get("basis") in BASES


def without_origin(node: object, path: str = "", inherited: bool = False) -> Iterator[str]:
    """The paths of figures that neither their table nor, where it shares one, the table above gives an origin."""
    if isinstance(node, list):
        for number, item in enumerate(node):
            yield from without_origin(item, f"{path}[{number}]", inherited)
    elif isinstance(node, dict):
        named = has_origin(node) or inherited
        for key, value in node.items():
            if key == "fill":
                continue  # the build's own row, which the figure goes into, gives its origin
            if is_figure(value):
                own = bool(node.get("torque_source")) if key == "torque_nm" else named
                if key not in COUNTS and not own:
                    yield f"{path}.{key}"
            else:
                yield from without_origin(value, f"{path}.{key}", named and key in SHARING)


def tables(node: object) -> Iterator[dict[str, Any]]:
    if isinstance(node, list):
        for item in node:
            yield from tables(item)
    elif isinstance(node, dict):
        yield node
        for value in node.values():
            yield from tables(value)


def ids(value: object) -> list[str]:
    if isinstance(value, str):
        return [value]
    return [name for item in value for name in ids(item)] if isinstance(value, list) else []


def declared() -> dict[str, list[str]]:
    """Ids by the name of their table, in the order of the files; a family of tools gives one for each size."""
    rows: dict[str, list[str]] = {}
    for file in FILES:
        document = load(file)
        for name, value in document.items():
            if name == "tool_family":
                for family in value:
                    rows.setdefault("tool", []).extend(
                        family["id"].replace("{size}", size.replace(".", "-")) for size in family["sizes"]
                    )
            elif isinstance(value, list) and file not in (*ASSEMBLIES, *BUILDS) and name not in ("limit", "task"):
                rows.setdefault(name, []).extend(row["id"] for row in value if "id" in row)
            elif name in ("assembly", "template", "jurisdiction"):
                rows.setdefault(name, []).append(value["id"])
    rows["limit"] = sorted({row["id"] for file in FILES for row in load(file).get("limit", [])})
    return rows


DECLARED = declared()


def short(file: Path) -> str:
    return str(file.relative_to(ROOT))


def test_there_is_something_to_look_at() -> None:
    assert len(ASSEMBLIES) >= 12
    assert len(BUILDS) >= 4
    assert len(FILES) >= 20
    assert sum(len(names) for names in DECLARED.values()) > 500


@pytest.mark.parametrize("file", FILES, ids=short)
def test_every_figure_has_a_source_or_a_basis(file: Path) -> None:
    assert list(without_origin(load(file))) == []


def test_a_figure_without_origin_would_be_found() -> None:
    bare = tomllib.loads(
        """
        [[component]]
        mass_kg = 2.0
        basis = "from memory"
        [[component.way]]
        off_s = 20
        [component.work.inspect]
        min = { low = 1, mode = 2, high = 3 }
        [[joint]]
        count = 4
        torque_nm = 5.0
        basis = "common practice"
        [[seal]]
        seconds = 5
        basis = "as usual"
        """
    )
    assert list(without_origin(bare)) == [
        ".component[0].way[0].off_s",
        ".component[0].work.inspect.min.low",
        ".component[0].work.inspect.min.mode",
        ".component[0].work.inspect.min.high",
        ".joint[0].torque_nm",
        ".seal[0].seconds",
    ]


@pytest.mark.parametrize("file", FILES, ids=short)
def test_a_basis_is_one_of_the_two_and_a_source_is_no_address(file: Path) -> None:
    for table in tables(load(file)):
        assert table.get("basis", "common practice") in BASES
        assert not re.search(r"https?:|www\.|\.com\b|\.co\.uk\b", str(table.get("source", "")))


@pytest.mark.parametrize("file", TABLES, ids=short)
def test_every_row_of_a_standard_names_its_source_or_says_it_has_none(file: Path) -> None:
    lines = [line for line in file.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    rows = list(csv.DictReader(lines))
    assert rows
    assert [row for row in rows if not row["source"].strip() and row["mark"] not in BASES] == []


@pytest.mark.parametrize("table", sorted(DECLARED))
def test_no_id_is_declared_twice(table: str) -> None:
    names = DECLARED[table]
    assert sorted({name for name in names if names.count(name) > 1}) == []


@pytest.mark.parametrize("file", [*ASSEMBLIES, *BUILDS], ids=short)
def test_no_id_is_declared_twice_in_an_assembly(file: Path) -> None:
    document = load(file)
    for table in ("circuit", "component", "joint", "symptom"):
        names = [row["id"] for row in document.get(table, [])]
        assert len(names) == len(set(names)), table


@pytest.mark.parametrize("file", FILES, ids=short)
def test_a_title_is_a_bare_noun_phrase(file: Path) -> None:
    titles = [
        table[key] for table in tables(load(file)) for key in ("title", "plural") if isinstance(table.get(key), str)
    ]
    bad = [title for title in titles if re.match(r"(a|an|the)\s", title, re.IGNORECASE) or title.endswith(".")]
    assert bad == []
    assert [title for title in titles if title != " ".join(title.split())] == []


@pytest.mark.parametrize("file", FILES, ids=short)
def test_every_sentence_of_a_sheet_ends_with_a_full_stop(file: Path) -> None:
    for table in tables(load(file)):
        sentences = [table[key] for key in ("text", "off_text", "on_text", "confirm", "failure") if key in table]
        sentences += table["steps"] if isinstance(table.get("steps"), list) else []
        sentences = [text for text in sentences if not BLANK.fullmatch(text)]
        assert [text for text in sentences if not re.fullmatch(r"[A-Z].*\.", text)] == []


@pytest.mark.parametrize("file", FILES, ids=short)
def test_every_name_leads_to_a_row(file: Path) -> None:
    for table in tables(load(file)):
        for key, rows in NAMES.items():
            value = table.get(key)
            if key in ("part", "kind", "seal") and not isinstance(value, str):
                continue  # the rows themselves, not a name
            if key == "kind" and "policy" not in table and "off_s" not in table:
                continue  # the kind of a part is a word of the format
            names = [name for name in ids(value) if not BLANK.search(name)]
            assert [name for name in names if name not in DECLARED[rows]] == [], key


def test_every_seal_can_be_picked() -> None:
    for file in FILES:
        for seal in load(file).get("seal", []):
            assert seal.get("part", seal["id"]) in DECLARED["part"]


@pytest.mark.parametrize("file", [*ASSEMBLIES, *BUILDS], ids=short)
def test_every_joint_has_hardware_with_tools_that_exist(file: Path) -> None:
    rows = {row["id"]: Hardware.model_validate(row) for f in FILES for row in load(f).get("hardware", [])}
    for joint in load(file)["joint"]:
        if BLANK.search(joint["hardware"]):
            continue
        fixing = resolve(joint["hardware"], Library(hardware=rows))
        assert isinstance(fixing, Fixing), joint["id"]
        assert [choice for choice in fixing.tools if not set(choice) & set(DECLARED["tool"])] == [], joint["id"]
        assert fixing.kind in DECLARED["kind"], joint["id"]


def test_every_line_of_a_template_is_offered_somewhere() -> None:
    offered = {
        (component["role"], task)
        for file in (*ASSEMBLIES, *BUILDS)
        for component in load(file)["component"]
        for task in [*component.get("work", {}), *(["replace"] if "part" in component else [])]
    }
    lines = [(task["role"], task["do"]) for file in FILES for task in load(file).get("task", [])]
    assert lines
    assert [line for line in lines if line not in offered] == []
