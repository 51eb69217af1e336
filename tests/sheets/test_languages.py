"""Every document of several examples in every language: no fixed word is missing, and none is left in English."""

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from tests.sheets.every_page import EMERGENCY, JOBS, ROUND, Loaded, Planned, example, pages, planned, texts
from tests.sheets.page import Page

from splitpin import sheets
from splitpin.sheets.office.quote import BY_INSPECTION
from splitpin.sheets.press.language import Words

WORDS: dict[str, Any] = tomllib.loads(
    (Path(str(sheets.__file__)).parent / "press" / "words.toml").read_text(encoding="utf-8")
)["words"]
_TELLING = 12  # letters: shorter words may be those of a title, or the same in both languages
EXAMPLES = (
    EMERGENCY.parent / "heater-goes-out.toml",
    JOBS / "circulator-complete.toml",
    JOBS / "heat-pump-compressor.toml",
    EMERGENCY,
    ROUND,
)


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem)
def job(request: pytest.FixtureRequest) -> Planned | Loaded:
    return example(request.param)


def pieces(text: str) -> list[str]:
    """What stands between the blanks of a fixed text, as far as it is long enough to tell."""
    return [piece.strip() for piece in re.split(r"\{\w+\}", text) if len(piece.strip()) > _TELLING]


@pytest.mark.parametrize("language", ["de", "es"])
def test_no_fixed_word_is_left_in_english(job: Planned | Loaded, language: str) -> None:
    words = Words(language)
    told = [piece for english, texts in WORDS.items() if texts[language] != english for piece in pieces(english)]
    told.remove(BY_INSPECTION)  # the reasons of a plan say the same, and they stay in the words of the plan
    assert len(told) > 100
    for name, html in pages(job, words).items():
        shown = Page(html).words
        english = Page(pages(job)[name]).words
        assert sum(piece in english for piece in told) > 5, f"{name}: the check sees no fixed words in English either"
        assert [piece for piece in told if re.search(rf"(?<!\w){re.escape(piece)}(?!\w)", shown)] == [], name


@pytest.mark.parametrize("language", ["de", "es"])
def test_the_terminal_leaves_no_fixed_word_in_english(job: Planned | Loaded, language: str) -> None:
    words = Words(language)
    told = [piece for english, texts in WORDS.items() if texts[language] != english for piece in pieces(english)]
    told.remove(BY_INSPECTION)
    for name, text in texts(job, words).items():
        shown, english = " ".join(text.split()), " ".join(texts(job)[name].split())
        assert sum(piece in english for piece in told) > 1, name
        assert [piece for piece in told if re.search(rf"(?<!\w){re.escape(piece)}(?!\w)", shown)] == [], name
        assert max(map(len, text.splitlines())) <= 80


def test_numbers_on_the_record_have_the_decimal_sign_of_the_language() -> None:
    job = planned(JOBS / "circulator-complete.toml")
    for language, written in (("en", "1.25"), ("de", "1,25"), ("es", "1,25")):
        assert f"<b>{written}</b>" in pages(job, Words(language))["service record"]


def test_money_on_the_quote_has_the_signs_of_the_language() -> None:
    job = planned(JOBS / "circulator-complete.toml")
    totals = {
        language: re.search(r'class="total">.*?money">([^<]*)<', pages(job, Words(language))["quote"], re.DOTALL)
        for language in ("en", "de", "es")
    }
    english = totals["en"]
    assert english is not None and re.fullmatch(r"[0-9,]+\.[0-9]{2}", english[1])
    swapped = english[1].translate({ord(","): ".", ord("."): ","})
    assert [total and total[1] for total in totals.values()] == [english[1], swapped, swapped]


def test_the_load_has_day_money_and_chances_as_the_language_writes_them() -> None:
    load = example(ROUND)
    for language, written in (
        ("en", ("Thu 11 Mar 2027", "126.20", "63%", "350.9 kg of 420 kg")),
        ("de", ("Do 11. M\u00e4rz 2027", "126,20", "63\N{NO-BREAK SPACE}%", "350,9 kg von 420 kg")),
        ("es", ("jue 11 mar 2027", "126,20", "63\N{NO-BREAK SPACE}%", "350,9 kg de 420 kg")),
    ):
        page = pages(load, Words(language))["load"]
        assert [text for text in written if text not in page] == [], language
