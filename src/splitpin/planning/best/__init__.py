"""Which opening, in which order."""
