"""A small sound library in place of the bundled one, so that these tests stand whatever the catalogue holds."""

from pathlib import Path

import pytest

from splitpin.reading import folders

SMALL = Path(__file__).resolve().parent.parent / "cases" / "small"


@pytest.fixture
def small(monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of the small library, which stands in for the bundled one."""
    monkeypatch.setattr(folders, "data_top", lambda: SMALL)
    return SMALL
