"""`splitpin maintainability`."""

import difflib

from splitpin.cli.saying import answer, answer_json, say, stop_on_errors, usage
from splitpin.hardware.unreadable import unreadable
from splitpin.reading.library import read_library
from splitpin.timing.maintainability import maintainability


def run(name: str, *, as_json: bool) -> None:
    """Print how deep an assembly's repairs lie, how long they take, and whether its joints go back."""
    library, notices = read_library()
    if name not in library.assemblies:
        near = difflib.get_close_matches(name, library.assemblies, n=1)
        hint = f"did you mean {near[0]}?" if near else "splitpin list shows what there is"
        raise usage(f"there is no assembly {name}; {hint}")
    assembly = library.assemblies[name]
    notices = (*notices, *unreadable(assembly, library))
    say(notices)
    stop_on_errors(notices)
    figures = maintainability(name, library)
    if as_json:
        from splitpin.cli.plain import plain

        answer_json(plain(figures))
    else:
        from splitpin.sheets.maintainability_text import maintainability_text

        answer(maintainability_text(figures))
