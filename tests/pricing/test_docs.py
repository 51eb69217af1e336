"""The figures of the guide to the quote are what the code gives."""

import re
from decimal import Decimal
from pathlib import Path

from splitpin.pricing.chargeable import blocks, chargeable
from splitpin.records.charges import Labour
from splitpin.units.money import ROUNDINGS, rounded


def guide(root: Path) -> str:
    return (root / "docs" / "pricing.md").read_text(encoding="utf-8")


def test_the_table_of_modes_is_what_the_modes_do(root: Path) -> None:
    rows = re.findall(r"^\| `([a-z-]+)` \| ([0-9.]+) \| ([0-9.]+) \|$", guide(root), flags=re.MULTILINE)
    assert {mode for mode, _, _ in rows} == set(ROUNDINGS)
    for mode, hundredths, units in rows:
        assert str(rounded(Decimal("0.125"), Decimal("0.01"), mode)) == hundredths  # type: ignore[arg-type]
        assert str(rounded(Decimal("2.5"), Decimal(1), mode)) == units  # type: ignore[arg-type]


def test_the_example_of_chargeable_time_is_what_is_charged(root: Path) -> None:
    first, other = r"(\d+) min are charged as (\d+) and cost ([\d.]+)", r", (\d+) as\s+(\d+) and ([\d.]+\d)"
    found = re.search(first + other + other, guide(root))
    assert found is not None
    keys = {
        "hour": "30.00",
        "first_hour": "50.00",
        "first_min": 60,
        "minimum_min": 60,
        "step_min": 30,
        "direction": "up",
    }
    rule = Labour.model_validate(keys)
    for worked, charged, price in zip(*[iter(found.groups())] * 3, strict=True):
        assert chargeable(int(worked), rule) == int(charged)
        assert sum(block.price for block in blocks(int(charged), rule)) == Decimal(price)
