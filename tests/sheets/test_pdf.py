"""A document as PDF: what stands in the file, and what is done to write it."""

import subprocess
import sys
from collections.abc import Iterator
from xml.etree.ElementTree import Element

import pytest
from tests.sheets.every_page import JOBS, pages, planned

from splitpin.sheets.press.pdf import pdf, tree

PAGE = "<!DOCTYPE html><html lang='en'><head><title>One page</title></head><body><p>Close the valve.</p></body></html>"
STARTED = """
import sys
started = []
sys.addaudithook(lambda event, given: started.append(given) if event in {"subprocess.Popen", "os.system"} else None)
from splitpin.sheets.press.pdf import pdf
pdf(sys.argv[1])
sys.exit(str(started) if started else 0)
"""

pytest.importorskip("weasyprint", reason="the extra pdf is not installed")


def elements(root: Element) -> Iterator[tuple[str, dict[str, str], str, str]]:
    """Every element below the root in order: name, attributes, text in it and after it, blanks between blocks aside."""
    for element in root.iter():
        if isinstance(element.tag, str) and element is not root:
            yield element.tag, dict(element.attrib), (element.text or "").strip("\n"), (element.tail or "").strip("\n")


@pytest.mark.parametrize("text", ["as found", "<br> & 'x' \"y\" ]]> <svg a>"])
@pytest.mark.parametrize("job", ["heater-annual-service", "boiler-lockout"])
def test_each_document_is_read_as_the_html_parser_reads_it(job: str, text: str) -> None:
    tinyhtml5 = pytest.importorskip("tinyhtml5")
    for name, html in pages(planned(JOBS / f"{job}.toml"), text=text).items():
        if name != "pocket sheet":  # it is for the telephone, never for PDF
            root = tree(html)
            assert root is not None, name
            parsed = tinyhtml5.parse(html, namespace_html_elements=False)
            assert list(elements(root)) == list(elements(parsed)), name


def test_page_with_a_character_that_xml_does_not_have_is_written_too() -> None:
    html = PAGE.replace("valve", "valve\uffff")
    assert tree(html) is None
    assert pdf(html).startswith(b"%PDF-1.7")


def test_same_text_gives_the_same_bytes() -> None:
    assert pdf(PAGE) == pdf(PAGE)


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere a library's file name is sought by its short name")
def test_no_other_program_is_started_to_find_libraries() -> None:
    done = subprocess.run([sys.executable, "-c", STARTED, PAGE], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
