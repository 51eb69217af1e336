"""The tables say where every figure comes from, and name nobody."""

import re
from pathlib import Path

import pytest

from splitpin.hardware import sizes, tables, thread
from splitpin.hardware.standard import standards

FOLDER = Path(__file__).resolve().parent.parent.parent / "catalog" / "standards"
NAMES = sorted(file.stem for file in FOLDER.glob("*.csv"))


def test_no_table_lies_there_unread() -> None:
    source = Path(tables.__file__).parent
    code = "".join(module.read_text(encoding="utf-8") for module in sorted(source.glob("*.py")))
    assert len(NAMES) == 27
    assert [name for name in NAMES if f'"{name}"' not in code] == []


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_a_mark_and_a_source(name: str) -> None:
    found = tables.rows(name)
    assert found
    for row in found:
        assert row["mark"] in tables.MARKS, row
        assert row["source"] or row["mark"] == "from memory", row
        assert tables.origin(row), row
        assert all(cell == cell.strip() for cell in row.values()), row


@pytest.mark.parametrize("name", NAMES)
def test_sources_name_standards_and_kinds_of_source_only(name: str) -> None:
    text = (FOLDER / f"{name}.csv").read_text(encoding="utf-8")
    assert not re.search(r"https?:|www\.|\.com|\.org|\.net|\.csv[^\n]*commit", text)


@pytest.mark.parametrize(
    ("name", "first", "second"),
    [
        ("hexagons", "flats_mm", "or_mm"),
        ("hexalobular", "number", "or_number"),
        ("cross_recesses", "number", "or_number"),
        ("slots", "slot_mm", "or_slot_mm"),
        ("o_rings", "inside_mm", "or_inside_mm"),
    ],
)
def test_a_row_with_two_values_says_that_they_are_disputed(name: str, first: str, second: str) -> None:
    for row in tables.rows(name):
        assert bool(row[second]) == (row["mark"] == "disputed"), row
        assert row[first] != row[second]


def test_two_rows_for_one_key_are_refused() -> None:
    with pytest.raises(ValueError, match="hexagons: two rows for iso"):
        tables.index("hexagons", "series")


def test_a_row_of_the_wrong_width_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "catalog" / "standards").mkdir(parents=True)
    (tmp_path / "catalog" / "standards" / "short.csv").write_text(
        "# a table\na,b,mark,source\n1,2,agreed\n", encoding="utf-8"
    )
    monkeypatch.setattr(tables, "data_top", lambda: tmp_path)
    with pytest.raises(ValueError, match="short: 1: 3 cells under 4 columns"):
        tables.rows("short")


def test_sizes_that_are_not_there_are_refused() -> None:
    with pytest.raises(KeyError):
        sizes.tool_row(standards()["ISO 4762"], 9)
    with pytest.raises(KeyError):
        thread.metric(9)
    with pytest.raises(KeyError):
        thread.metric(8, 1.1)


def test_every_standard_finds_its_sizes_tools_times_and_rule() -> None:
    drives = {
        *sizes.TABLE_OF_DRIVE,
        "hand",
        "tab-washer",
        "split-pin",
        "retaining-ring",
        "o-ring",
        "union",
        "compression",
        "tab",
    }
    for name, standard in standards().items():
        assert standard.drive in drives, name
        assert sizes.names(standard) or sizes.diameters(standard), name
        assert (standard.pace,) in tables.index("times", "pace")
        assert (standard.reuse,) in tables.index("reuse_rules", "rule")
        assert standard.replaced_by == "" or standard.replaced_by in standards()


def test_weak_marks_are_said_with_the_source() -> None:
    assert (
        tables.origin({"source": "ISO 4762; two open tables agree", "mark": "agreed"})
        == "ISO 4762; two open tables agree"
    )
    assert tables.origin({"source": "ISO 1479", "mark": "from memory"}) == "ISO 1479 (from memory)"
    assert tables.origin({"source": "", "mark": "from memory"}) == "from memory"
