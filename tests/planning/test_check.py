"""The independent check accepts a plan written by hand, and rejects it once anything in it is spoilt."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from tests.planning.small_plant import ASSEMBLY, JOB, LINES, Line, plan_of, visit

from splitpin.planning.check import Fault, check_plan
from splitpin.records.plan import Plan, PlanNotice, PlanPart, Refusal, Times


def at(name: str) -> int:
    """Where a line of the plan stands, from 0."""
    return next(index for index, line in enumerate(LINES) if line.name == name)


def dropped(*names: str) -> tuple[Line, ...]:
    """The plan's lines without these."""
    return tuple(line for line in LINES if line.name not in names)


def moved(name: str, after: str) -> tuple[Line, ...]:
    """The plan's lines with one of them moved to stand after another."""
    lines = list(dropped(name))
    where = next(index for index, line in enumerate(lines) if line.name == after)
    return (*lines[: where + 1], LINES[at(name)], *lines[where + 1 :])


def changed(name: str, **fields: Any) -> tuple[Line, ...]:
    """The plan's lines with fields of one of them changed."""
    return tuple(line.but(**fields) if line.name == name else line for line in LINES)


def faults(lines: tuple[Line, ...] = LINES, job: str = JOB, **fields: Any) -> set[str]:
    """The rules that the plan with these lines and fields breaks."""
    return {fault.rule for fault in check_plan(plan_of(lines, **fields), visit(job))}


def test_hand_written_plan_is_accepted() -> None:
    assert check_plan(plan_of(), visit()) == ()


# Pairs of neighbours that nothing orders: they may change places.
FREE = {
    ("make cool", "make drained"),
    ("make drained", "undo casing-screws"),
    ("work block", "undo tray-plug"),
    ("remake block-screws", "seal union"),
    ("prove earth-continuity", "release drained"),
    ("prove seal-check", "release dead"),
}


@pytest.mark.parametrize("first", range(len(LINES) - 1), ids=lambda i: f"{LINES[i].name} and {LINES[i + 1].name}")
def test_only_neighbours_that_nothing_orders_change_places(first: int) -> None:
    lines = list(LINES)
    lines[first], lines[first + 1] = lines[first + 1], lines[first]
    found = check_plan(plan_of(tuple(lines)), visit())
    assert (found == ()) == ((LINES[first].name, LINES[first + 1].name) in FREE), found


@pytest.mark.parametrize("name", [line.name for line in LINES if line.name != "record"])
def test_no_step_can_be_left_out(name: str) -> None:
    assert faults(dropped(name))


@pytest.mark.parametrize("name", [line.name for line in LINES if line.name != "record"])
def test_no_step_comes_twice(name: str) -> None:
    lines = list(LINES)
    lines.insert(at(name), LINES[at(name)])
    assert faults(tuple(lines))


