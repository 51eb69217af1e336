"""A command run as its user runs it: in this process, where starting another would only take time."""

import os
import subprocess
import sys
from pathlib import Path

from typer.testing import CliRunner

from splitpin.cli.app import app

SPLITPIN = Path(sys.executable).parent / "splitpin"


def run(*words: object, seed: str | None = None) -> subprocess.CompletedProcess[str]:
    """What the command said and its exit code; with a hash seed, from a process of its own.

    An error that the command does not tell is raised.
    """
    said = [str(word) for word in words]
    if seed is not None:
        env = {**os.environ, "PYTHONHASHSEED": seed}
        return subprocess.run([SPLITPIN, *said], capture_output=True, text=True, check=False, env=env)
    done = CliRunner().invoke(app, said, prog_name="splitpin")
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        raise done.exception
    return subprocess.CompletedProcess(said, done.exit_code, done.stdout, done.stderr)
