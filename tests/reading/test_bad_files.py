"""Every bad file is told exactly what stands beside it.

A case is a file or folder of `tests/cases/bad/` with what is printed about it in `NAME.expected`, read beside the small
library. A case whose file is not there is about a missing file.
"""

import ast
from pathlib import Path

import pytest
from tests.reading import test_actual, test_source

from splitpin import reading
from splitpin.notices import CODES, in_order, render
from splitpin.reading.check import check_paths
from splitpin.reading.folders import source_text

BAD = Path(__file__).resolve().parent.parent / "cases" / "bad"
CASES = sorted(path.stem for path in BAD.glob("*.expected"))

# What no file of a checkout can show; the test that shows it.
SHOWN_ELSEWHERE = {
    "file-unreadable": test_source.test_a_folder_is_no_file,
    "json-syntax": test_actual.test_text_that_is_no_json_is_told_with_its_place,
    "other-job": test_actual.test_a_visit_of_another_job_or_plant_is_told,
}


def _target(case: str) -> Path:
    return Path(case) if (BAD / case).is_dir() else Path(f"{case}.toml")


@pytest.mark.parametrize("case", CASES)
def test_a_bad_file_is_told(case: str, small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(BAD)
    notices = check_paths([_target(case)])
    assert render(notices, source_text) == (BAD / f"{case}.expected").read_text(encoding="utf-8")
    assert notices == in_order(notices)


def test_every_bad_file_has_its_expected_text() -> None:
    files = {path.stem for path in BAD.iterdir() if path.suffix == ".toml" or path.is_dir()} - {"firm"}
    assert files | {"no-such-file"} == set(CASES)


def test_every_code_that_reading_can_give_is_shown(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(BAD)
    shown = {notice.code for case in CASES for notice in check_paths([_target(case)])}
    assert _codes_of_reading() == shown | set(SHOWN_ELSEWHERE)


def _codes_of_reading() -> set[str]:
    """The codes that stand as text anywhere in the room's modules."""
    assert reading.__file__ is not None
    modules = [ast.parse(path.read_text(encoding="utf-8")) for path in Path(reading.__file__).parent.glob("*.py")]
    texts = {node.value for module in modules for node in ast.walk(module) if isinstance(node, ast.Constant)}
    return {text for text in texts if isinstance(text, str) and text in CODES}
