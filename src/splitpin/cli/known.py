"""An assembly by its name, or the nearest name there is."""

import difflib

from splitpin.cli.saying import usage
from splitpin.records.assembly import Assembly
from splitpin.records.library import Library


def assembly_named(name: str, library: Library) -> Assembly:
    """The assembly; a name that is not there ends the command with the nearest one."""
    if name not in library.assemblies:
        near = difflib.get_close_matches(name, library.assemblies, n=1)
        hint = f"did you mean {near[0]}?" if near else "splitpin list shows what there is"
        raise usage(f"there is no assembly {name}; {hint}")
    return library.assemblies[name]
