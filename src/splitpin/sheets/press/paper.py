"""Documents as HTML: one self-contained page each, for the browser, the printer and the file."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING, Literal, NamedTuple, get_args

from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.wording import visible

if TYPE_CHECKING:
    from jinja2 import Environment

Paper = Literal["A4", "Letter"]


_RANGE = re.compile(r"(\d)–(\d)")  # of steps; a line must not end within it, whatever the font
_FOOT_LENGTH = 60  # characters of the job reference that fit the foot of a page beside its number


class Part(NamedTuple):
    """A part of a document: its template, its title, what the template prints, and a style sheet that it needs beside
    the one of all documents.
    """

    template: str
    title: str
    shown: dict[str, object]
    style: str | None = None


def document(parts: Sequence[Part], *, paper: Paper, foot: str, t: Words = ENGLISH) -> str:
    """One document of one part or several, each on pages of its own; `foot` is what stands at the foot of each page.

    The title is that of the first part. Raises ValueError for a paper size that is neither A4 nor Letter.
    """
    if paper not in get_args(Paper):
        raise ValueError(f"paper is {paper!r}; it can be A4 or Letter")
    from markupsafe import Markup

    before, between = t("Page {page} of {pages}", page="\0", pages="").split("\0")
    bodies = [environment().get_template(part.template).render(part.shown, t=t) for part in parts]
    text = (
        environment()
        .get_template("press/document.html.j2")
        .render(
            bodies=[Markup(body) for body in bodies],
            styles=dict.fromkeys(part.style for part in parts if part.style),
            title=parts[0].title,
            paper=paper,
            foot=_css_string(foot[:_FOOT_LENGTH]),
            pages=Markup(f'"{before}" counter(page) "{between}" counter(pages)'),
            t=t,
        )
    )
    return _RANGE.sub("\\1\u2060–\u2060\\2", visible(text))


@cache
def environment() -> Environment:
    """Everything is escaped, and a name that a template gets wrong is an error. Jinja2 is loaded at the first sheet."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("splitpin.sheets", package_path=""),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def _css_string(text: str) -> str:
    """The text for between the quotes of a style sheet's string: all but letters, digits, blanks as code points."""
    return re.sub(r"[^A-Za-z0-9 ]", lambda found: f"\\{ord(found[0]):06x}", visible(text))
