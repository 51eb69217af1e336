"""A document as PDF: the same page that the browser prints, tagged for screen readers (ISO 14289-1, PDF/UA-1)."""

import gc


class NoPdf(Exception):
    """PDF cannot be written here; the message says what to install."""


def pdf(html: str) -> bytes:
    """The document as PDF, the same bytes for the same text. Raises NoPdf where the extra `pdf` is not installed."""
    try:
        from weasyprint import HTML
    except ModuleNotFoundError as missing:
        message = f"PDF needs the extra pdf, and {missing.name} is not installed: pip install 'splitpin[pdf]'"
        raise NoPdf(message) from None
    except OSError:
        raise NoPdf("PDF needs the Pango text library (on Debian: apt install libpangoft2-1.0-0)") from None
    # Laying out makes a million objects and drops few: looking for rings among them takes a sixth of the time.
    collecting = gc.isenabled()
    gc.disable()
    try:
        document: bytes = HTML(string=html).write_pdf(pdf_variant="pdf/ua-1")
    finally:
        if collecting:
            gc.enable()
    return document
