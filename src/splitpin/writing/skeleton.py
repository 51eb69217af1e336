"""A new file to start from: what must be there, filled in, and what may be there, as comments."""

from collections.abc import Iterable

from splitpin.records.assembly import Assembly
from splitpin.records.job import JobFile, JobHead
from splitpin.records.procedure import Emergency
from splitpin.writing.canonical import canonical


def new_job(assembly: Assembly, reference: str, title: str, emergencies: Iterable[Emergency]) -> str:
    """A job on the assembly, to be completed: its tasks and symptoms stand as comments, ready to be uncommented.

    So do the questions about emergencies, which a caller is asked.
    """
    head = JobFile(format=1, job=JobHead(reference=reference, title=title, assembly=assembly.assembly.id))
    lines = [canonical(head).rstrip()]
    lines += ["# date = 2026-01-31", '# plant = "clean"    # clean, weathered or corroded']
    names = ", ".join(f'"{symptom.id}"' for symptom in assembly.symptom)
    lines += [f"# symptoms = [{names}]"] if names else []
    lines += [
        "",
        "# Of a caller's fault, asked before anything is planned; the answers are no, yes or unsure.",
        "# [asked]",
    ]
    lines += ['# by = ""', '# how = ""', "# at = 2026-01-31T09:00:00", "# [asked.answers]"]
    for row in emergencies:
        lines += [f"# {row.question}", f'# {row.id} = ""']
    lines += ["", "[site]", '# name = ""', '# address = ""', '# access = ""', '# contact = ""', '# notes = ""']
    lines += ["", "# What is asked for: take the # off where it applies."]
    for component in assembly.component:
        tasks = [*component.work, *(["replace"] if component.part and "replace" not in component.work else [])]
        for task in sorted(tasks):
            lines += ["", "# [[task]]", f'# do = "{task}"', f'# component = "{component.id}"    # {component.title}']
    return "\n".join(lines) + "\n"
