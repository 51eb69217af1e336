"""What a command keeps for the next one: in a folder that may be deleted at any time."""

from __future__ import annotations

import os
import pickle
import sys
from pathlib import Path

VARIABLE = "SPLITPIN_CACHE"  # a folder of the user's choice; empty: nothing is kept


def cache_folder() -> Path | None:
    """Where things are kept: what the environment says, else the user's cache folder; None for nowhere."""
    chosen = os.environ.get(VARIABLE)
    if chosen is not None:
        return Path(chosen) if chosen else None
    try:
        home = Path.home()
    except RuntimeError:  # there is no home
        return None
    if sys.platform == "win32":
        top = os.environ.get("LOCALAPPDATA")
        return Path(top, "splitpin", "cache") if top else None
    if sys.platform == "darwin":
        return home / "Library" / "Caches" / "splitpin"
    return Path(os.environ.get("XDG_CACHE_HOME") or home / ".cache") / "splitpin"


def keep_templates() -> None:
    """Have the templates of the documents compiled once: they take longer to compile than a sheet to write."""
    folder = cache_folder()
    if folder is None:
        return
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError:
        return
    if os.access(folder, os.W_OK):
        from jinja2.bccache import Bucket, FileSystemBytecodeCache

        from splitpin.sheets.paper import environment

        class Kept(FileSystemBytecodeCache):
            """A damaged file counts as none: the template is compiled anew."""

            def load_bytecode(self, bucket: Bucket) -> None:
                try:
                    super().load_bytecode(bucket)
                except (pickle.UnpicklingError, EOFError, ValueError, TypeError):
                    bucket.reset()

        environment().bytecode_cache = Kept(str(folder), "%s.template")
