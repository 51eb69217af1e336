"""From parts used to spares: prices, packs, and what is said where little is known."""

from decimal import Decimal
from itertools import islice

import pytest

from splitpin.records.prices import Price
from splitpin.records.spares import SpareList
from splitpin.supply.demand import Demand, PartUse
from splitpin.supply.keeping import LEAST, spare_list
from splitpin.supply.need import Need


def use(part: str, units: int, visits: int) -> PartUse:
    return PartUse(part, units, visits, Demand(0.5 + units, visits))


def price(part: str, cost: str | None, **more: object) -> Price:
    return Price.model_validate({"part": part, "cost": None if cost is None else Decimal(cost), **more})


def chosen(
    uses: list[PartUse], prices: list[Price], money: str, ahead: int = 1, currency: str | None = "GBP"
) -> SpareList:
    named = {row.part: row for row in prices}
    return spare_list(uses, named, {"head": "motor head"}, Decimal(money), currency=currency, ahead=ahead)


def test_one_head_by_hand() -> None:
    """One used in one visit, one visit ahead: none is wanted with chance (1 / 2)^1.5."""
    found = chosen([use("head", 1, 1)], [price("head", "84.20")], "100")
    (line,) = found.lines
    assert (line.title, line.keep, line.cost) == ("motor head", 1, Decimal("84.20"))
    assert line.missing_without == pytest.approx(1.5)
    assert line.missing == pytest.approx(1.5 - (1 - 0.5**1.5))
    assert line.runs_short == pytest.approx(1 - 0.5**1.5 * (1 + 0.75))
    assert (found.cost, found.missing, found.status) == (Decimal("84.20"), line.missing, "proved")


def test_whole_packs_are_bought() -> None:
    (line,) = chosen([use("ring", 3, 20)], [price("ring", "3.20", pack=10)], "6.39", ahead=20).lines
    assert (line.keep, line.pack, line.cost) == (10, 10, Decimal("3.20"))
    need = Need(3.5, 1.0)
    assert line.missing == pytest.approx(need.missing(1e-9)[10])
    assert line.runs_short == pytest.approx(next(islice(need.short(), 10, None)))


def test_no_more_is_kept_than_is_used_now_and_then() -> None:
    (line,) = chosen([use("head", 5, 20)], [price("head", "1")], "1000000", ahead=20).lines
    before, after = islice(Demand(5.5, 20).over(20).short(), line.keep - 1, line.keep + 1)
    assert before >= LEAST > after


def test_what_costs_nothing_is_kept() -> None:
    found = chosen([use("head", 1, 20), use("cap", 1, 20)], [price("head", "5"), price("cap", "0")], "0", ahead=20)
    assert [(line.part, line.keep > 0) for line in found.lines] == [("cap", True), ("head", False)]
    assert found.cost == 0


def test_a_price_that_cannot_be_used_leaves_the_part_out_and_says_why() -> None:
    uses = [use(part, 1, 20) for part in ("none", "open", "foreign", "head")]
    found = chosen(uses, [price("open", None), price("foreign", "1", currency="EUR"), price("head", "1")], "100")
    assert [(row.part, row.why) for row in found.unpriced] == [
        ("none", "no row"),
        ("open", "`cost` left open"),
        ("foreign", "a price in EUR"),
    ]
    assert [line.part for line in found.lines] == ["head"]


@pytest.mark.parametrize(
    ("visits", "ahead", "little"), [(9, 1, True), (10, 10, False), (10, 11, True), (40, 20, False)]
)
def test_a_short_record_is_called_one(visits: int, ahead: int, little: bool) -> None:
    assert chosen([use("head", 1, visits)], [price("head", "1")], "5", ahead).little_known is little


def test_nothing_on_record_is_an_empty_list() -> None:
    found = chosen([], [price("head", "1")], "5")
    assert (found.lines, found.cost, found.missing, found.visits, found.little_known) == ((), 0, 0, 0, True)
