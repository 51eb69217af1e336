"""`splitpin show`."""

from splitpin.cli.arguments import AsJson, AssemblyId
from splitpin.cli.known import assembly_named
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors
from splitpin.reading.library import read_library
from splitpin.sheets.catalogue.assembly_text import assembly_text


def run(assembly: AssemblyId, as_json: AsJson = False) -> None:
    """Show an assembly: circuits, components, joints, tasks, symptoms."""
    library, notices = read_library()
    found = assembly_named(assembly, library)
    say(notices)
    answer_json(found.model_dump(mode="json")) if as_json else answer(assembly_text(found))
    stop_on_errors(notices)
