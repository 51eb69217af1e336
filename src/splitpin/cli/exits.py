"""The exit codes."""

FINE = 0
ERRORS = 1  # files or plan have errors
USAGE = 2
UNPROVED = 3  # stopped at a limit without proof
