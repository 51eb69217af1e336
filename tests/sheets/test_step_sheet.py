"""The step sheet as a page: self-contained, in its order, and proof against the text it prints."""

import subprocess
import sys
from dataclasses import asdict, replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter
from tests.sheets.circulator import FIRM, JOB, PLAN, STEPS
from tests.sheets.page import Page

from splitpin.records.job import JobFile, Site
from splitpin.records.plan import Plan, PlanCalculation, PlanFigure, PlanInput, PlanReading
from splitpin.sheets.press.wording import visible
from splitpin.sheets.step_sheet.sheet import step_sheet

HOSTILE = (
    "</style><script>alert(1)</script>\"'&amp; {{ 7 * 7 }} {% raw %} <!-- \\22 } \u202eright to left\u202c \x00\x1b[2J"
)


def test_page_is_well_formed_and_loads_nothing() -> None:
    text = step_sheet(PLAN, JOB, FIRM)
    page = Page(text)
    assert page.references == []
    assert not {"script", "link", "img", "iframe", "object", "base"} & set(page.elements)
    assert "url(" not in page.style
    assert "@import" not in page.style
    assert "http" not in text


def test_parts_of_the_sheet_stand_in_the_order_of_the_open_standards() -> None:
    words = Page(step_sheet(PLAN, JOB, FIRM)).words
    order = [
        "Example Heating & Plant",
        "replace the motor head inspect the volute Replace the motor head: Old head grates & <hums>. Plant Circulator",
        "The maker's instructions, local codes and licensed persons come first.",
        "Not to be done on this visit Repair the inverter's sealed module Only a person certified",
        "What must hold Electrically dead",
        "Tools padlock",
        "Consumables 2 × lint-free wipe",
        "Seals and parts 1 × circulator head",
        "Only if the inspection says so 2 × spacer seal",
        "Safety messages DANGER",
        "Steps",
        "Proofs Reading",
        "Close-out",
        "Why each step",
    ]
    places = [words.index(part) for part in order]
    assert places == sorted(places)


def test_front_messages_stand_gravest_first() -> None:
    words = Page(step_sheet(PLAN, JOB, FIRM)).words
    front = words[words.index("Safety messages") : words.index("What to do")]
    places = [front.index(word) for word in ("DANGER", "WARNING", "CAUTION", "NOTICE")]
    assert places == sorted(places)


def test_safety_message_stands_between_the_step_before_and_the_step_it_guards() -> None:
    words = Page(step_sheet(PLAN, JOB, FIRM)).words
    running = words[words.index("What to do") :]
    for earlier, step in pairwise(STEPS):
        for caution in step.cautions:
            place = running.index(f"{caution.word} {caution.text}")
            assert running.index(f"{earlier.n} {earlier.text}") < place < running.index(f"{step.n} {step.text}")


def test_empty_lists_are_said_to_be_empty() -> None:
    lists = ("refused", "conditions", "tools", "parts", "cautions", "proofs", "licences", "notices", "steps")
    bare = replace(PLAN, **dict.fromkeys(lists, ()))
    words = Page(step_sheet(bare, JOB, FIRM)).words
    for heading in (
        "Who may do it",
        "What must hold",
        "Tools",
        "Consumables",
        "Seals and parts",
        "Safety messages",
        "Proofs",
    ):
        assert f"{heading} None" in words
    assert "Not to be done on this visit" not in words


def test_impossible_plan_prints_its_reasons_and_no_steps() -> None:
    error = replace(PLAN.notices[0], severity="error", message="nothing frees the pump", hint="Look.")
    nothing = replace(PLAN, status="impossible", steps=(), proofs=(), notices=(error,))
    words = Page(step_sheet(nothing, JOB, FIRM)).words
    assert "Plan proved impossible" in words
    assert "No plan can be made: proved impossible nothing frees the pump Look." in words
    assert "What to do" not in words


def test_error_that_leaves_the_plan_standing_is_still_in_the_engineers_way() -> None:
    error = replace(PLAN.notices[0], severity="error", message="too few people", hint="Bring one.")
    words = Page(step_sheet(replace(PLAN, notices=(error,)), JOB, FIRM)).words
    assert "Put right before work begins too few people Bring one. Not to be done on this visit" in words


