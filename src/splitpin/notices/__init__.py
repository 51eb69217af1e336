"""Notices and the places they point at."""

from splitpin.notices.codes import CODES, Code
from splitpin.notices.notice import Notice, Severity, has_errors, in_order
from splitpin.notices.place import NOWHERE, Place
from splitpin.notices.render import render, render_json

__all__ = ["CODES", "NOWHERE", "Code", "Notice", "Place", "Severity", "has_errors", "in_order", "render", "render_json"]
