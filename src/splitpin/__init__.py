"""Splitpin plans repairs: files about plant in, a proved order of work and its paper out."""

from pathlib import Path

__version__ = "0.1.0"


def data_top() -> Path:
    """The folder that holds the bundled data: inside the installed package, or the top of the checkout."""
    package = Path(__file__).parent
    installed = package / "_data"
    return installed if installed.is_dir() else package.parent.parent
