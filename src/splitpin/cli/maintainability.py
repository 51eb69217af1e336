"""`splitpin maintainability`."""

from splitpin.cli.arguments import AsJson, AssemblyId
from splitpin.cli.known import assembly_named
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors
from splitpin.reading.library import read_library
from splitpin.sheets.office.maintainability_text import maintainability_text
from splitpin.timing.maintainability import maintainability


def run(assembly: AssemblyId, as_json: AsJson = False) -> None:
    """Tell what an assembly takes to maintain: depth of its repairs, repair times, joints that go back."""
    library, notices = read_library()
    assembly_named(assembly, library)
    say(notices)
    stop_on_errors(notices)
    figures = maintainability(assembly, library)
    answer_json(figures) if as_json else answer(maintainability_text(figures))
