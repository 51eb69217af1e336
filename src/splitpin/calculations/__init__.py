"""Calculated readings: from what was read on the plant to the figure that is held against a limit."""
