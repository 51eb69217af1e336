"""An assembly of the catalogue by its name, or the nearest name there is."""

from splitpin.cli.saying import usage
from splitpin.notices.nearest import nearest
from splitpin.records.assembly import Assembly
from splitpin.records.library import Library


def assembly_named(name: str, library: Library) -> Assembly:
    """The assembly; a name that is not there ends the command with the nearest one."""
    if name not in library.assemblies:
        near = nearest(name, library.assemblies)
        raise usage(f"there is no assembly {name}; {f'did you mean {near}?' if near else 'splitpin list shows them'}")
    return library.assemblies[name]
