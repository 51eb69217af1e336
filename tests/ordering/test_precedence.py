"""Numbering, cycles and lags that others make sure of."""

from splitpin.ordering.precedence import Precedence, bits, shortest_cycle, topological_order


def test_the_lowest_free_operation_comes_next():
    assert topological_order([((2, 0),), (), (), ((1, 0), (1, 5))]) == (1, 2, 0, 3)


def test_a_cycle_has_no_numbering():
    assert topological_order([((1, 0),), ((0, 0),)]) is None


def test_of_several_cycles_the_shortest_is_shown_in_the_order_of_work():
    after = [((3, 0),), ((0, 0),), ((1, 0), (4, 0)), ((2, 0),), ((2, 0),)]
    assert shortest_cycle(after) == (2, 4, 2)


def test_an_operation_that_waits_for_itself_is_a_cycle():
    assert shortest_cycle([(), ((1, 0),)]) == (1, 1)


def test_no_cycle_is_an_empty_one():
    assert shortest_cycle([(), ((0, 0),)]) == ()


def test_sets_are_read_lowest_first():
    assert list(bits(0b10110)) == [1, 2, 4]


def test_a_lag_is_left_out_where_a_chain_takes_as_long_anyway():
    """From 0: 100 s to 1, whose 20 s of work end at 120; so 120 s to 2 says nothing new, 130 s to 3 does."""
    after = [(), ((0, 100),), ((1, 0), (0, 120)), ((1, 0), (0, 130))]
    precedence = Precedence(after, (0, 1, 2, 3), (5, 20, 1, 1))
    assert precedence.lags == [(), ((0, 100),), (), ((0, 130),)]
    assert precedence.starters == 0b0001
    assert precedence.ancestors == [0, 0b0001, 0b0011, 0b0011]
    assert precedence.descendants == [0b1110, 0b1100, 0, 0]
