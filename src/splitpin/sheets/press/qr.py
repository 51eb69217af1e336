"""A part number as a QR code (ISO/IEC 18004), drawn into the page as SVG."""

from functools import cache

QUIET = 4  # modules of white around it; ISO/IEC 18004, from memory


@cache
def qr_svg(text: str) -> str:
    """The inline SVG of `text`, of error level M, to be scaled by the style sheet. Loads segno when first asked."""
    import segno

    code = segno.make(text, error="m", micro=False, boost_error=False)
    return str(code.svg_inline(scale=1, border=QUIET, omitsize=True, svgclass="qr", lineclass=None))
