"""From TOML text to records and notices."""

from splitpin.reading.check import check_paths
from splitpin.reading.folders import data_folders, source_text
from splitpin.reading.library import read_library
from splitpin.reading.visit import read_visit

__all__ = ["check_paths", "data_folders", "read_library", "read_visit", "source_text"]
