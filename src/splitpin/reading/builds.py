"""Build-up that is written once: a build's text, its blanks filled in, at the end of the assembly that includes it.

A blank is a name of the build's `takes` in braces. In a text it is replaced by the text that `fill` gives it; a text
that is nothing but a blank also by a number, or in a list by all texts of a list. Every line keeps the place of the
build's file, so what is wrong with it is told where it is written, and which include brought it.

By hand: `between = ["{head}", "{body}"]` filled with head = "motor-head" and body = "pump" reads
`between = ["motor-head", "pump"]`.
"""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import tomli

from splitpin.notices import Notice
from splitpin.notices.nearest import among, listed
from splitpin.reading.folders import BUILDS, CATALOG, data_folders, printed, toml_files
from splitpin.reading.located import Located
from splitpin.reading.positions import Lines
from splitpin.reading.source import Source, read_source

_BLANK = re.compile(r"\{([a-z][a-z0-9_]*)\}")
_FILLED = re.compile(r'"\{(?P<whole>[a-z][a-z0-9_]*)\}"(?P<comma>\s*,?\s*)|\{(?P<part>[a-z][a-z0-9_]*)\}')
_HEAD = re.compile(r"^(format[ \t]*=.*|\[build\][ \t]*(#.*)?(\n(?!\[).*)*)$", re.MULTILINE)

Fill = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Expanded:
    """An assembly's text with its builds behind it, and what is wrong with the includes."""

    lines: Lines
    notices: tuple[Notice, ...]


def expanded(source: Source, file: Path, toml: Located) -> Expanded:
    """The text of an assembly with every build that its `[[include]]` tables name.

    A build is looked for in the `builds/` beside the assembly's folder, then in the bundled catalogue. Cost grows with
    the length of the texts.
    """
    files = _files(file)
    lines = Lines(source.path, source.text)
    notices: list[Notice] = []
    for index, include in enumerate(_includes(toml)):
        name = include.get("build")
        if not isinstance(name, str):
            continue  # the record's own check gives notice of this
        if name not in files:
            hint = among(name, files)
            place = toml.place("include", index, "build")
            notices.append(
                Notice("unknown-id", f'`build` names "{name}", but there is no build of that name', place, hint)
            )
            continue
        build = read_source(files[name], printed(files[name], file))
        if isinstance(build, Notice):
            notices.append(build)
            continue
        wrong = _fill_notices(build, include.get("fill", {}), toml, index)
        notices += wrong
        if not wrong:
            at = str(toml.place("include", index))
            lines = lines.followed_by(Lines(build.path, _filled(build.text, include.get("fill", {})), at))
    return Expanded(lines, tuple(notices))


def _includes(toml: Located) -> Iterator[dict[str, Any]]:
    includes = toml.data.get("include")
    for include in includes if isinstance(includes, list) else []:
        yield include if isinstance(include, dict) else {}


def _files(assembly: Path) -> dict[str, Path]:
    """Build files by name; those beside the assembly before the bundled ones."""
    found = {file.stem: file for file in toml_files(data_folders()[0] / BUILDS)}
    beside = assembly.resolve().parent.parent
    if beside.name == CATALOG:
        found |= {file.stem: file for file in toml_files(beside / BUILDS)}
    return found


def _fill_notices(build: Source, fill: Any, toml: Located, index: int) -> list[Notice]:
    """Blanks without a filling, fillings without a blank, and a build that is no TOML."""
    try:
        takes = tomli.loads(build.text).get("build", {}).get("takes", [])
    except (ValueError, RecursionError):
        return [Notice("toml-syntax", f"the build {build.path} cannot be read", toml.place("include", index, "build"))]
    if not isinstance(fill, dict) or not isinstance(takes, list):
        return []
    notices = []
    open_blanks = [name for name in takes if name not in fill]
    if open_blanks:
        hint = f"the build takes {listed(takes, 'and')}" if len(open_blanks) < len(takes) else ""
        message = f"`fill` says nothing for {listed(open_blanks, 'and')}"
        notices.append(Notice("missing-key", message, toml.place("include", index, "build"), hint))
    for name, value in fill.items():
        if not _fills(value):
            way = ("include", index, "fill", name)
            message = f"`{name}` is {toml.typed(*way)}; it must be a text, a number or a list of texts"
            notices.append(Notice("wrong-kind", message, toml.place(*way)))
        if name not in takes:
            hint = among(name, takes) or "it has no blanks"
            place = toml.key_place("include", index, "fill", name)
            notices.append(Notice("unknown-key", f"`{name}` is nothing that the build takes", place, hint))
    blanks = {name for name in _BLANK.findall(build.text) if name not in takes}
    for name in sorted(blanks):
        spot = build.text.index("{" + name + "}")
        place = Lines(build.path, build.text, str(toml.place("include", index))).place(spot, spot + len(name) + 2)
        notices.append(Notice("missing-key", f"`takes` does not name the blank `{name}`", place))
    return notices


def _fills(value: Any) -> bool:
    if isinstance(value, list):
        return all(isinstance(item, str) for item in value)
    return isinstance(value, str | int | float) and not isinstance(value, bool)


def _filled(text: str, fill: Fill) -> str:
    """The build's text without its head, line for line, its blanks filled; what fills one blank is not filled again."""
    text = _HEAD.sub(lambda found: "\n" * found[0].count("\n"), text)
    return _FILLED.sub(lambda found: _filling(found, fill), text)


def _filling(found: re.Match[str], fill: Fill) -> str:
    """What stands for a blank; for its quotes too, where it is the whole text, and for its comma, where nothing is."""
    value = fill[found["whole"] or found["part"]]
    if found["part"]:
        return _escaped(str(value))
    if isinstance(value, list):
        return ", ".join(_quoted(item) for item in value) + (found["comma"] if value else "")
    return (_quoted(value) if isinstance(value, str) else json.dumps(value)) + found["comma"]


def _quoted(value: object) -> str:
    return f'"{_escaped(str(value))}"'


def _escaped(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)[1:-1]  # TOML's basic strings take the escapes of JSON


def located(lines: Lines) -> Located:
    """The values of the whole text. Raises tomli.TOMLDecodeError where it is no TOML."""
    return Located(tomli.loads(lines.text), lines)