REJECTED: dict[str, tuple[str, Callable[[], Plan]]] = {
    # strip
    "a joint undone behind the casing": ("out-of-reach", lambda: plan_of(moved("undo tray-latch", "make drained"))),
    "a component lifted while it is held": ("still-held", lambda: plan_of(moved("undo union", "take block"))),
    "a component lifted from behind another": ("blocked", lambda: plan_of(moved("take tray", "take block"))),
    "a screw before a plug": ("rank", lambda: plan_of(moved("undo tray-plug", "undo union"))),
    "a plug made before a screw": ("rank", lambda: plan_of(moved("remake tray-plug", "fit block"))),
    "a bench joint undone at the front": ("position", lambda: plan_of(changed("undo sensor-clip", position="front"))),
    "a position that is nowhere": ("position", lambda: plan_of(changed("work block", position="roof"))),
    "the tray said to come out": (
        "no-such-way",
        lambda: plan_of(opened=replace(plan_of().opened, components=tuple(
            replace(row, ends="out") for row in plan_of().opened.components))),
    ),
    # refit
    "a component left out": ("no-fit", lambda: plan_of(dropped("fit sensor"))),
    "a joint left undone": ("no-remake", lambda: plan_of(dropped("remake union"))),
    "a joint closed before its component is back": ("still-held", lambda: plan_of(moved("fit block", "remake union"))),
    "a new seal forgotten": ("seal-missing", lambda: plan_of(dropped("seal union"))),
    "a seal put on after positioning": ("seal", lambda: plan_of(moved("seal sensor-clip", "fit sensor"))),
    "a seal of another kind": ("seal", lambda: plan_of(changed("seal union", seals=("o-ring",)))),
    "a joint left open while the water comes back": (
        "not-isolated", lambda: plan_of(moved("remake union", "release drained"))),
    "a component left out while the water comes back": (
        "not-isolated", lambda: plan_of(moved("release drained", "take sensor"))),
    # tasks
    "a task forgotten": ("task-undone", lambda: plan_of(dropped("work block"))),
    "a look at what is still hidden": ("reach", lambda: plan_of(moved("work block", "take casing"))),
    "work on what nobody asked for": ("needless", lambda: plan_of(changed("work block", component="tray"))),
    "a refusal without reason": (
        "refused", lambda: plan_of(dropped("work block"), refused=(
            Refusal(task="inspect the pump block", reason="licence"),))),
    # conditions
    "a condition never made": ("not-isolated", lambda: plan_of(dropped("make drained", "release drained"))),
    "cooling forgotten": ("not-safe", lambda: plan_of(dropped("make cool"))),
    "live parts bared before they are dead": ("guard", lambda: plan_of(moved("take casing", "make dead/1"))),
    "switched on before the casing is back": ("guard", lambda: plan_of(moved("release dead", "fit tray"))),
    "a condition begun before the one before it": ("make-order", lambda: plan_of(moved("make cool", "make dead/1"))),
    "a making step left out": ("procedure", lambda: plan_of(dropped("make dead/1"))),
    "making steps in the wrong order": ("procedure", lambda: plan_of(moved("make dead/1", "make dead/2"))),
    "never switched on again": ("not-released", lambda: plan_of(dropped("release dead"))),
    "switched on before the water is back": (
        "release-order", lambda: plan_of(moved("release drained", "release dead"))),
    "confirmed, though the job does not say so": ("already", lambda: plan_of(
        (*LINES[:2], LINES[2].but(action="confirm"), *LINES[3:]))),
    "a condition made for nothing": ("needless", lambda: plan_of(
        (*LINES[:4], Line("make valved-off", {**LINES[3].fields, "condition": "valved-off",
                                              "text": "Close both valves."}), *LINES[4:]))),
    "two conditions that exclude each other": ("clash", lambda: plan_of(
        (*LINES[:4], Line("make valved-off", {**LINES[3].fields, "condition": "valved-off",
                                              "text": "Close both valves."}), *LINES[4:]))),
    "the casing kept off through a release for nothing": (
        "late-return", lambda: plan_of((*moved("remake block-screws", "release drained"),))),
    # proofs
    "a proof forgotten": ("proof-missing", lambda: plan_of(dropped("prove seal-check"))),
    "a proof behind a cover": ("proof-hidden", lambda: plan_of(moved("prove leak-check", "fit tray"))),
    "a closed proof with the casing off": ("proof-stage", lambda: plan_of(moved("prove seal-check", "fit tray"))),
    "a leak check without water": ("proof-plant", lambda: plan_of(moved("release drained", "prove leak-check"))),
    "a dead proof on live plant": ("proof-plant", lambda: plan_of(moved("prove earth-continuity", "release dead"))),
    "a run before switching on": ("proof-plant", lambda: plan_of(moved("prove function", "prove seal-check"))),
    "a proof before what it proves": ("proof-early", lambda: plan_of(moved("prove earth-continuity", "fit block"))),
    "proofs in the wrong order": ("proof-order", lambda: plan_of(moved("prove earth-continuity", "prove leak-check"))),
    "a proof not listed": ("proof-list", lambda: plan_of(proofs=plan_of().proofs[1:])),
    "a proof listed for another joint": ("proof-list", lambda: _proofs(joints=("union",))),
    "a limit of an edition gone by": ("reading", lambda: _reading(max=0.5)),
    "a limit that nobody set": ("reading", lambda: _reading(max=0.2)),
    "a limit left out": ("reading", lambda: _reading(max=None)),
    "a limit without its source": ("reading", lambda: _reading(source=None)),
    "a reading in another unit": ("reading", lambda: _reading(unit="volt")),
    # lists
    "one seal too few": ("parts", lambda: _part("ring-18", quantity=1)),
    "a sure seal called uncertain": ("parts", lambda: _part("ring-18", certain=False)),
    "a part too many": ("parts", lambda: plan_of(parts=(*plan_of().parts, PlanPart(
        part="new-block", title="block", quantity=1, kind="replace", certain=True)))),
    "a single-use clip forgotten": ("parts", lambda: _without_part("new-clip")),
    "the new part forgotten": ("parts", lambda: _without_part("new-sensor")),
    "the grease forgotten": ("consumables", lambda: _without_part("grease")),
    "a tool not listed": ("tools", lambda: plan_of(tools=plan_of().tools[1:])),
    "a step without its tool": ("tools", lambda: plan_of(changed("undo union", tools=()))),
    "a licence forgotten": ("licences", lambda: plan_of(licences=())),
    "a licence for other steps": ("licences", lambda: plan_of(licences=tuple(
        replace(row, steps=row.steps[1:]) for row in plan_of().licences))),
    "a condition not listed": ("conditions", lambda: plan_of(conditions=plan_of().conditions[1:])),
    "a condition said to hold already": ("conditions", lambda: plan_of(conditions=tuple(
        replace(row, already=True) for row in plan_of().conditions))),
    "an opened joint not listed": ("opened", lambda: plan_of(opened=replace(
        plan_of().opened, joints=plan_of().opened.joints[1:]))),
    "a crew that is not there": ("people", lambda: plan_of(people=2)),
    # cautions
    "a caution forgotten": ("caution-missing", lambda: plan_of(changed("undo union", cautions=()))),
    "a caution in other words": ("caution-words", lambda: plan_of(changed("take tray", cautions=tuple(
        replace(row, word="NOTICE") for row in LINES[at("take tray")].fields["cautions"])))),
    # times
    "steps that overlap": ("clock", lambda: _starts({5: 1})),
    "idle hands": ("clock", lambda: plan_of(steps=(
        *plan_of().steps[:-1], replace(plan_of().steps[-1], start_s=plan_of().steps[-1].start_s + 7)))),
    "a sum that is wrong": ("clock", lambda: plan_of(times=Times(hands_on_s=1, waiting_s=1, elapsed_s=2))),
    "a step shorter than its record": ("clock", lambda: plan_of(changed("undo union", seconds=19))),
    "a wait cut short": ("wait", lambda: plan_of(changed("make cool", wait_s=60))),
    "a joint undone before the drain has run": ("not-isolated", lambda: plan_of(tuple(
        Line(line.name, line.fields) for line in LINES))),
    # the steps themselves
    "a number out of turn": ("numbering", lambda: plan_of(steps=plan_of().steps[::-1])),
    "a step that names nothing": ("unnamed", lambda: plan_of(changed("take block", component=None))),
    "a component that is not there": ("unknown", lambda: plan_of(changed("take block", component="boiler"))),
    "a step after the hand-over": ("hand-over", lambda: plan_of(moved("prove function", "record"))),
    "impossible for no reason given": ("impossible", lambda: plan_of(status="impossible")),
}  # fmt: skip


