"""What visits really took, in one file."""

from splitpin.history.store import AlreadyThere, Store, StoreError, store
from splitpin.history.visit import PastVisit, past_visit

__all__ = ["AlreadyThere", "PastVisit", "Store", "StoreError", "past_visit", "store"]
