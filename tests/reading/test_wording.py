"""Whatever stands at a key, the answer is notices in the words of the files."""

import copy
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from splitpin.notices import Notice, has_errors
from splitpin.notices.nearest import among, nearest
from splitpin.reading.document import read_document
from splitpin.reading.quantities import converted, same_in_other_unit

SMALL = Path(__file__).resolve().parent.parent / "cases" / "small"
FILES = sorted(SMALL.rglob("*.toml"))
FOREIGN = re.compile(
    r"\b(str|int|float|bool|dict|tuple|list\[|None|NoneType|Literal|pydantic|Input|datetime|valid|type|model)\b"
)
WRONG: list[Any] = [0, -1, 7, 2.5, float("nan"), float("inf"), "", "Word", "a b", True, [], [1], ["x"], [["x"], "y"]]
WRONG += [{}, {"x": 1}, [{}], [{"id": "x"}], "1", 10**30, tomllib.loads("v = 2026-03-31T07:00:00")["v"]]
WRONG += [tomllib.loads("v = 2026-03-31")["v"], tomllib.loads("v = 07:00:00")["v"]]


def _ways(value: Any, steps: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    found = [steps] if steps else []
    if isinstance(value, dict):
        return found + [way for key, item in value.items() for way in _ways(item, (*steps, key))]
    if isinstance(value, list):
        return found + [way for index, item in enumerate(value) for way in _ways(item, (*steps, index))]
    return found


def _spoilt(data: dict[str, Any], way: tuple[str | int, ...], wrong: Any, key: str | None) -> dict[str, Any]:
    data = copy.deepcopy(data)
    here: Any = data
    for step in way[:-1]:
        here = here[step]
    if key is not None and isinstance(here, dict):
        here[key] = here.pop(way[-1])
    else:
        here[way[-1]] = wrong
    return data


def _notices(text: str, folder: Path) -> list[Notice]:
    file = folder / "spoilt.toml"
    file.write_text(text, encoding="utf-8")
    return read_document(file, "spoilt.toml")[1]


@settings(max_examples=400)
@given(st.data())
def test_any_value_at_any_key_is_answered_in_the_words_of_the_files(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    sound = tomllib.loads(data.draw(st.sampled_from(FILES)).read_text("utf-8"))
    way = data.draw(st.sampled_from(_ways(sound)))
    key = data.draw(st.none() | st.sampled_from(["titel", "mass_g", "off_min", "place", "Id", "é"]))
    text = tomli_w.dumps(_spoilt(sound, way, data.draw(st.sampled_from(WRONG)), key))
    lines = text.split("\n")
    for notice in _notices(text, tmp_path_factory.getbasetemp()):
        said = re.sub(r'"[^"]*"|`[^`]*`|\[\[?[a-z._]+\]\]?( \S+)?', "", notice.message + " " + notice.hint)
        assert not FOREIGN.search(said), said
        assert 1 <= notice.place.line <= len(lines)
        assert notice.place.column + notice.place.width - 1 <= max(1, len(lines[notice.place.line - 1]))


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_key_left_out_is_missed_or_was_free_to_leave_out(file: Path, tmp_path: Path) -> None:
    sound = tomllib.loads(file.read_text("utf-8"))
    for way in _ways(sound):
        if isinstance(way[-1], str) and way != ("format",) and len(way) > 1:
            spoilt = copy.deepcopy(sound)
            here: Any = spoilt
            for step in way[:-1]:
                here = here[step]
            del here[way[-1]]
            notices = _notices(tomli_w.dumps(spoilt), tmp_path)
            assert all(notice.code in ("missing-key", "no-source", "out-of-range") for notice in notices)
            if any(notice.code == "missing-key" for notice in notices):
                assert notices[0].message.endswith(f"has no `{way[-1]}`")


def test_a_sound_file_is_told_nothing(tmp_path: Path) -> None:
    for file in FILES:
        assert not has_errors(_notices(file.read_text("utf-8"), tmp_path))


def test_figures_come_out_exactly_in_the_other_unit() -> None:
    # By hand; the pound is 0.45359237 kg exactly (agreement of 1959).
    assert converted(2500, "mass_g", "mass_kg") == "2.5"
    assert converted(1.5, "off_min", "off_s") == "90"
    assert converted(20, "up_to_lb", "up_to_kg") == "9.0718474"
    assert converted(1, "wait_s", "wait_min") is None  # a sixtieth does not come out
    assert converted(1, "mass_kg", "off_s") is None
    assert converted(300_000, "limit_pa", "limit_bar") == "3"


def test_a_key_is_known_in_another_unit_only_by_its_stem() -> None:
    known = ["id", "mass_kg", "off_s", "seconds", "on_text"]
    assert same_in_other_unit("mass_g", known) == "mass_kg"
    assert same_in_other_unit("minutes", known) == "seconds"
    assert same_in_other_unit("off_min", known) == "off_s"
    assert same_in_other_unit("on_min", known) is None
    assert same_in_other_unit("colour", known) is None


def test_the_nearest_name_is_the_same_for_any_order_of_the_known_ones() -> None:
    known = ["fan", "pan", "casing"]
    assert nearest("xan", known) == nearest("xan", reversed(known))
    assert nearest("Front Casing", ["front-casing", "front-case"]) == "front-casing"
    assert nearest("burner", known) is None
    assert among("burner", known) == "there are `casing`, `fan` and `pan`"
    assert among("burner", ["fan"]) == "there is only `fan`"
    assert among("burner", [str(n) for n in range(99)]) == ""
