"""A quote as plain text for a terminal, for the office: no colour, nothing that moves the cursor."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import wrap
from typing import TYPE_CHECKING

from splitpin.sheets.office.quote_view import Charge, QuoteView, Sum, quote_view
from splitpin.sheets.press.wording import visible

if TYPE_CHECKING:
    from splitpin.records.quote import Quote

_NARROWEST = 48  # columns; below this the money would leave no room for words
_MONEY = 16  # columns of an amount: `to be confirmed` and a blank
_INDENT = "  "


def quote_text(quote: Quote, width: int = 80) -> str:
    """The quote in lines of at most `width` columns (48 at least), without a line end after the last.

    Money stands at the right. The last part is for the firm's own eyes: the risk that the fixed price carries.
    """
    view, width = quote_view(quote), max(width, _NARROWEST)
    blocks = [
        _head(view, width),
        _section("Work", (_wrapped(task, width) for task in view.tasks)),
        _section(
            f"Price in {view.currency}",
            [*(_charge(line, width) for line in view.lines), [_rule(width)], *(_sum(row, width) for row in view.sums)],
        ),
        _section(
            "Only if needed, not in the total",
            [
                *(_charge(line, width) for line in view.contingent),
                *([_sum(view.contingent_sum, width)] if view.contingent_sum else []),
            ],
        ),
        _section("What the price means", (_wrapped(sentence, width) for sentence in view.meaning)),
        _section("Included", (_wrapped(line, width) for line in view.included)),
        _section("Its time is in the price, should it happen", (_wrapped(line, width) for line in view.covered)),
        _section("Not included", (_wrapped(line, width) for line in view.excluded)),
        _section("Terms", (_wrapped(line, width) for line in view.terms)),
        _section("For the office", (_wrapped(line, width) for line in view.office)),
    ]
    return visible("\n\n".join("\n".join(block) for block in blocks if block))


def _head(view: QuoteView, width: int) -> list[str]:
    return [
        *_wrapped(f"Quote for {view.reference}: {view.title}", width, ""),
        *_wrapped(view.plant, width, ""),
        *_wrapped(f"{view.firm}. {'. '.join(view.dates)}.", width, ""),
    ]


def _section(heading: str, items: Iterable[list[str]]) -> list[str]:
    lines = [line for item in items for line in item]
    return [heading.upper(), *lines] if lines else []


def _wrapped(text: str, width: int, indent: str = _INDENT) -> list[str]:
    """The text in lines; at least one, even where the text is blank."""
    lines = wrap(text, width, initial_indent=indent, subsequent_indent=indent + _INDENT, break_on_hyphens=False)
    return lines or [indent.rstrip()]


def _charge(line: Charge, width: int) -> list[str]:
    detail = [line.detail] if line.detail else []
    if line.tax:
        detail.append(f"tax {line.tax}")
    under = _wrapped("; ".join(detail), width - _MONEY, _INDENT * 2) if detail else []
    return [*_priced(line.title, line.amount, width), *under]


def _sum(row: Sum, width: int) -> list[str]:
    return _priced(row.title, row.amount, width)


def _priced(title: str, amount: str, width: int) -> list[str]:
    words = _wrapped(title, width - _MONEY)
    words[-1] = f"{words[-1]:<{width - _MONEY}}{amount:>{_MONEY}}"
    return words


def _rule(width: int) -> str:
    return " " * (width - _MONEY + 2) + "-" * (_MONEY - 2)