def test_reading_without_a_limit_asks_for_one() -> None:
    words = Page(step_sheet(PLAN, JOB, FIRM)).words
    assert "Resistance to earth limit not set: enter from your standard Ask the owner Ω" in words
    assert "Drop in ten minutes at most 0.05 bar as for pressure, cold bar" in words
    assert "Water temperature for the record °C" in words
    assert "Air seen at the vent yes or no yes no" in words


def test_what_the_plan_and_the_job_say_is_on_the_sheet() -> None:
    words = Page(step_sheet(PLAN, JOB, FIRM)).words
    texts = [step.text for step in PLAN.steps]
    texts += [tool.title for tool in PLAN.tools]
    texts += [part.title for part in PLAN.parts]
    texts += [proof.failure for proof in PLAN.proofs]
    texts += [step.record for step in PLAN.steps if step.record]
    texts += [reason for step in PLAN.steps for reason in step.because]
    texts += [text for text in JOB.site.model_dump().values() if text]
    for text in texts:
        assert " ".join(text.split()) in words


def test_hostile_text_in_every_field_of_a_job_and_a_plan_is_only_text() -> None:
    plan = TypeAdapter(Plan).validate_python(_poisoned(asdict(PLAN)))
    head = JOB.job.model_copy(update={"reference": HOSTILE, "title": HOSTILE})
    job = JobFile(
        format=1, job=head, site=Site(name=HOSTILE, address=HOSTILE, access=HOSTILE, contact=HOSTILE, notes=HOSTILE)
    )
    firm = FIRM.model_copy(update={"firm": FIRM.firm.model_copy(update={"title": HOSTILE, "phone": HOSTILE})})
    page = Page(step_sheet(plan, job, firm))
    plain = Page(step_sheet(PLAN, JOB, FIRM))
    assert set(page.elements) == set(plain.elements)
    assert page.references == []
    assert " ".join(visible(HOSTILE).split()) in page.words
    assert page.style.split('content: "')[2:] == plain.style.split('content: "')[2:]


def _poisoned(value: object, key: str = "") -> object:
    """Every free text of a dumped plan replaced; ids, choices and numbers kept."""
    if isinstance(value, dict):
        return {name: _poisoned(item, name) for name, item in value.items()}
    if isinstance(value, list | tuple):
        return [_poisoned(item, key) for item in value]
    free = ("job", "title", "assembly_title", "tasks", "task", "reason", "text", "record", "because", "failure")
    return (
        HOSTILE
        if isinstance(value, str) and key in (*free, "person", "message", "hint", "unit", "source", "note")
        else value
    )


@settings(max_examples=30, deadline=None)
@given(st.text(min_size=1, max_size=200))
def test_any_title_appears_as_it_is(title: str) -> None:
    page = Page(step_sheet(replace(PLAN, title=title), JOB, FIRM))
    assert " ".join(visible(title).split()) in page.words


def test_ten_thousand_letters_without_a_blank_are_printed_whole() -> None:
    long = "x" * 10_000
    page = Page(step_sheet(replace(PLAN, job=long), JOB, FIRM))
    assert long in page.words
    assert long not in page.style


def test_paper_is_a4_or_letter_and_nothing_else() -> None:
    assert "size: A4;" in step_sheet(PLAN, JOB, FIRM)
    assert "size: Letter;" in step_sheet(PLAN, JOB, FIRM, paper="Letter")
    with pytest.raises(ValueError, match="paper is 'A5'; it can be A4 or Letter"):
        step_sheet(PLAN, JOB, FIRM, paper="A5")  # type: ignore[arg-type]


def test_job_without_site_or_date_leaves_room_for_them() -> None:
    job = JobFile(format=1, job=JOB.job.model_copy(update={"date": None}))
    words = Page(step_sheet(PLAN, job, FIRM)).words
    assert "Date Site Contact Access People 2 people" in words


