"""A document as PDF: the same page that the browser prints, tagged for screen readers (ISO 14289-1, PDF/UA-1)."""

import ctypes.util
import gc
import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from xml.etree.ElementTree import Element, ParseError, fromstring


class NoPdf(Exception):
    """PDF cannot be written here; the message says what to install."""


def pdf(html: str) -> bytes:
    """The document as PDF, the same bytes for the same text. Raises NoPdf where the extra `pdf` is not installed."""
    with _no_rings_sought():
        try:
            with _libraries_by_file():
                from weasyprint import HTML
        except ModuleNotFoundError as missing:
            message = f"PDF needs the extra pdf, and {missing.name} is not installed: pip install 'splitpin[pdf]'"
            raise NoPdf(message) from None
        except OSError:
            raise NoPdf("PDF needs the Pango text library (on Debian: apt install libpangoft2-1.0-0)") from None
        root = tree(html)
        page = HTML(string=html if root is None else "")
        if root is not None:
            page.wrapper_element = page.wrapper_element.from_html_root(root, content_language=None)
            page.etree_element = root
        document: bytes = page.write_pdf(pdf_variant="pdf/ua-1")
    return document


def tree(html: str) -> Element | None:
    """The elements of one of our own pages, as an HTML parser gives them; None where it is not well formed.

    Our pages are XML but for a few tags that need no end and the name space of figures, and the XML reader takes a
    twentieth of the time of the HTML reader that WeasyPrint uses.
    """
    closed = re.sub(r"<((?:br|img|meta)\b[^>]*)>", r"<\1/>", html)
    try:
        return fromstring(closed.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" '))
    except ParseError:
        return None


@contextmanager
def _no_rings_sought() -> Iterator[None]:
    """Laying out makes a million objects and drops few: looking for rings among them takes a sixth of the time, and as
    long again when the process ends. So what a document leaves behind is set aside until the next one is begun.
    """
    collecting = gc.isenabled()
    gc.disable()
    gc.unfreeze()
    try:
        yield
    finally:
        gc.freeze()
        if collecting:
            gc.enable()


@contextmanager
def _libraries_by_file() -> Iterator[None]:
    """WeasyPrint tries the names of each library on one system after the other. On Linux the file's own name is among
    them and needs no search, while each of the others is sought with the C compiler and the linker: 0.2 s for nothing.
    """
    search = ctypes.util.find_library
    if sys.platform == "linux":
        ctypes.util.find_library = lambda name: None
    try:
        yield
    finally:
        ctypes.util.find_library = search
