"""The entry point of the installed command."""

import os
import sys
from pathlib import Path

FLAGS = ("--json", "--why")


def main() -> None:
    """Run the command that the arguments name.

    `splitpin plan JOB`, said most often, does without the command line's library: to read a path that one loads more
    than a plan takes. Whatever else is said with it, options spelt otherwise or help, goes the usual way.
    """
    command, *words = sys.argv[1:] or ["--help"]
    jobs = [word for word in words if word not in FLAGS]
    if command == "plan" and len(jobs) == 1 and not jobs[0].startswith("-"):
        _plan(jobs[0], as_json="--json" in words, why="--why" in words)
    else:
        from splitpin.cli.app import app

        app()


def _plan(job: str, *, as_json: bool, why: bool) -> None:
    from splitpin.cli.plan import run

    try:
        run(Path(job), as_json=as_json, why=why, seconds=None)
        sys.stdout.flush()
    except KeyboardInterrupt:
        sys.exit(130)  # as the shell counts Ctrl-C
    except BrokenPipeError:  # whoever reads has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
