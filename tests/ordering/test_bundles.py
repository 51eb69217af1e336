"""Operations that go together, by hand; that the best order survives is shown against all orders elsewhere."""

from splitpin.ordering.bundles import Bundle, bundles


def test_screws_of_one_driver_and_the_panel_they_hold_are_one_visit():
    """Two screws (tools 1, place 0), then the panel (no tools, place 0)."""
    assert bundles([1, 1, -1], [0, 0, 0], [0, 0, 0b011]) == [Bundle(1, 0, 0, 0b111)]


def test_an_operation_nothing_waits_for_joins_a_later_one_of_its_kind():
    """0 and 2 have the same tools and place; 1 comes between 0's tools and 2; nothing waits for 0: it is put off."""
    assert bundles([1, 2, 1], [0, 0, 0], [0, 0, 0b010]) == [Bundle(2, 0, 0, 0b010), Bundle(1, 0, 0b01, 0b101)]


def test_operations_of_other_tools_or_with_work_between_stay_apart():
    """1 waits for 0 and 2 waits for 1, so 0 and 2 are two visits."""
    assert bundles([1, 2, 1], [0, 0, 0], [0, 0b001, 0b011]) == [
        Bundle(1, 0, 0, 0b001),
        Bundle(2, 0, 0b01, 0b010),
        Bundle(1, 0, 0b11, 0b100),
    ]
