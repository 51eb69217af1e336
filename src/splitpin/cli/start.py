"""The entry point of the installed command."""

import os
import sys
from collections.abc import Callable
from pathlib import Path

FLAGS = {"--json", "--why"}


def main() -> None:
    """Run the command that the arguments name.

    `splitpin plan JOB` and `splitpin sheet JOB --out FILE`, said most often, do without the command line's library: to
    read a path that one loads more than a plan takes. Whatever is said otherwise goes the usual way, errors as well.
    """
    match sys.argv[1:]:
        case ["plan", job, *flags] if _plain(job) and FLAGS.issuperset(flags):
            from splitpin.cli import plan

            _quickly(lambda: plan.run(Path(job), as_json="--json" in flags, why="--why" in flags, seconds=None))
        case ["sheet", job, "--out", out] if _plain(job, out):
            from splitpin.cli import sheet

            _quickly(lambda: sheet.run(Path(job), Path(out), paper="A4", pocket=False, language="en", seconds=None))
        case _:
            from splitpin.cli.app import app

            app()


def _plain(*words: str) -> bool:
    return not any(word.startswith("-") for word in words)


def _quickly(run: Callable[[], None]) -> None:
    try:
        run()
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(0)  # everything is written: to take apart what was loaded would only take longer
    except KeyboardInterrupt:
        sys.exit(130)  # as the shell counts Ctrl-C
    except BrokenPipeError:  # whoever reads has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
