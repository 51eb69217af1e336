"""From TOML and CSV text to records and notices."""

from splitpin.reading.check import check_paths
from splitpin.reading.library import read_library
from splitpin.reading.prices import PRICES, read_prices
from splitpin.reading.round import read_round, read_van
from splitpin.reading.stock import read_stock
from splitpin.reading.visit import read_visit
from splitpin.records.folders import data_folders, source_text

__all__ = [
    "PRICES",
    "check_paths",
    "data_folders",
    "read_library",
    "read_prices",
    "read_round",
    "read_stock",
    "read_van",
    "read_visit",
    "source_text",
]
