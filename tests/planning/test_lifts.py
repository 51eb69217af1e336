"""Who lifts a heavy component, and why it says so: by mass, from the guideline filter.

The figures of the filter are tested against the reference data in tests/readings/test_lifting.py.
"""

from dataclasses import replace

import pytest
from tests.bundled import LIBRARY

from splitpin.calculations.people import best_guideline_kg
from splitpin.planning import plan_visit
from splitpin.planning.check import check_plan
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Library, Visit
from splitpin.records.plan import Plan, Step
from splitpin.sheets.step_sheet.terminal import plan_text

FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "test-firm", "title": "Test firm", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)


def planned(assembly: str, do: str, component: str, library: Library = LIBRARY, people: int = 2) -> Plan:
    head = {"reference": "T", "title": "-", "assembly": assembly, "people": people}
    job = JobFile.model_validate({"format": 1, "job": head, "task": [{"do": do, "component": component}]})
    visit = Visit(job, FIRM, library)
    plan = plan_visit(visit).plan
    assert check_plan(plan, visit) == ()
    return plan


def vessel_of(mass_kg: float) -> Library:
    """The catalogue with a vessel of another mass (carrying nothing)."""
    plant = LIBRARY.assemblies["expansion-vessel"]
    rows = [row.model_copy(update={"mass_kg": mass_kg}) if row.id == "vessel" else row for row in plant.component]
    return replace(LIBRARY, assemblies={"expansion-vessel": plant.model_copy(update={"component": tuple(rows)})})


def lifts(plan: Plan, component: str) -> tuple[Step, Step]:
    taken, fitted = (s for s in plan.steps if s.component == component and s.action in ("take", "fit"))
    return taken, fitted


def vessel(mass_kg: float) -> tuple[Step, Step]:
    return lifts(planned("expansion-vessel", "replace", "vessel", vessel_of(mass_kg)), "vessel")


def test_what_is_heavier_than_the_guideline_takes_two_people_or_an_aid_both_ways() -> None:
    for step in lifts(planned("expansion-vessel", "replace", "vessel"), "vessel"):
        assert step.people == 2
        assert step.lift is not None and step.lift.endswith(" kg: 2 people or a lifting aid")
        assert any("one person lifts at most 25 kg (men) or 16 kg (women)" in reason for reason in step.because)
        assert any("HSE guideline filter" in reason for reason in step.because)


OUTSIDE = ". Kneeling, cramped or with one hand: a second person or an aid."


@pytest.mark.parametrize(
    ("mass_kg", "people", "said"),
    [
        (1.0, 1, None),
        (10.0, 1, None),
        (12.0, 1, "one person only between shoulder and mid lower leg height, close to the body"),
        (
            14.0,
            1,
            "one person only between shoulder and mid lower leg height, close to the body "
            "(women: between elbow and knuckle height)",
        ),
        (
            18.0,
            1,
            "one person only between shoulder and mid lower leg height, close to the body "
            "(women: above their guideline of 16 kg)",
        ),
        (
            25.0,
            1,
            "one person only between elbow and knuckle height, close to the body "
            "(women: above their guideline of 16 kg)",
        ),
        (25.1, 2, "2 people or a lifting aid"),
        (50.1, 3, "3 people or a lifting aid"),
    ],
)
def test_the_band_of_heights_follows_from_the_mass(mass_kg: float, people: int, said: str | None) -> None:
    carried = sum(
        row.mass_kg or 0.5
        for row in vessel_of(0).assemblies["expansion-vessel"].component
        if row.carried_by == "vessel"
    )
    step, _ = vessel(mass_kg - carried)
    assert step.people == people
    expected = None if said is None else f"{mass_kg:g} kg: {said}" + (OUTSIDE if people == 1 else "")
    assert step.lift == expected


def test_people_that_the_catalogue_asks_for_are_put_down_to_it() -> None:
    step, _ = lifts(planned("roof-extract-fan", "replace", "cowl"), "cowl")
    assert step.lift == "9.5 kg: 2 people or a lifting aid"
    assert "the catalogue says" in step.because[0] and "roof-extract-fan.toml:" in step.because[0]


def test_what_is_only_moved_aside_is_lifted_by_nobody() -> None:
    plan = planned("floor-standing-boiler", "clean", "section-block")  # 18 kg on its hinge
    assert [step.lift for step in plan.steps if step.component == "front-door" and step.action == "take"] == [None]


def test_a_lift_beyond_every_row_of_handling_is_given_notice_of() -> None:
    library = replace(LIBRARY, handling=tuple(row for row in LIBRARY.handling if row.up_to_kg <= 25))
    plan = planned("expansion-vessel", "replace", "vessel", library)
    (notice,) = [notice for notice in plan.notices if notice.code == "no-handling"]
    assert notice.severity == "warning"
    assert "is heavier than every row of handling (25 kg at most)" in notice.message
    assert notice.path.endswith("expansion-vessel.toml") and notice.line


def test_within_the_rows_there_is_no_such_notice() -> None:
    assert not [
        n for n in planned("floor-standing-boiler", "clean", "section-block").notices if n.code == "no-handling"
    ]


def test_no_row_of_handling_leaves_more_to_one_person_than_the_filter() -> None:
    assert all(row.up_to_kg <= best_guideline_kg("men") for row in LIBRARY.handling if row.people == 1)
    assert any(row.up_to_kg == best_guideline_kg("men") for row in LIBRARY.handling if row.people == 1)


def test_too_few_people_are_warned_of() -> None:
    alone = planned("expansion-vessel", "replace", "vessel", people=1)
    assert [notice.severity for notice in alone.notices if notice.code == "too-few-people"] == ["warning"]
    both = planned("expansion-vessel", "replace", "vessel", people=2)
    assert [notice.severity for notice in both.notices if notice.code == "two-people"] == ["note"]


def test_the_terminal_says_who_lifts() -> None:
    text = " ".join(plan_text(planned("expansion-vessel", "replace", "vessel")).split())
    assert "kg: 2 people or a lifting aid" in text
