"""The documents of the hand-written plan, compared whole."""

import pytest
from tests.sheets.golden import FOLDER, documents


@pytest.mark.parametrize("name", sorted(documents()))
def test_document_is_the_one_that_was_read_and_kept(name: str) -> None:
    assert documents()[name] == (FOLDER / name).read_text(encoding="utf-8")


def test_no_golden_document_is_left_over() -> None:
    assert sorted(path.name for path in FOLDER.iterdir()) == sorted(documents())
