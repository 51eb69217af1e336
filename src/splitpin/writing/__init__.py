"""From records to TOML text."""

from splitpin.writing.canonical import canonical
from splitpin.writing.skeleton import new_job

__all__ = ["canonical", "new_job"]
