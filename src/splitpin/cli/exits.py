"""The exit codes, and leaving with the one that a search's end calls for."""

FINE = 0
ERRORS = 1  # files or plan have errors
USAGE = 2
UNPROVED = 3  # stopped at a limit without proof

_OF_STATUS = {"proved": FINE, "impossible": ERRORS, "bounded": UNPROVED}


def leave(status: str) -> None:
    """End the command as the status of what it gave calls for; do nothing where that is proved."""
    if code := _OF_STATUS[status]:
        raise SystemExit(code)
