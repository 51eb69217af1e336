"""Compression joints by the temper of the tube."""

import pytest

from splitpin.hardware.pipe import compression_joint


def test_soft_tube_wants_a_liner() -> None:
    assert compression_joint(15, "R220").liner
    assert not compression_joint(15).liner


def test_harder_tube_takes_fewer_turns() -> None:
    for tube in (6, 8, 10, 12, 15, 18, 22, 28, 35, 42, 54):
        half, hard = compression_joint(tube, "R250").turns, compression_joint(tube, "R290").turns
        assert half is not None
        assert hard is not None
        assert hard < half


def test_what_the_table_does_not_have_is_none_not_a_guess() -> None:
    assert compression_joint(12).torque_nm is None
    assert compression_joint(28, "R220").turns is None
    with pytest.raises(KeyError):
        compression_joint(16)
