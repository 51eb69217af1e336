"""The quote on paper and on the terminal."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.pricing.job import EVERYTHING, PRICES, charges, plan, quoted, visit
from tests.sheets.page import Page

from splitpin.records.quote import Quote
from splitpin.sheets.office.quote import quote_document
from splitpin.sheets.press.language import ENGLISH
from splitpin.sheets.press.page import page as page_of
from splitpin.sheets.press.paper import Paper
from splitpin.sheets.press.terminal import NARROWEST
from splitpin.sheets.press.terminal import text as text_of

HOSTILE = "</style><script>alert(1)</script> {{ 7 * 7 }} <!-- \u202e \x1b[2J =1+1"


def quote_page(quote: Quote, paper: Paper = "A4") -> str:
    return page_of(quote_document(quote, visit().firm, visit().job), paper=paper, t=ENGLISH)


def quote_text(quote: Quote, width: int = 80) -> str:
    return text_of(quote_document(quote, visit().firm, visit().job), width)


def page(quote: Quote) -> Page:
    return Page(quote_page(quote))


def test_page_is_well_formed_and_loads_nothing() -> None:
    found = page(EVERYTHING)
    assert found.references == []
    assert not {"script", "link", "img", "iframe", "object", "base"} & set(found.elements)
    assert "url(" not in found.style and "@import" not in found.style


def test_page_counts_its_pages_and_has_its_paper() -> None:
    style = Page(quote_page(EVERYTHING, paper="Letter")).style
    assert "size: Letter" in style
    assert "counter(page)" in style and "counter(pages)" in style
    with pytest.raises(ValueError, match="A4 or Letter"):
        quote_page(EVERYTHING, paper="A5")  # type: ignore[arg-type]


def test_the_risk_of_the_firm_is_in_its_own_text_and_not_on_the_customers_page() -> None:
    words, text = page(EVERYTHING).words, quote_text(EVERYTHING)
    for own in ("mark-up", "Longer than charged", "a job.", "recorded visits"):
        assert own in " ".join(text.split())
        assert own not in words


def test_both_say_what_is_charged_and_what_it_means() -> None:
    for words in (page(EVERYTHING).words, " ".join(quote_text(EVERYTHING).split())):
        for said in (
            "The price is fixed, but for what is to be confirmed. It charges 2 h 00 min on site for each of 2 people.",
            "In about 80 of 100 such jobs the work takes no longer than 1 h 47 min.",
            "Holds until Thu 24 Dec 2026",
            "2 people × 1 h 00 min at 60.00 an hour",
            "only if: broken clip",
            "VAT 17.5 % is taken line by line, each rounded to 0.001 GBP, down; their sum to 0.01 GBP, likewise.",
            "Each line is rounded to 0.01 GBP, to the nearest, half up.",
            "Taking away the old head",
            "Making good of decoration",
        ):
            assert said in words


def test_a_line_without_a_price_says_so_and_so_does_the_total() -> None:
    text = quote_text(EVERYTHING)
    (line,) = [line for line in text.splitlines() if "silicone grease" in line]
    assert line.split() == ["1", "×", "silicone", "grease", "to", "be", "confirmed"]
    assert "Total without 1 line that is to be confirmed" in text
    assert "Total without 1 line that is to be confirmed" in page(EVERYTHING).words


def test_a_whole_quote_without_contingent_lines_has_no_such_part() -> None:
    parts = tuple(part for part in plan().parts if part.certain)
    whole = quoted(plan(parts), charges(tax=None))
    for words in (page(whole).words, quote_text(whole)):
        assert "nly if needed" not in words and "ONLY IF NEEDED" not in words
        assert "No tax is charged." in words
        assert "to be confirmed" not in words


def test_an_order_that_is_not_proved_best_is_told_the_office() -> None:
    bounded = quoted(plan(status="bounded", gap_s=60), charges())
    assert "The order of the work is the best found, not proved best" in quote_text(bounded)
    assert "not proved best" not in quote_text(quoted(plan(), charges()))


def test_what_files_say_is_printed_and_never_obeyed() -> None:
    price = PRICES["head"].model_copy(update={"description": HOSTILE})
    hostile = quoted(plan(tasks=(HOSTILE,)), charges(terms=[HOSTILE]), {**PRICES, "head": price})
    found = page(hostile)
    assert "script" not in found.elements
    assert found.words.count("<script>alert(1)</script> {{ 7 * 7 }}") == 3
    assert "\x1b" not in quote_text(hostile)


@given(st.integers(1, 140))
def test_no_line_is_longer_than_asked_for(width: int) -> None:
    assert max(map(len, quote_text(EVERYTHING, width).splitlines())) <= max(width, NARROWEST)


@pytest.mark.parametrize(("currency", "total"), [("JPY", "400"), ("KWD", "400.812"), ("GBP", "400.81")])
def test_money_is_printed_with_the_digits_of_its_currency(currency: str, total: str) -> None:
    quote = quoted(plan(), charges(currency=currency))
    (line,) = [line for line in quote_text(quote).splitlines() if line.startswith("  Total  ")]
    assert line.split() == ["Total", total]


def test_thousands_are_parted() -> None:
    price = PRICES["head"].model_copy(update={"cost": PRICES["head"].cost * 1000})
    assert "101,040.00" in quote_text(quoted(plan(), charges(), {**PRICES, "head": price}))
