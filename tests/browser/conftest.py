"""A real browser: the system's Chromium driven by playwright. Skipped, with the reason, where there is none."""

import shutil
from collections.abc import Iterator
from typing import Any

import pytest

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    sync_api = pytest.importorskip(
        "playwright.sync_api", reason="playwright is not installed; it comes with the extra test"
    )
    if CHROMIUM is None:
        pytest.skip("no chromium on this machine")
    with sync_api.sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield chromium
        chromium.close()
