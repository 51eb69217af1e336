"""Quantities and money, each with its one rounding rule."""

from splitpin.units.quantities import SECONDS_PER_MINUTE, clock, counted, listed, number, seconds

__all__ = ["SECONDS_PER_MINUTE", "clock", "counted", "listed", "number", "seconds"]
