"""Documents: a plan on paper and on the terminal. Each is imported by its own name, so that each starts quickly."""