def _proofs(**fields: Any) -> Plan:
    rows = plan_of().proofs
    return plan_of(proofs=(*(row for row in rows if row.id != "leak-check"),
                           replace(rows[1], **fields)))  # fmt: skip


def _reading(**fields: Any) -> Plan:
    first, *others = plan_of().proofs
    reading = replace(first.readings[0], **fields)
    return plan_of(proofs=(replace(first, readings=(reading,)), *others))


def _part(name: str, **fields: Any) -> Plan:
    return plan_of(parts=tuple(replace(row, **(fields if row.part == name else {})) for row in plan_of().parts))


def _without_part(name: str) -> Plan:
    return plan_of(parts=tuple(row for row in plan_of().parts if row.part != name))


def _starts(starts: dict[int, int]) -> Plan:
    return plan_of(steps=tuple(
        replace(step, start_s=starts.get(index, step.start_s))
        for index, step in enumerate(plan_of().steps)
    ))  # fmt: skip


@pytest.mark.parametrize("what", REJECTED)
def test_spoilt_plan_is_rejected_by_the_rule_it_breaks(what: str) -> None:
    rule, spoilt = REJECTED[what]
    found = check_plan(spoilt(), visit())
    assert rule in {fault.rule for fault in found}, found


def test_component_that_nothing_needs_is_named() -> None:
    badge = [
        Line(f"{action} {thing}", {**LINES[at("take casing")].fields, "action": action, "seconds": 2,
                                   "phase": phase, "component": None, "joint": None, kind: thing})
        for action, thing, kind, phase in (
            ("undo", "badge-clip", "joint", "strip"), ("take", "badge", "component", "strip"),
            ("fit", "badge", "component", "refit"), ("remake", "badge-clip", "joint", "refit"))
    ]  # fmt: skip
    lines = (*LINES[:4], *badge[:2], *LINES[4 : at("fit block")], *badge[2:], *LINES[at("fit block") :])
    opened = plan_of().opened
    opened = replace(
        opened,
        joints=(*opened.joints, "badge-clip"),
        components=(*opened.components, replace(opened.components[0], id="badge")),
    )
    assert check_plan(plan_of(lines, opened=opened), visit()) == (
        Fault(6, "needless", "take badge, which nothing needs"),
    )


