"""What the job notes on a task stands on the plan with that task, refused or not."""

from tests.planning.test_licences import CLOSED, FIRM, LIBRARY

from splitpin.planning import plan_visit
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import TaskNote


def noted(assembly: str, *tasks: dict[str, str]) -> tuple[TaskNote, ...]:
    job = {"format": 1, "job": {"reference": "T", "title": "-", "assembly": assembly, "people": 2}, "task": tasks}
    return plan_visit(Visit(JobFile.model_validate(job), FIRM, LIBRARY)).plan.task_notes


def test_a_note_stands_with_its_component_or_joint() -> None:
    notes = noted(
        "circulator-set",
        {"do": "inspect", "component": "pump"},
        {"do": "renew-seal", "joint": "motor-head-screws", "note": "weeps when hot"},
        {"do": "replace", "component": "motor-head", "note": "grating bearing"},
    )
    assert notes == (
        TaskNote(task="renew the seal of the motor head screws", note="weeps when hot"),
        TaskNote(task="replace the motor head", note="grating bearing"),
    )


def test_a_note_on_a_role_stands_with_all_that_have_it_and_twice_asked_is_noted_twice() -> None:
    notes = noted(
        "circulator-set",
        {"do": "replace", "role": "pump-head", "note": "grating bearing"},
        {"do": "replace", "component": "motor-head", "note": "take the quiet one"},
    )
    assert [(row.task, row.note) for row in notes] == [
        ("replace the motor head", "grating bearing"),
        ("replace the motor head", "take the quiet one"),
    ]


def test_a_note_on_a_refused_task_is_kept() -> None:
    assembly, component, task = CLOSED[0]
    (note,) = noted(assembly, {"do": task, "component": component, "note": "hums"})
    assert note.note == "hums" and note.task.startswith(task.replace("-", " "))
