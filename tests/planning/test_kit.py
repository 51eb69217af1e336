"""What goes aboard: what may not go back, what is measured before it does, and seals with their sizes."""

from dataclasses import replace

from tests.planning.lid import closing, planned, visit

from splitpin.planning.check import check_plan
from splitpin.records.catalogue import Part, Seal
from splitpin.records.plan import Plan, PlanPart
from splitpin.sheets.step_sheet.terminal import plan_text

LOCKNUTS = 'hardware = "ISO 7040 - M8 - 8"\ncount = 4\n'
SPLIT_PIN = 'hardware = "ISO 1234 - 3.2 x 22"\ncount = 2\n'


def picked(plan: Plan, kind: str) -> list[PlanPart]:
    return [part for part in plan.parts if part.kind == kind]


def test_a_split_pin_is_picked_with_its_rule_and_source() -> None:
    (pin,) = picked(planned(visit(SPLIT_PIN)), "single-use")
    assert (pin.part, pin.title, pin.quantity, pin.certain) == ("iso-1234-3-2-x-22", "split pin 3.2 × 22", 2, True)
    # The rule: United States Army TM 55-2840-251-23, para 1-83 item 5a.
    assert "a new one at every assembly; never straightened and refitted" in pin.because[0]
    assert "TM 55-2840-251-23" in pin.because[0]
    assert pin.pack is None


def test_a_part_comes_in_the_pack_of_its_row() -> None:
    row = Part(id="iso-1234-3-2-x-22", title="split pin 3.2 × 22", kind="fixing", pack=50, basis="common practice")
    plan = planned(visit(SPLIT_PIN, parts=(row,)))
    (pin,) = picked(plan, "single-use")
    assert pin.pack == 50
    assert "2 × split pin 3.2 × 22 (used once only, packs of 50)" in plan_text(plan)


def test_self_locking_nuts_are_measured_before_they_go_back() -> None:
    # ISO 2320, class 04, M8: 0.6 N m at the fifth removal.
    plan = planned(visit(LOCKNUTS + 'pattern = "even"'))
    measure, start, *stages = closing(plan)
    assert measure.text == (
        "Measure the torque of each nut as it runs on (lid to pot); "
        "renew it below 0.6 N·m (fifth removal, class 04: for other classes read ISO 2320)."
    )
    assert measure.record == "running-on torque of each nut, N·m"
    assert measure.tools == ("insulated-torque-driver",)  # 0.5 to 4 N m
    assert "ISO 2320" in measure.because[-1]
    assert start.text == "Start all 4 self-locking nuts M8 by hand: lid to pot."
    assert len(stages) == 2
    (nut,) = picked(plan, "single-use")
    assert (nut.title, nut.quantity, nut.certain) == ("self-locking nut M8", 4, False)
    assert "only if the inspection says so" in plan_text(plan)


def test_the_nut_of_a_screw_is_what_is_measured_and_renewed() -> None:
    plan = planned(visit('hardware = "ISO 4017 - M6 x 25 - 8.8 + ISO 7040 - M6 - 8"'))
    measure, fit = closing(plan)
    assert "the nut as it runs on" in measure.text and "0.3 N·m" in measure.text
    assert measure.tools == ()  # no torque tool of the catalogue reaches so low
    assert fit.tools == ("socket-10", "spanner-10")
    assert [part.title for part in picked(plan, "single-use")] == ["self-locking nut M6"]


def test_nuts_put_back_unmeasured_are_refused() -> None:
    subject = visit(LOCKNUTS)
    plan = planned(subject)
    first = closing(plan)[0].n
    blank = tuple(replace(step, record=None) if step.n == first else step for step in plan.steps)
    assert {fault.rule for fault in check_plan(replace(plan, steps=blank), subject)} == {"measure"}
    none = replace(plan, parts=())
    assert {fault.rule for fault in check_plan(none, subject)} == {"parts"}


def test_what_is_inspected_is_at_hand() -> None:
    (clip,) = picked(planned(visit('hardware = "spring-clip-joint"\ncount = 2')), "single-use")
    assert (clip.part, clip.quantity, clip.certain, clip.pack) == ("joint-spring-clip", 2, False, 10)


def test_what_goes_back_is_not_picked() -> None:
    assert planned(visit('hardware = "ISO 4032 - M8 - 8"')).parts == ()


def ring(size: str | None) -> Seal:
    return Seal(
        id="lid-ring",
        title="lid O-ring",
        policy="renew",
        size=size,
        consumables=("silicone-grease",),
        basis="from memory",
    )


SEALED = 'hardware = "ISO 4762 - M6 x 25 - 8.8"\nseal = "lid-ring"\nseal_count = 2'


def test_an_o_ring_is_printed_with_its_size() -> None:
    # Dash 210: 18.64 mm inside, 3.53 mm section (ISO 3601-1; AS568 gives 0.734 in and 0.139 in).
    for size in ("210", "ISO 3601-1 - 210"):
        plan = planned(visit(SEALED, seals=(ring(size),)))
        (step,) = [step for step in plan.steps if step.action == "seal"]
        assert step.text == "Clean both faces and put in 2 new seals (lid O-ring 18.64 × 3.53 mm): lid to pot."
        assert [part.title for part in picked(plan, "seal")] == ["lid O-ring 18.64 × 3.53 mm"]
        assert [part.part for part in picked(plan, "consumable")] == ["silicone-grease"]


def test_a_ring_without_a_size_keeps_its_title() -> None:
    (part,) = picked(planned(visit(SEALED, seals=(ring(None),))), "seal")
    assert (part.title, part.quantity) == ("lid O-ring", 2)
