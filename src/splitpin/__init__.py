"""Splitpin plans repairs: files about plant in, a proved order of work and its paper out."""

__version__ = "0.1.0"
