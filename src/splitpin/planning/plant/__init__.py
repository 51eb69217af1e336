"""The plant of one visit, looked up, and the names of all that is done to it."""
