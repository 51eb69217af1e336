"""Hostile text in every field of a job, a firm, a round and a visit is text on every document, and only text."""

import csv
import datetime
import unicodedata
from pathlib import Path
from typing import Any

import pytest
import tomli_w
from tests.bundled import LIBRARY
from tests.sheets.every_page import JOBS, Loaded, Planned, loaded, pages, planned, texts
from tests.sheets.page import Page

from splitpin.sheets.press.wording import visible
from splitpin.sheets.register import REGISTER

MARKS = [0x61C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)]
NASTY = {
    "script": "<script>alert(1)</script><img src=x onerror=alert(1)>",
    "quotes": "\"' onload='alert(1)' `\" autofocus=\"",
    "style": "</style></title></textarea><style>*{display:none}</style>",
    "template": "{{7*7}} {% raw %} ${7*7} {t} {0} %s %(x)s",
    "comment": "<!-- --><![CDATA[ ]]>&lt;b&gt;&#60;",
    "marks": "A\u202eb\u2066c\u200fd\u061ce",
    "control": "A\x1b[2Jb\x07c\x9bd\x0be",
    "long": "N" * 10_000,
}
PLAIN = "Zeugma"  # a word that nothing else says
JOB: dict[str, Any] = {
    "format": 1,
    "job": {
        "reference": "",
        "title": "",
        "report": "",
        "assembly": "circulator-set",
        "symptoms": ["no-circulation"],
        "travel_min": 20,
    },
    "asked": {
        "by": "",
        "how": "",
        "at": datetime.datetime(2027, 1, 5, 8, 30),
        "answers": dict.fromkeys(LIBRARY.emergencies, "no"),
    },
    "site": {"name": "", "address": "", "access": "", "contact": "", "notes": ""},
    "task": [{"do": "replace", "component": "motor-head", "note": ""}],
}


PRICES = (("part", "description", "cost", "currency", "supplier_ref"), ("circulator-head", "", "84.20", "GBP", ""))
STORE = (("part", "quantity", "location", "note"), ("pump-head-o-ring", "1", "A-01-02-3", ""))
VAN = {"format": 1, "van": {"id": "van", "title": "", "payload_kg": 400, "people": 1, "basis": "from memory"}}
ROUND = {"format": 1, "round": {"reference": "", "title": "", "van": "van.toml"}, "visit": [{"job": "job.toml"}]}


def filled(value: Any, text: str) -> Any:
    """The job with `text` wherever it left words open."""
    if isinstance(value, dict):
        return {name: filled(item, text) for name, item in value.items()}
    if isinstance(value, list):
        return [filled(item, text) for item in value]
    return text if value == "" else value


def written(folder: Path, text: str, *, report: str | None = None) -> Planned:
    """The job and its firm as files with `text` in every field that takes words, read back and planned."""
    return planned(in_files(folder, text, report=report) / "job.toml")


def on_a_round(folder: Path, text: str) -> Loaded:
    """The same job as the only one of a round with `text` in every field of round and van, read back and loaded."""
    in_files(folder, text)
    for name, record in (("van.toml", VAN), ("round.toml", ROUND)):
        (folder / name).write_text(tomli_w.dumps(filled(record, text)), encoding="utf-8")
    return loaded(folder / "round.toml")


