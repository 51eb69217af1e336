"""Frozen records of what files say."""