def test_joint_that_nothing_needs_is_named() -> None:
    fields = {**LINES[at("undo casing-screws")].fields, "joint": "badge-clip", "tools": ()}
    lines = (
        *LINES[:4],
        Line("undo badge-clip", fields),
        Line("remake badge-clip", {**fields, "action": "remake"}),
        *LINES[4:],
    )
    opened = replace(plan_of().opened, joints=(*plan_of().opened.joints, "badge-clip"))
    assert check_plan(plan_of(lines, opened=opened), visit()) == (
        Fault(5, "needless", "undo badge-clip, which nothing needs"),
    )


def hidden(joint: str) -> PlanNotice:
    return PlanNotice(code="hidden-joint", severity="warning", path="", line=0, column=0, hint="",
                      message=f"leak check: {joint} must be proved behind a cover")  # fmt: skip


def test_notice_excuses_only_the_hidden_joint_that_it_names() -> None:
    behind_the_tray = moved("prove leak-check", "fit tray")
    both = (hidden("the joint pump block to frame"), hidden("the joint sensor to pump block"))
    assert faults(behind_the_tray, notices=both) == set()
    assert "proof-hidden" in faults(behind_the_tray, notices=both[1:])
    assert faults(notices=both) == {"notice"}


def test_proof_that_a_task_brings_keeps_the_covers_of_its_component_off() -> None:
    proving = ASSEMBLY.replace('conditions = ["dead"]', 'conditions = ["dead"]\nproofs = ["earth-continuity"]')
    assert check_plan(plan_of(), visit(assembly=proving)) == ()
    behind_the_tray = plan_of(moved("prove earth-continuity", "remake tray-latch"))
    rules = {(fault.rule, fault.message) for fault in check_plan(behind_the_tray, visit(assembly=proving))}
    assert ("proof-hidden", "earth-continuity while block cannot be seen") in rules


def test_isolation_that_the_job_rules_out_does_not_count() -> None:
    job = JOB.replace("date =", 'rule_out = ["drain-cock"]\ndate =')
    assert faults(job=job) == {"not-isolated", "needless"}


def test_condition_that_holds_already_is_confirmed_and_not_made() -> None:
    job = JOB.replace("date =", 'already = ["cool"]\ndate =')
    confirm = LINES[2].but(action="confirm", text="Feel that it is cool.", wait_s=0)
    rows = tuple(replace(row, already=row.id == "cool") for row in plan_of().conditions)
    assert faults((*LINES[:2], confirm, *LINES[3:]), job=job, conditions=rows) == set()
    assert "already" in faults(job=job)


def test_task_on_what_is_closed_is_refused() -> None:
    closed = ASSEMBLY.replace('id = "sensor"\ntitle', 'id = "sensor"\nclosed_to = "electrician"\ntitle')
    whole = check_plan(plan_of(), visit(assembly=closed))
    assert {fault.rule for fault in whole} == {"closed"}
    # With the refusal, the plan that stays must no longer take the sensor.
    refused = plan_of(refused=(Refusal(task="replace the sensor", reason="licence"),))
    assert "needless" in {fault.rule for fault in check_plan(refused, visit(assembly=closed))}
    assert "refused" not in {fault.rule for fault in check_plan(refused, visit(assembly=closed))}
    assert "refused" in {fault.rule for fault in check_plan(refused, visit())}


def test_task_behind_what_is_closed_is_refused_too() -> None:
    closed = ASSEMBLY.replace('id = "tray"\ntitle', 'id = "tray"\nclosed_to = "electrician"\ntitle')
    refused = tuple(Refusal(task=task, reason="licence") for task in ("replace the sensor", "inspect the pump block"))
    found = check_plan(plan_of(refused=refused), visit(assembly=closed))
    assert "refused" not in {fault.rule for fault in found}


def test_carrier_replaced_hands_over_what_it_carries() -> None:
    job = JOB.replace('do = "replace"\ncomponent = "sensor"', 'do = "replace"\ncomponent = "block"')
    parts = tuple(replace(row, part="new-block") if row.part == "new-sensor" else row for row in plan_of().parts)
    assert faults(job=job, parts=parts) == set()
    included = ASSEMBLY.replace('part = "new-block"', 'part = "new-block"\npart_includes = ["sensor"]')
    rules = {fault.rule for fault in check_plan(plan_of(parts=parts), visit(job, assembly=included))}
    assert rules == {"needless"}
    kept = dropped("undo sensor-clip", "take sensor", "seal sensor-clip", "fit sensor", "remake sensor-clip")
    assert "moves-across" in faults(kept, job=job, parts=parts)


def test_impossible_plan_says_why() -> None:
    notice = PlanNotice(code="no-way", severity="error", path="", line=0, column=0, message="no way", hint="")
    assert check_plan(plan_of(status="impossible", steps=(), notices=(notice,)), visit()) == ()
    assert {fault.rule for fault in check_plan(plan_of(status="impossible", steps=()), visit())} == {"impossible"}
