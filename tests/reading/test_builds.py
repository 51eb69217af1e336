"""A build's tables, its blanks filled in, belong to the assembly that includes it. Expected values by hand."""

import shutil
from pathlib import Path

import pytest

from splitpin.notices import Place
from splitpin.reading import folders
from splitpin.reading.library import read_library
from splitpin.records.assembly import Assembly

HEAD = """format = 1

[assembly]
id = "unit"
title = "unit"
positions = ["front"]

[[component]]
id = "casing"
title = "front casing"
role = "casing"
position = "front"

[[joint]]
id = "casing-screws"
between = ["casing", "frame"]
hardware = "panel-screw"
position = "front"
"""


@pytest.fixture
def unit(small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An assembly to be written into a copy of the small library."""
    copy = tmp_path / "library"
    shutil.copytree(small, copy)
    monkeypatch.setattr(folders, "data_top", lambda: copy)
    return copy / "catalog" / "assemblies" / "unit.toml"


def read(file: Path, includes: str) -> Assembly:
    file.write_text(HEAD + includes, encoding="utf-8")
    library, notices = read_library(assemblies={"unit"})
    assert notices == ()
    return library.assemblies["unit"]


def test_texts_numbers_and_lists_stand_where_the_blanks_stood(unit: Path) -> None:
    found = read(unit, '[[include]]\nbuild = "lid"\nfill = { lid = "hatch", clips = 2, in_front = ["casing"] }\n')
    hatch, clips = found.component[1], found.joint[1]
    assert (hatch.id, hatch.title, clips.id, clips.count) == ("hatch", "the hatch", "hatch-clips", 2)
    assert clips.between == ("hatch", "frame")
    assert [way.behind for way in hatch.ways] == [(("casing",),)]
    assert found.include == ()


def test_an_empty_list_leaves_nothing_in_its_place(unit: Path) -> None:
    found = read(unit, '[[include]]\nbuild = "lid"\nfill = { lid = "hatch", clips = 2, in_front = [] }\n')
    assert not any(found.component[1].ways[0].behind)


def test_a_build_can_be_included_twice_under_two_names(unit: Path) -> None:
    once = '[[include]]\nbuild = "lid"\nfill = {{ lid = "{}", clips = {}, in_front = [] }}\n'
    found = read(unit, once.format("left-hatch", 2) + once.format("right-hatch", 3))
    assert [component.id for component in found.component] == ["casing", "left-hatch", "right-hatch"]
    assert [joint.count for joint in found.joint] == [1, 2, 3]


def test_what_fills_a_blank_is_not_read_again(unit: Path) -> None:
    # a quote ends no text, a brace opens no blank
    (unit.parent.parent / "builds" / "label.toml").write_text(
        'format = 1\n\n[build]\nid = "label"\ntitle = "label"\ntakes = ["id", "words"]\n\n'
        '[[component]]\nid = "{id}"\ntitle = "label {words}"\nrole = "cover"\nposition = "front"\n\n'
        '[[joint]]\nid = "{id}-screw"\nbetween = ["{id}", "frame"]\nhardware = "panel-screw"\nposition = "front"\n',
        encoding="utf-8",
    )
    found = read(unit, '[[include]]\nbuild = "label"\nfill = { id = "plate", words = \'"{id}"\' }\n')
    assert found.component[1].title == 'label "{id}"'


def test_a_record_of_a_build_knows_its_place_there_and_the_include(unit: Path) -> None:
    found = read(unit, '[[include]]\nbuild = "lid"\nfill = { lid = "hatch", clips = 2, in_front = [] }\n')
    line = HEAD.count("\n") + 1
    assert found.component[1].place == Place(
        "catalog/builds/lid.toml", 8, 1, len("[[component]]"), f"catalog/assemblies/unit.toml:{line}"
    )
