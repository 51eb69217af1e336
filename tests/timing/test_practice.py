"""Learning curves worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from splitpin.timing.practice import total_by_units, unit_time


def test_two_units_at_eighty_per_cent() -> None:
    assert total_by_units(100, 0.8, 2) == pytest.approx(180)


@given(rate=st.floats(min_value=0.6, max_value=1.0), units=st.integers(min_value=1, max_value=200))
def test_no_unit_takes_longer_than_the_one_before(rate: float, units: int) -> None:
    assert unit_time(30, rate, units + 1) <= unit_time(30, rate, units) + 1e-9
    assert units * unit_time(30, rate, units) <= total_by_units(30, rate, units) + 1e-6 <= 30 * units + 1e-5