def in_files(folder: Path, text: str, *, report: str | None = None) -> Path:
    folder.mkdir(parents=True)
    firm = (JOBS.parent / "firm.toml").read_text(encoding="utf-8").splitlines()
    own = tomli_w.dumps({"title": text, "phone": text}).splitlines()
    head = next(at for at, line in enumerate(firm) if line == "[firm]")
    kept = [line for line in firm[head + 1 :] if not line.startswith(("title =", "phone ="))]
    (folder / "firm.toml").write_text("\n".join([*firm[: head + 1], *own, *kept]), encoding="utf-8")
    for name, rows in (("prices.csv", PRICES), ("store-stock.csv", STORE)):
        with (folder / name).open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows([[filled(cell, text) for cell in row] for row in rows])
    job = filled(JOB, text)
    if report is not None:
        job["job"]["report"] = report
        job["asked"]["answers"] = {}
    (folder / "job.toml").write_text(tomli_w.dumps(job), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def harmless(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    return pages(written(tmp_path_factory.mktemp("harmless") / "job", PLAIN), text=PLAIN)


def as_shown(text: str) -> str:
    return " ".join(visible(text).split())


@pytest.mark.parametrize("kind", NASTY)
def test_hostile_text_is_text_on_every_document(kind: str, tmp_path: Path, harmless: dict[str, str]) -> None:
    text = NASTY[kind]
    made = pages(written(tmp_path / "job", text), text=text)
    assert set(made) == set(harmless) and "pack" in made
    for name, html in made.items():
        assert_only_text(text, html, harmless[name], name)


def test_every_registered_document_meets_hostile_text(tmp_path: Path, harmless: dict[str, str]) -> None:
    met = {*harmless, *pages(on_a_round(tmp_path / "round", PLAIN))}
    met |= set(pages(written(tmp_path / "stop", PLAIN, report="there is a smell of gas")))
    assert {entry.id for entry in REGISTER} <= met


@pytest.mark.parametrize("kind", NASTY)
def test_hostile_text_stays_text_on_a_terminal(kind: str, tmp_path: Path) -> None:
    text = NASTY[kind]
    made = texts(written(tmp_path / "job", text)) | texts(on_a_round(tmp_path / "round", text))
    assert set(made) == {entry.id for entry in REGISTER if entry.told is not None}
    for name, shown in made.items():
        assert visible(shown) == shown, name
        assert max(map(len, shown.splitlines())) <= 80, name


@pytest.mark.parametrize("kind", NASTY)
def test_hostile_text_is_text_on_the_load_of_a_round(kind: str, tmp_path: Path) -> None:
    text = NASTY[kind]
    hostile, plain = (pages(on_a_round(tmp_path / name, said)) for name, said in (("one", text), ("other", PLAIN)))
    assert_only_text(text, hostile["load"], plain["load"], "load")


def assert_only_text(text: str, html: str, harmless: str, name: str) -> None:
    """Where the harmless word stands the hostile one does, whole, and nothing else is changed."""
    page, other = Page(html), Page(harmless)
    assert page.elements == other.elements, name
    assert page.attributes == other.attributes, name
    assert page.words.count(as_shown(text)) == other.words.count(PLAIN) >= 3, name
    assert not any(mark in html for mark in map(chr, MARKS)), name
    assert page.style.partition("\n")[2].partition("\n")[2] == other.style.partition("\n")[2].partition("\n")[2], name


@pytest.mark.parametrize("kind", NASTY)
def test_hostile_text_is_text_on_the_stop_page(kind: str, tmp_path: Path) -> None:
    made = [
        Page(pages(written(tmp_path / name, text, report="there is a smell of gas " + text))["stop page"])
        for name, text in (("hostile", NASTY[kind]), ("plain", PLAIN))
    ]
    assert made[0].elements == made[1].elements and made[0].attributes == made[1].attributes
    assert made[0].words.count(as_shown(NASTY[kind])) >= 5


def test_what_is_left_of_hostile_text_in_the_style_sheet_cannot_end_its_string(tmp_path: Path) -> None:
    for kind, text in NASTY.items():
        html = pages(written(tmp_path / kind, text), text=PLAIN)["quote"]
        style = html.partition("<style>")[2].partition("</style>")[0]
        foot = style.partition('@bottom-left { content: "')[2].partition('"; }')[0]
        assert foot and not set(foot) & set("<>\"';{}\n"), kind


@pytest.mark.parametrize("code", MARKS)
def test_a_mark_of_direction_is_seen_and_turns_nothing_round(code: int) -> None:
    assert unicodedata.category(chr(code)) == "Cf"
    assert visible(f"a{chr(code)}b") == "a\ufffdb"


def test_no_mark_of_direction_is_forgotten() -> None:
    """Against the Unicode data that Python carries: every format character with a direction of its own."""
    strong = ("L", "R", "AL", "LRE", "RLE", "PDF", "LRO", "RLO", "LRI", "RLI", "FSI", "PDI")
    directed = [
        code
        for code in range(0x10000)
        if unicodedata.category(chr(code)) == "Cf" and unicodedata.bidirectional(chr(code)) in strong
    ]
    assert set(MARKS) <= set(directed)
    assert [hex(code) for code in directed if code not in MARKS and "MARK" in unicodedata.name(chr(code))] == ["0x70f"]


def test_letters_that_run_from_the_right_stay_as_they_are() -> None:
    assert visible("שלום") == "שלום"
