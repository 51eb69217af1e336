"""The places of keys and values agree with what the standard library reads."""

import datetime
import math
import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from splitpin.notices import Place
from splitpin.reading.positions import Lines, Spot, scan


def _pairs(value: Any, spot: Spot) -> Iterator[tuple[Any, Spot]]:
    """Every value with its spot; fails where the two differ in shape."""
    yield value, spot
    if isinstance(value, dict):
        assert isinstance(spot.inside, dict)
        assert value.keys() == spot.inside.keys()
        for key, item in value.items():
            yield from _pairs(item, spot.inside[key])
    elif isinstance(value, list):
        assert isinstance(spot.inside, list)
        assert len(value) == len(spot.inside)
        for item, inner in zip(value, spot.inside, strict=True):
            yield from _pairs(item, inner)
    else:
        assert spot.inside is None


def _same(one: Any, other: Any) -> bool:
    return one == other or (
        isinstance(one, float) and isinstance(other, float) and math.isnan(one) and math.isnan(other)
    )


def _check(text: str) -> int:
    """The number of values of which the slice of the text, read again, is the value itself."""
    checked = 0
    for value, spot in _pairs(tomllib.loads(text), scan(text)):
        if spot.written:
            again = tomllib.loads(f"v = {text[spot.start : spot.end]}\n")["v"]
            assert type(again) is type(value)
            assert repr(again) == repr(value) or _same(again, value)
            checked += 1
    return checked


def _check_keys(text: str) -> None:
    def walk(value: Any, spot: Spot) -> None:
        if isinstance(value, dict) and isinstance(spot.inside, dict):
            for key, item in value.items():
                inner = spot.inside[key]
                assert tomllib.loads(f"{text[inner.key : inner.key_end]} = 1\n") == {key: 1}
                walk(item, inner)
        elif isinstance(value, list) and isinstance(spot.inside, list):
            for item, inner in zip(value, spot.inside, strict=True):
                walk(item, inner)

    walk(tomllib.loads(text), scan(text))


HAND = {
    "plain": ('a = 1\nb = "x" # c\n  c=true\n', 3),
    "no line end at the end": ("a = 1", 1),
    "empty": ("", 0),
    "comments only": ("# a = 1\n\n   # b\n", 0),
    "tabs": ("\ta\t=\t1\t# c\n", 1),
    "quoted keys": ('"a b" = 1\n\'c.d\' = 2\n"e\\u00e9\\n" = 3\n"" = 4\n', 4),
    "dotted keys": ('a.b.c = 1\na . "d e" = 2\n', 2),
    "numbers": ("a = 1_000\nb = -0x1F\nb2 = 0x1F\nc = 6.2e-3\nd = +inf\ne = nan\n".replace("b = -0x1F\n", ""), 5),
    "dates": ("a = 1979-05-27 07:32:00Z # x\nb = 07:32:00.5\nc = 1979-05-27\nd = 1979-05-27T07:32:00\n", 4),
    "strings": ('a = "q\\"]#"\nb = \'c:\\x\'\nc = \'\'\nd = ""\n', 4),
    "long strings": ('a = """\nx = 1\n[b]\n"quoted" ""\\"""\n"""\nb = \'\'\'\n\'\' \\\n\'\'\'\n', 2),
    "strings that end in quotes": ('a = """x"""""\nb = \'\'\'x\'\'\'\'\'\nc = """"""\n', 3),
    "lists": ('a = [1, [2, 3,], # c ]\n  "]", {b = 1, c.d = [4]},\n]\nb = []\n', 11),
    "braces": ('a = {}\nb = { x = 1, "y z" = \'}\', w.v.u = "{" }\n', 5),
    "tables": ("[a]\nx = 1\n[ a . b ]\ny = 2\n['c']\n[d.e.f]\n[d]\nz = 3\n", 3),
    "tables in any order": ("[a.b.c]\nx = 1\n[a]\ny = 2\n[a.b]\nz = 3\n", 3),
    "lists of tables": ("[[a]]\nx = 1\n[[a.b]]\ny = 2\n[[a.b]]\n[a.b.c]\nz = 3\n[[a]]\n[a.d]\nx.y = 4\n", 4),
}


@pytest.mark.parametrize("name", HAND)
def test_every_slice_reads_as_its_value(name: str) -> None:
    text, values = HAND[name]
    assert _check(text) == values
    _check_keys(text)


