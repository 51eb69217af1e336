"""Notices in print and as JSON, character by character."""

import json

from splitpin.notices import NOWHERE, Notice, Place, has_errors, in_order, render, render_json

TEXT = "[job]\n\tdo = 'übung'\n   \nlast"
ERROR = Notice("unknown-id", "no such thing", Place("a.toml", 2, 7, 7), "look again")
NOTE = Notice("role-not-fitted", "it has no fan", Place("a.toml", 1, 1, 5))


def _source(path: str) -> str | None:
    return TEXT if path == "a.toml" else None


def test_a_notice_shows_its_place_hint_line_and_carets() -> None:
    assert render([ERROR, NOTE], _source) == (
        "a.toml:2:7: error[unknown-id]: no such thing\n"
        "  hint: look again\n"
        "  \tdo = 'übung'\n"
        "  \t     ^^^^^^^\n"
        "a.toml:1:1: note[role-not-fitted]: it has no fan\n"
        "  [job]\n"
        "  ^^^^^\n"
    )


def test_a_notice_about_a_whole_file_or_about_none_has_no_line() -> None:
    assert render([Notice("file-missing", "gone", Place("b.toml"))], _source) == "b.toml: error[file-missing]: gone\n"
    assert render([Notice("no-way", "no way", NOWHERE)], _source) == "error[no-way]: no way\n"


def test_a_line_that_cannot_be_shown_is_left_out() -> None:
    for place in (Place("b.toml", 3, 1), Place("a.toml", 9, 1), Place("a.toml", 3, 2)):
        notice = Notice("no-way", "no way", place)
        assert render([notice], _source) == f"{place}:{place.column}: error[no-way]: no way\n"


def test_nothing_is_printed_of_no_notices() -> None:
    assert render([], _source) == ""


def test_each_file_is_read_once() -> None:
    read = []

    def source(path: str) -> str:
        read.append(path)
        return TEXT

    render([ERROR, NOTE, ERROR], source)
    assert read == ["a.toml"]


def test_json_has_the_same_fields() -> None:
    text = render_json([ERROR, NOTE])
    assert json.loads(text) == [
        {
            "code": "unknown-id",
            "severity": "error",
            "path": "a.toml",
            "line": 2,
            "column": 7,
            "message": "no such thing",
            "hint": "look again",
            "included_at": "",
        },
        {
            "code": "role-not-fitted",
            "severity": "note",
            "path": "a.toml",
            "line": 1,
            "column": 1,
            "message": "it has no fan",
            "hint": "",
            "included_at": "",
        },
    ]
    assert text.endswith("]\n")


def test_notices_are_sorted_by_place_and_given_once() -> None:
    later = Notice("cycle", "round", Place("a.toml", 10, 1))
    assert in_order([later, ERROR, NOTE, ERROR]) == (NOTE, ERROR, later)
    assert in_order([]) == ()


def test_only_errors_count_as_errors() -> None:
    assert has_errors([NOTE, ERROR])
    assert not has_errors([NOTE])
    assert not has_errors([])