def test_template_library_is_loaded_only_when_a_sheet_is_made() -> None:
    code = "import sys, splitpin.sheets; sys.exit('jinja2' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_each_value_that_is_written_down_has_its_own_line() -> None:
    step = replace(PLAN.steps[0], record="L-N / L-E / N-E in volts")
    text = step_sheet(replace(PLAN, steps=(step, *PLAN.steps[1:])), JOB, FIRM)
    for blank in ("L-N", "L-E", "N-E in volts"):
        assert f'<span class="fill label">{blank}</span>' in text


def test_words_get_more_room_than_a_figure() -> None:
    proof = PLAN.proofs[0]
    readings = tuple(
        PlanReading(id=f"r{number}", title=title, unit=unit)
        for number, (title, unit) in enumerate(
            (("Modes", "list"), ("Current of L1 / L2 / L3", "A"), ("Pressure", "bar"))
        )
    )
    one = replace(proof, readings=readings)
    page = step_sheet(replace(PLAN, proofs=(one,)), JOB, FIRM)
    assert page.count('<span class="cell wide">') == page.count('<span class="cell large">') == 1
    assert page.count('<span class="cell">') == 1


def test_a_calculation_has_a_box_for_each_input_that_is_not_known() -> None:
    calculation = PlanCalculation(
        name="charge",
        title="charge of the vessel",
        inputs=(
            PlanInput(name="static_m", title="height", unit="m", allowed="0 to 60 m"),
            PlanInput(name="rule", title="rule", unit="", allowed="a or b", value="a", by_default=True),
        ),
        figures=(PlanFigure(title="charge", unit="bar"), PlanFigure(title="fill", unit="bar", value="1.10")),
        formula="static / 10 + 0.3",
        source="a book",
    )
    text = step_sheet(replace(PLAN, calculations=(calculation,)), JOB, FIRM)
    page = Page(text)
    assert "Worked out for this job Work out: Charge of the vessel" in page.words
    assert "Rule rule a (usual)" in page.words and "Fill 1.10 bar" in page.words
    assert "Formula: static / 10 + 0.3. Source: a book" in page.words
    worked = text[text.index("Worked out for this job") :]
    assert worked.count('<span class="cell">') == 2


def test_a_heavy_lift_says_who_lifts() -> None:
    (heavy,) = [step for step in PLAN.steps if step.people == 2]
    assert "<span>2 people</span>" in step_sheet(PLAN, JOB, FIRM)
    step = replace(heavy, lift="38 kg: 2 people or a lifting aid")
    steps = tuple(step if one.n == step.n else one for one in PLAN.steps)
    page = step_sheet(replace(PLAN, steps=steps), JOB, FIRM)
    assert '<p class="lift">38 kg: 2 people or a lifting aid</p>' in page
    assert "<span>2 people</span>" not in page


def test_who_ruled_an_emergency_out_is_said_once() -> None:
    told = replace(PLAN, ruled_out="A. Fell, by telephone")
    assert "Ruled out Emergency: A. Fell, by telephone" in Page(step_sheet(told, JOB, FIRM)).words
    warning = replace(
        PLAN.notices[0], code="emergency-ruled-out", severity="warning", message="ruled out: A. Fell, by telephone"
    )
    warned = replace(told, notices=(*PLAN.notices, warning))
    assert Page(step_sheet(warned, JOB, FIRM)).words.count("A. Fell, by telephone") == 1


def test_a_calculation_has_its_own_title_and_two_alike_those_of_their_readings() -> None:
    proof = PLAN.proofs[0]
    one = PlanCalculation(
        name="c", title="charge of the vessel", readings=(proof.readings[0].id,), formula="f", source="s"
    )

    def page(*calculations: PlanCalculation) -> str:
        told = replace(proof, calculations=calculations)
        return Page(step_sheet(replace(PLAN, proofs=(told,)), JOB, FIRM)).words

    assert "Work out: Charge of the vessel Formula: f. Source: s" in page(one)
    twice = page(one, one)
    title = proof.readings[0].title
    assert twice.count(f"Work out: {title[:1].upper()}{title[1:]}") == 2
    assert twice.count("Formula: f. Source: s") == 1 and "Formula: as for" in twice
