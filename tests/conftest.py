"""What every test may ask for: the reference folder beside the checkout, and the benchmark switch."""

from pathlib import Path

import pytest
from tests.examples import firm_in

ROOT = Path(__file__).resolve().parent.parent


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--benchmark", action="store_true", help="also run the tests that measure time")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("--benchmark"):
        return
    skip = pytest.mark.skip(reason="measures time: run with --benchmark")
    for item in items:
        if "benchmark" in item.keywords:
            item.add_marker(skip)


@pytest.fixture(scope="session")
def root() -> Path:
    """The top of the checkout."""
    return ROOT


@pytest.fixture
def firm(tmp_path: Path) -> Path:
    """The folder of a firm, to be changed: the fictional one, copied."""
    return firm_in(tmp_path)


@pytest.fixture(scope="session")
def reference() -> Path:
    """The folder of published reference data beside the checkout; the test is skipped where it is absent."""
    folder = ROOT.parent / "shared" / "reference"
    if not folder.is_dir():
        pytest.skip("the reference data folder is not beside this checkout")
    return folder
