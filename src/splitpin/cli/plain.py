"""Results as JSON has them: named rows as tables, tuples as lists."""

from dataclasses import fields, is_dataclass
from typing import Any


def plain(value: Any) -> Any:
    """A frozen dataclass or named tuple as a dictionary of its names, all the way down."""
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return {name: plain(inner) for name, inner in value._asdict().items()}
    if isinstance(value, tuple):
        return [plain(inner) for inner in value]
    return value
