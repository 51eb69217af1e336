"""A visit as it was, read from JSON or TOML: every fault with its place, and whether it fits its job."""

import json
from pathlib import Path

import pytest

from splitpin.reading.actual import disagreements, read_actual
from splitpin.reading.json_positions import scan_json
from splitpin.reading.visit import read_visit

JOB = Path(__file__).resolve().parents[2] / "examples" / "skerrowdale" / "jobs" / "circulator-head-drain-down.toml"
VISIT = {
    "format": 1,
    "job": "SK-1",
    "assembly": "circulator-set",
    "date": "2026-03-01",
    "total_min": 61.5,
    "steps": [{"n": 1, "done": True}],
}
TOML = """\
format = 1
job = "SK-1"
assembly = "circulator-set"
date = 2026-03-01
phases = { strip = 12.5, refit = 20 }

[[found]]
component = "motor-head"
task = "replace"
"""


def told(path: Path, text: str) -> list[tuple[str, int, int]]:
    path.write_text(text, encoding="utf-8")
    actual, notices = read_actual(path)
    assert (actual is None) == bool(notices)
    return [(notice.code, notice.place.line, notice.place.column) for notice in notices]


def test_json_and_toml_say_the_same(tmp_path: Path) -> None:
    assert told(tmp_path / "v.json", json.dumps(VISIT)) == []
    assert told(tmp_path / "v.toml", TOML) == []


@pytest.mark.parametrize(
    ("change", "notice"),
    [
        ({"date": "soon"}, ("wrong-kind", 5, 11)),
        ({"total_min": -1}, ("out-of-range", 6, 16)),
        ({"steps": [{"n": 0, "done": True}]}, ("out-of-range", 9, 12)),
        ({"colour": "red"}, ("unknown-key", 13, 3)),
        ({"photos": [{"name": "p", "data": "https://elsewhere"}]}, ("wrong-kind", 16, 15)),
        ({"format": 2}, ("format-unknown", 2, 13)),
    ],
)
def test_a_wrong_value_is_told_where_it_stands(
    change: dict[str, object], notice: tuple[str, int, int], tmp_path: Path
) -> None:
    assert told(tmp_path / "v.json", json.dumps({**VISIT, **change}, indent=2)) == [notice]


def test_text_that_is_no_json_is_told_with_its_place(tmp_path: Path) -> None:
    assert told(tmp_path / "v.json", '{\n "format": 1,\n}') == [("json-syntax", 3, 1)]
    assert told(tmp_path / "deep.json", '{"a":' + "[" * 100_000) == [("json-syntax", 1, 1)]


BASE = '{"format": 1, "job": "SK-1", "assembly": "circulator-set", "date": "2026-03-01", "total_min": 61'
READING = '"readings": [{"proof": "a", "reading": "b", "value": %s, "unit": "c", "result": "pass"}]'


@pytest.mark.parametrize(
    ("more", "code", "there"),
    [
        ('"total_min": 5', "json-syntax", '"total_min"'),
        (f'"waiting_min": {"1" * 5000}', "json-syntax", "1" * 5000),
        (f'"notes": {"[" * 900}{"]" * 900}', "json-syntax", '{"format"'),
        ('"notes": "\\ud800"', "json-syntax", "\\ud800"),
        ('"n\\u006ftes": 5', "wrong-kind", "5"),
        ('"place": {}', "unknown-key", '"place"'),
        ('"phases": {"stripp": 5}', "unknown-key", '"stripp"'),
        ('"phases": {"strip": 30, "refit": 33}', "out-of-range", "61"),
        (READING % "NaN", "out-of-range", "NaN"),
        (READING % "1e999", "out-of-range", "1e999"),
    ],
)
def test_what_json_readers_let_pass_is_told(more: str, code: str, there: str, tmp_path: Path) -> None:
    text = f"{BASE}, {more}}}"
    assert told(tmp_path / "v.json", text) == [(code, 1, text.rindex(there) + 1)]


def test_a_phase_near_one_of_ours_is_named(tmp_path: Path) -> None:
    path = tmp_path / "v.toml"
    path.write_text(TOML.replace("refit", "refti"), encoding="utf-8")
    (notice,) = read_actual(path)[1]
    assert notice.hint == "did you mean `refit`?" and (notice.place.line, notice.place.column) == (5, 26)


def test_phases_rounded_to_the_minute_may_pass_the_total(tmp_path: Path) -> None:
    assert told(tmp_path / "v.json", f'{BASE}, "phases": {{"strip": 30, "refit": 32}}}}') == []


def test_a_number_without_end_is_told_in_toml(tmp_path: Path) -> None:
    assert told(tmp_path / "v.toml", f"format = 1\nx = {'1' * 5000}\n") == [("toml-syntax", 2, 5)]


def test_a_visit_without_any_time_is_refused(tmp_path: Path) -> None:
    visit = {key: value for key, value in VISIT.items() if key != "total_min"}
    assert told(tmp_path / "v.json", json.dumps(visit)) == [("missing-key", 1, 1)]


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert [notice.code for notice in read_actual(tmp_path / "none.json")[1]] == ["file-missing"]


def test_a_visit_of_another_job_or_plant_is_told(tmp_path: Path) -> None:
    visit, _ = read_visit(JOB)
    assert visit is not None
    path = tmp_path / "v.json"
    changed = {
        **VISIT,
        "assembly": "roof-extract-fan",
        "found": [{"component": "motor-haed", "task": "replace"}],
        "parts": [{"part": "nothing-of-ours", "quantity": 1}],
    }
    path.write_text(json.dumps(changed), encoding="utf-8")
    actual, _ = read_actual(path)
    assert actual is not None
    notices = disagreements(actual, visit)
    assert sorted(notice.code for notice in notices) == ["other-job", "other-job", "part-unknown", "unknown-id"]
    assert any(notice.hint == "did you mean `motor-head`?" for notice in notices)
    columns = {notice.code: notice.place.column for notice in notices}
    text = path.read_text(encoding="utf-8")
    assert columns["unknown-id"] == text.index('{"component"') + 1
    assert columns["part-unknown"] == text.index('{"part"') + 1


def test_places_are_those_of_the_text() -> None:
    text = '{"a": [1, {"b" : "x\\"y"}], "c": null}'
    root = scan_json(text)
    spot = root.child("a")
    assert spot is not None and text[spot.start : spot.end] == '[1, {"b" : "x\\"y"}]'
    inner = spot.child(1)
    assert inner is not None
    leaf = inner.child("b")
    assert leaf is not None
    assert text[leaf.start : leaf.end] == '"x\\"y"' and text[leaf.key : leaf.key_end] == '"b"'
    last = root.child("c")
    assert last is not None and text[last.start : last.end] == "null"
