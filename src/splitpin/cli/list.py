"""`splitpin list`."""

from splitpin.cli.arguments import AsJson
from splitpin.cli.saying import answer, answer_json, say, stop_on_errors
from splitpin.reading.library import read_library
from splitpin.units import counted


def run(as_json: AsJson = False) -> None:
    """List the assemblies of the catalogue and the job templates."""
    library, notices = read_library()
    say(notices)
    assemblies = [
        {
            "id": a.assembly.id,
            "title": a.assembly.title,
            "size": f"{counted(len(a.component), 'component')}, {counted(len(a.joint), 'joint')}",
        }
        for a in library.assemblies.values()
    ]
    templates = [{"id": t.template.id, "title": t.template.title} for t in library.templates.values()]
    if as_json:
        answer_json({"assemblies": assemblies, "templates": templates})
    else:
        answer("Assemblies")
        for row in assemblies:
            answer(f"  {row['id']}\n      {row['title']} ({row['size']})")
        answer("\nJob templates")
        for row in templates:
            answer(f"  {row['id']}\n      {row['title']}")
    stop_on_errors(notices)