KEYS = st.one_of(st.text("abz019_-", min_size=1, max_size=4), st.text(max_size=4))
SCALARS = st.one_of(
    st.integers(-(2**63), 2**63 - 1),
    st.floats(),
    st.booleans(),
    st.text(max_size=12),
    st.text("\"'\\#[]{}=,. \n\t", max_size=8),
    st.dates(),
    st.datetimes(),
    st.times(),
    st.datetimes(timezones=st.just(datetime.UTC)),
)
VALUES = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4), max_leaves=15
)


@given(st.dictionaries(KEYS, VALUES, max_size=5), st.booleans())
def test_every_slice_of_a_written_document_reads_as_its_value(data: dict[str, Any], long_strings: bool) -> None:
    text = tomli_w.dumps(data, multiline_strings=long_strings).replace("\r\n", "\n")
    _check(text)
    _check_keys(text)


# The writer above has one way to write a thing; these lines have many.
_LAYOUT = st.sampled_from(["", " ", "\t", "  "])
_LITERALS = st.sampled_from(
    ["1", "'a'", '"b\\"c"', '"""d\n"e"""', "'''f\n'g'''", "1.5 ", "2026-03-31 07:00:00", "true", "[ ]", "{ }", "-inf"]
)
_GAPS = st.sampled_from(["", " ", "\n", " # ]},\n", "\n\n\t"])


@st.composite
def _lists(draw: st.DrawFn) -> str:
    items = draw(st.lists(_LITERALS | _braces(), max_size=3))
    text = "["
    for item in items:
        text += draw(_GAPS) + item + draw(_GAPS) + ","
    return (text if draw(st.booleans()) else text.removesuffix(",")) + draw(_GAPS) + "]"


@st.composite
def _braces(draw: st.DrawFn) -> str:
    items = [f"{name}{draw(_LAYOUT)}={draw(_LAYOUT)}{draw(_LITERALS)}" for name in ("p", "q.r", '"s t"')]
    return "{" + f"{draw(_LAYOUT)},{draw(_LAYOUT)}".join(items[: draw(st.integers(0, 3))]) + draw(_LAYOUT) + "}"


@st.composite
def _documents(draw: st.DrawFn) -> str:
    lines = []
    headers = draw(st.permutations(["[a]", "[[b]]", "[ d . 'e f' ]", "[[a.g]]", "[h.i.j]", "[h]"]))
    for header in ["", *headers, "[b.c]", "[[b]]", "[b.c]"]:
        lines.append(f"{draw(_LAYOUT)}{header}{draw(_LAYOUT)}{draw(st.sampled_from(['', '# x']))}")
        for key in draw(st.lists(st.sampled_from(["k", "l.m", "'n o'", '"p"', "l.q"]), unique=True)):
            value = draw(_LITERALS | _lists() | _braces())
            lines.append(f"{draw(_LAYOUT)}{key}{draw(_LAYOUT)}={draw(_LAYOUT)}{value}{draw(_LAYOUT)}")
    return "\n".join(lines)


@given(_documents())
def test_every_slice_of_a_loosely_typed_document_reads_as_its_value(text: str) -> None:
    _check(text)
    _check_keys(text)


def test_offsets_become_lines_and_columns() -> None:
    lines = Lines("f.toml", "é = 1\n\nb = [\n  2,\n]\n")
    assert lines.place(0, 1) == Place("f.toml", 1, 1, 1)
    assert lines.place(4, 5) == Place("f.toml", 1, 5, 1)
    assert lines.place(11, 19) == Place("f.toml", 3, 5, 1)  # marked as far as its first line goes
    assert lines.place(15, 16) == Place("f.toml", 4, 3, 1)
    assert lines.place(20, 20) == Place("f.toml", 6, 1, 1)


def test_the_place_of_a_table_is_the_header_that_names_it() -> None:
    text = "[a.b]\nx = 1\n[a]\ny.z = 2\n"
    root = scan(text)
    a = root.child("a")
    assert a is not None
    assert text[a.start : a.end] == "[a]"
    y = a.child("y")
    assert y is not None
    assert text[y.start : y.end] == "y"
    assert not y.written
    assert a.child("b") is not None
    assert a.child("c") is None
    assert a.child(0) is None
