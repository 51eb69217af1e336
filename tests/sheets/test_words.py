"""Every fixed word stands in every language, with the same blanks, and nothing asks for a word that is not there."""

import re
import string
import tomllib
from datetime import date
from pathlib import Path
from typing import Any, get_args

import pytest

from splitpin import sheets
from splitpin.calculations.limits import NOT_SET
from splitpin.faults.diagnose import OTHERWISE
from splitpin.records.job import JobHead
from splitpin.records.supply import LoadLeft, LoadLine, PickPlace
from splitpin.sheets.office import quote
from splitpin.sheets.press import wording
from splitpin.sheets.press.language import LANGUAGES, Words
from splitpin.sheets.service_record import record as service_record
from splitpin.sheets.stock import load, pick_list
from splitpin.supply.stowing import HEAVY_KG, stowed

ROOM = Path(str(sheets.__file__)).parent
CATALOGUE: dict[str, Any] = tomllib.loads((ROOM / "press" / "words.toml").read_text(encoding="utf-8"))
LOWER = "\n".join(  # what other rooms word, and the documents translate
    (ROOM.parent / room).read_text(encoding="utf-8")
    for room in ("pricing/lines.py", "faults/diagnose.py", "supply/pick.py", "supply/stowing.py")
)
OTHERS = set(LANGUAGES) - {"en"}
SOURCES = "\n".join(path.read_text(encoding="utf-8") for path in (*ROOM.rglob("*.j2"), *ROOM.rglob("*.py")))


def blanks(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


@pytest.mark.parametrize("english", sorted(CATALOGUE["words"]))
def test_a_word_stands_in_every_language_with_the_same_blanks(english: str) -> None:
    texts = CATALOGUE["words"][english]
    assert set(texts) == OTHERS
    for text in texts.values():
        assert text.strip() and blanks(text) == blanks(english)


def test_how_numbers_and_dates_are_written_stands_in_every_language() -> None:
    for texts in CATALOGUE["written"].values():
        assert set(texts) == OTHERS
    assert all(len(months.split()) == 12 for months in CATALOGUE["written"]["months"].values())
    assert all(len(days.split()) == 7 for days in CATALOGUE["written"]["weekdays"].values())


def test_whatever_is_asked_for_by_its_text_is_there() -> None:
    asked = set(re.findall(r"\bt\(\s*\"((?:[^\"\\]|\\.)*)\"", SOURCES))
    assert len(asked) > 40
    assert sorted(asked - set(CATALOGUE["words"])) == []


def test_what_is_asked_for_by_another_name_is_there() -> None:
    named = {*wording.PHASES.values(), *wording.STAGES.values(), *wording.PART_KINDS.values()}
    named |= {wording.NO_LIMIT, wording.NOT_OWNED, wording.STANDING, NOT_SET, OTHERWISE, quote.UNPRICED}
    named |= {*quote.MODES.values(), *service_record.RESULTS.values(), *service_record.ROLES.values()}
    named |= set(wording.WORDS)
    named |= {*load.NAMES.values(), *load.LEFT.values(), load.NO_USE, *pick_list.PROBLEMS}
    assert named <= set(CATALOGUE["words"])


@pytest.mark.parametrize(
    ("why", "unit", "wanted", "there", "gain", "words"),
    [
        ("not-in-stock", "piece", 2, 0, None, "0 auf Lager, bis zu 2 gebraucht"),
        ("no-room", "kg", 7.25, 0.5, None, "kein Platz: eines wiegt 7,25 kg, 0,5 kg sind frei"),
        ("no-room", "l", 40.0, 12.5, None, "kein Platz: eines braucht 40 l, 12,5 l sind frei"),
        ("not-worth-it", None, None, None, 0.0421,
         "eines mehr würde 0,042 Aufträge mehr erledigen: Mitnehmen lohnt nicht"),
        ("not-worth-it", None, None, None, 0, "eines mehr allein würde nichts weiter erledigen"),
        ("van-may-not", None, None, None, None, "dieses Fahrzeug darf es nicht mitführen"),
    ],
)  # fmt: skip
def test_what_stays_behind_is_told_with_its_figures(
    why: Any, unit: Any, wanted: float | None, there: float | None, gain: float | None, words: str
) -> None:
    row = LoadLeft(part="p", title="P", pieces=1, why=why, unit=unit, wanted=wanted, there=there, gain=gain, jobs=())
    assert load.left(row, Words("de")) == words


def test_what_the_supply_room_words_is_there() -> None:
    assert all(f'"{problem}"' in LOWER for problem in pick_list.PROBLEMS)
    whys = get_args(LoadLeft.model_fields["why"].annotation)
    assert {why for why, _ in load.LEFT} == set(whys)
    weights = (None, 1.0, HEAVY_KG / 2, HEAVY_KG)
    lines = [
        LoadLine(part=f"{job}-{at}", title="", kind="replace", pieces=1, certain=1, from_van=0, mass_kg=mass,
                 draw=(PickPlace(location="", pieces=1),), jobs=(job,))
        for job in ("first", "last") for at, mass in enumerate(weights)
    ]  # fmt: skip
    places = {step.where for step in stowed(lines, ["first", "last"])}
    assert len(places) == 5 and places <= set(CATALOGUE["words"])


def test_what_the_quote_calls_its_lines_is_there() -> None:
    titles = set(re.findall(r"\"((?:Labour|Travel|Consumables)[^\"]*)\"", LOWER))
    assert len(titles) == 5 and titles <= set(CATALOGUE["words"])
    assert quote.BY_INSPECTION in LOWER and quote.BY_INSPECTION in CATALOGUE["words"]


def test_no_word_is_left_over() -> None:
    plant = get_args(JobHead.model_fields["plant"].annotation)
    built = {wording.STANDING, NOT_SET, *plant}  # put together, or written in another room
    left = [english for english in CATALOGUE["words"] if english not in built and f'"{english}"' not in SOURCES + LOWER]
    assert left == []


def test_the_pocket_sheet_names_what_its_script_says() -> None:
    from splitpin.sheets.pocket_sheet.pocket import SAID

    script = (ROOM / "pocket_sheet" / "pocket.js").read_text(encoding="utf-8")
    assert set(re.findall(r"\bwords\.(\w+)", script)) == set(SAID)
    assert set(SAID.values()) <= set(CATALOGUE["words"])


def test_a_language_that_is_not_there_is_refused() -> None:
    with pytest.raises(ValueError, match="fr; it can be en, de, es"):
        Words("fr")


def test_numbers_dates_and_lists_are_written_as_the_language_does() -> None:
    day = date(2026, 11, 5)
    assert [Words(name).date(day) for name in LANGUAGES] == ["Thu 5 Nov 2026", "Do 5. Nov. 2026", "jue 5 nov 2026"]
    assert [Words(name).money("1,234.50") for name in LANGUAGES] == ["1,234.50", "1.234,50", "1.234,50"]
    assert [Words(name).share(0.345) for name in LANGUAGES] == ["34%", "34\N{NO-BREAK SPACE}%", "34\N{NO-BREAK SPACE}%"]
    assert [Words(name).share(0.0074, places=1) for name in LANGUAGES] == [
        "0.7%", "0,7\N{NO-BREAK SPACE}%", "0,7\N{NO-BREAK SPACE}%",
    ]  # fmt: skip
    assert [Words(name).number("0.004") for name in LANGUAGES] == ["0.004", "0,004", "0,004"]
    assert [Words(name).listed(["1", "2", "3"]) for name in LANGUAGES] == ["1, 2 and 3", "1, 2 und 3", "1, 2 y 3"]
