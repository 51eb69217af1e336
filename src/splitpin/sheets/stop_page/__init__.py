"""The stop page: what is printed where a report speaks of an emergency."""
