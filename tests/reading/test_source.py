"""Bytes become text, or a notice says why not."""

from pathlib import Path

import pytest

from splitpin.notices import Place, render
from splitpin.reading.check import check_paths
from splitpin.reading.document import read_document
from splitpin.reading.folders import source_text
from splitpin.reading.source import Source, read_source
from splitpin.reading.visit import read_visit


def _read(tmp_path: Path, content: bytes) -> Source:
    file = tmp_path / "file.toml"
    file.write_bytes(content)
    source = read_source(file, "file.toml")
    assert isinstance(source, Source)
    return source


def test_line_ends_of_any_machine_are_read(tmp_path: Path) -> None:
    assert _read(tmp_path, b"a = 1\r\nb = 2\r\n").text == "a = 1\nb = 2\n"


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    assert _read(tmp_path, b"\xef\xbb\xbfa = 1\n").text == "a = 1\n"


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_the_first_byte_that_is_not_utf8_has_its_place(tmp_path: Path, mark: bytes) -> None:
    file = tmp_path / "file.toml"
    file.write_bytes(mark + "a = 1\r\nb = '½".encode() + b"\xff\xfe'\r\n")
    notice = read_source(file, "file.toml")
    assert not isinstance(notice, Source)
    assert notice.place == Place("file.toml", 2, 7)
    assert notice.message == "byte 0xFF is not UTF-8 text"


def test_a_folder_is_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("job.toml").mkdir()
    visit, notices = read_visit(Path("job.toml"))
    assert visit is None
    assert render(notices, source_text) == "job.toml: error[file-unreadable]: this is a folder, not a file\n"


def test_a_file_that_cannot_be_opened_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("loop.toml").symlink_to("loop.toml")
    notices = check_paths([Path(".")])
    assert [(notice.code, notice.place) for notice in notices] == [("file-unreadable", Place("loop.toml"))]


def test_places_in_a_file_with_windows_line_ends_are_those_of_the_lines(
    small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("parts.toml").write_bytes(b'\xef\xbb\xbfformat = 1\r\n\r\n[[part]]\r\nid = "elbow"\r\n\ttitle\t= 5\r\n')
    assert render(check_paths([Path("parts.toml")]), source_text) == (
        "parts.toml:5:10: error[wrong-kind]: `title` is 5; it must be text in quotes\n"
        '  hint: write title = "5"\n'
        "  \ttitle\t= 5\n"
        "  \t     \t  ^\n"
    )


def test_a_number_too_long_for_python_is_told_with_its_place(tmp_path: Path) -> None:
    """Python refuses to make a number of more digits than `sys.get_int_max_str_digits`, to keep it quick."""
    job = tmp_path / "job.toml"
    job.write_text(f"format = 1\n[job]\npeople = {'7' * 4_301}\n", encoding="utf-8")
    document, notices = read_document(job, "job.toml")
    assert document is not None
    assert [(one.code, str(one.place), one.place.column) for one in notices] == [("toml-syntax", "job.toml:3", 10)]
