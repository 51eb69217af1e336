"""Everything that could have to come open, as one graph."""
