"""Notices and the places they point at."""

from splitpin.notices.codes import CODES, Code
from splitpin.notices.notice import Notice, Severity, has_errors, in_order
from splitpin.notices.place import NOWHERE, Place

__all__ = ["CODES", "NOWHERE", "Code", "Notice", "Place", "Severity", "has_errors", "in_order"]
