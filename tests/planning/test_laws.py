"""Each of the thirty laws, by its number: a plan that keeps it, and plans that break it and are refused."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from tests.planning.lawful_plant import ASSEMBLY, CONDITIONS, LINES, added, but, moved, plan_of, visit, without

from splitpin.planning.check import ALL_LAWS, KEPT_LAWS, check_plan
from splitpin.records.catalogue import Medium
from splitpin.records.library import Visit
from splitpin.records.plan import Plan, StepPoint

Made = Callable[[], Plan]


def row(**fields: dict[str, Any]) -> Plan:
    """The plan with fields of its proofs' rows changed, by the proof's name with `_` for `-`."""
    return plan_of(rows={name.replace("_", "-"): changed for name, changed in fields.items()})


def condition(name: str, **fields: Any) -> Plan:
    """The plan with fields of a condition's row changed."""
    return plan_of(conditions=tuple(replace(one, **fields) if one.id == name else one for one in plan_of().conditions))


def reading(name: str, **fields: Any) -> Plan:
    """The plan with fields of a reading changed."""
    proofs = tuple(
        replace(one, readings=tuple(replace(read, **fields) if read.id == name else read for read in one.readings))
        for one in plan_of().proofs
    )
    return plan_of(proofs=proofs)


SPINNING = Medium(id="spinning", title="spinning", before_opening=("source-off",))
STORE = (StepPoint(id="store-valve", title="store valve", to="closed"),)
PARTED = (StepPoint(id="filling-link", title="filling link", to="parted"),)

# By law: what is wrong with the plan, and the plan.
BROKEN: dict[int, dict[str, Made]] = {
    1: {
        "the supply is never switched on again": lambda: plan_of(without("release dead")),
        "the drain is shut twice": lambda: plan_of(added("record", like="release drained/5")),
        "released, and handed over as left": lambda: condition("dead", left="off and labelled"),
        "off the ladder before the filter is rinsed": lambda: plan_of(moved("release way-up", "prove insulation")),
        "the drain is shut while the union is open": lambda: plan_of(moved("release drained/1", "prove insulation")),
        "switched on while the earth is measured": lambda: plan_of(moved("release dead", "remake cores")),
    },
    2: {
        "the ladder down before what was made later is released": lambda: plan_of(
            moved("release way-up", "remake cover-screw")
        ),
        "the heat source free before the water is back": lambda: plan_of(
            moved("release source-off", "remake cover-screw")
        ),
        "filled with the drain open": lambda: plan_of(moved("release drained/1", "release drained/4")),
    },
    3: {
        "the readings found after the supply is off": lambda: plan_of(moved("make dead/1", "make dead/2")),
        "the pump run with the supply off": lambda: plan_of(moved("prove listen", "make drained/3")),
        "a look when hot while the supply is off": lambda: plan_of(moved("prove hot-look", "fit terminal-cover")),
    },
    4: {
        "the drain left open": lambda: plan_of(without("release drained/1")),
        "the valve left cracked": lambda: plan_of(without("release drained/3")),
        "a step that does not name its valve": lambda: plan_of(but("make drained/2", points=())),
        "a valve set in the record but not in the words": lambda: plan_of(but("make drained/2", text="Close it.")),
        "a point that the plant does not have": lambda: plan_of(
            but("make drained/2", points=(StepPoint(id="cock", title="cock", to="closed"),))
        ),
        "the drain not looked at with the joints": lambda: row(leak_check={"points": ()}),
    },
    5: {
        "no sign that the valve holds": lambda: condition("drained", sign=None),
        "no word of what to do where it passes": lambda: condition("drained", if_not=None),
        "the filling link not parted before the drain": lambda: plan_of(but("make drained/1", points=())),
        "the filling link not parted after the last filling": lambda: plan_of(but("release drained/5", points=())),
    },
    6: {
        "the valve shut before the heat source is off": lambda: plan_of(moved("make source-off", "make drained/3")),
        "the heat source never held off": lambda: plan_of(but("make source-off", points=())),
        "the heat source free before the water is back": lambda: plan_of(moved("release source-off", "remake cores")),
    },
    7: {
        "the water in the pump caught in nothing": lambda: plan_of(but("take casing", tools=())),
    },
    8: {
        "drained though nothing of the water is opened": lambda: plan_of(without("undo union", "remake union")),
        "a valve of another circuit shut": lambda: plan_of(
            but("take casing", points=STORE, text="Shut the store valve.")
        ),
    },
    9: {
        "nobody told before the heating goes": lambda: plan_of(but("make source-off", acts=())),
        "told, but not what they lose": lambda: plan_of(but("make source-off", text="Tell the occupants.")),
        "told when the valve is shut already": lambda: plan_of(moved("make source-off", "make drained/3")),
        "nobody told when it is back": lambda: plan_of(but("release source-off", acts=())),
    },
    10: {
        "a supply not named": lambda: plan_of(but("make dead/2", points=())),
        "cores undone before they are proved dead": lambda: plan_of(moved("make terminals-dead", "undo cores")),
        "proved dead before the cover is off": lambda: plan_of(moved("make terminals-dead", "make dead/2")),
        "never proved at the terminals": lambda: plan_of(without("make terminals-dead")),
    },
    11: {
        "leads measured with the new pump on them": lambda: plan_of(moved("prove insulation", "remake cores")),
        "earth measured before its last disturbance": lambda: plan_of(moved("prove earth", "prove insulation")),
    },
    12: {
        "settings not read before the supply is off": lambda: plan_of(but("make dead/1", acts=())),
        "no word where they come from": lambda: plan_of(
            but("make dead/1", text="Write down what is found: flow, curve.")
        ),
        "never entered": lambda: plan_of(without("prove settings")),
        "run before they are entered": lambda: plan_of(moved("prove settings", "prove run-look")),
        "entered without their names": lambda: plan_of(but("prove settings", text="Enter the settings.")),
    },
    13: {
        "the examination left out": lambda: plan_of(without("prove function-test/1", "prove function-test/2")),
        "the examination before all is back": lambda: plan_of(moved("prove function-test/1", "fit casing")),
        "a mode not by its name": lambda: plan_of(functions=plan_of().functions[1:]),
        "a mode on the list and in no step": lambda: plan_of(but("prove function-test/1", acts=())),
        "a mode without what is to be seen": lambda: plan_of(but("prove function-test/1", text="Call for heating.")),
    },
    14: {
        "run with the casing off by nobody's choice": lambda: row(run_look={"way": None}),
        "nobody decides": lambda: _way(decided_by=""),
        "nothing watches the air": lambda: _way(watch=None),
        "no other way": lambda: _way(instead=()),
    },
    15: {
        "a union without figure or blank": lambda: plan_of(but("remake union", record=None)),
        "a union closed without the tool that reads it": lambda: plan_of(but("remake union", tools=("driver",))),
        "cores not pulled": lambda: plan_of(but("remake cores", acts=())),
        "cores pulled on the label alone": lambda: plan_of(but("remake cores", text="Make up 2 cores.")),
    },
    16: {
        "the limit not made to operate": lambda: plan_of(but("prove limit-test", acts=())),
        "the limit after the run at heat": lambda: plan_of(moved("prove limit-test", "prove hot-look")),
        "the limit without its pass sign": lambda: plan_of(but("prove limit-test", text="Trip the limit.")),
    },
    17: {
        "never looked at hot": lambda: plan_of(without("prove hot-look")),
        "looked at hot, and not said so": lambda: plan_of(but("prove hot-look", state="cold")),
        "covered at the last look": lambda: row(hot_look={"seen_covered": None}),
    },
    18: {
        "opened in one go": lambda: plan_of(without("release drained/2")),
        "opened fully before the joints are seen dry": lambda: plan_of(moved("prove leak-check", "release drained/3")),
        "power before the water is back": lambda: plan_of(moved("release dead", "release drained/1")),
    },
    19: {
        "no look inside before the casing": lambda: plan_of(but("fit casing", acts=())),
        "the look inside before the work behind is done": lambda: plan_of(
            tuple(
                replace(line, fields={**line.fields, **fields})
                for line in LINES
                for fields in [_LOOKS_TOO_SOON.get(line.name, {})]
            )
        ),
        "not turned by hand": lambda: plan_of(but("remake cores", acts=_acts("remake cores")[:1])),
    },
    20: {
        "a new pump not measured": lambda: plan_of(without("prove measure")),
        "the casing put back without a listen": lambda: plan_of(without("prove listen")),
        "no word of what brought the measurement": lambda: row(measure={"brought": ()}),
        "found running, left cold": lambda: plan_of(but("prove function-test/1", state="cold")),
    },
    21: {
        "the flow not taken as found": lambda: plan_of(but("make dead/1", acts=_acts("make dead/1")[1:])),
        "the flow found in another row": lambda: reading("flow", as_found=False),
        "the flow found when it no longer runs": lambda: plan_of(moved("make dead/1", "make drained/1")),
    },
    22: {
        "a limit without its source": lambda: reading("earth-ohm", source=None),
        "a limit in another unit": lambda: reading("earth-ohm", unit="milliohm"),
        "no limit and no note": lambda: reading("earth-ohm", max=None, source=None),
    },
    23: {
        "goggles ordered and not on the list": lambda: plan_of(
            tools=tuple(tool for tool in plan_of().tools if tool.id != "goggles")
        ),
        "goggles on the list from too late a step": lambda: plan_of(
            tools=tuple(replace(tool, from_step=40) if tool.id == "goggles" else tool for tool in plan_of().tools)
        ),
        "no step lays the sheet": lambda: plan_of(but("take casing", acts=_acts("take casing")[1:])),
        "no step lets it cool": lambda: plan_of(
            but("take casing", text="Lay the cover sheet and the drip tray, mark the flow arrow.")
        ),
    },
    24: {
        "the union opened without a tray": lambda: plan_of(
            but("take casing", acts=tuple(act for act in _acts("take casing") if act.act != "catch"))
        ),
        "the filter rinsed before the pump sheds its dirt": lambda: plan_of(moved("work filter", "take casing")),
    },
    25: {
        "left hanging for something else": lambda: plan_of(moved("undo bracket", "undo casing-screws")),
        "drawn past the grille aslant": lambda: plan_of(but("take pump", text="Take the pump out past the grille.")),
        "undone before it is marked": lambda: plan_of(
            but("take casing", acts=tuple(act for act in _acts("take casing") if act.act != "mark"))
        ),
        "not matched after": lambda: plan_of(but("remake bracket", acts=())),
    },
    26: {
        "the pick line does not say what must match": lambda: plan_of(
            parts=tuple(replace(part, must_match=()) for part in plan_of().parts)
        ),
        "the new pump not compared": lambda: plan_of(
            but("make dead/1", acts=tuple(act for act in _acts("make dead/1") if act.act != "compare"))
        ),
        "compared when the water is out": lambda: plan_of(moved("make dead/1", "make drained/3")),
    },
    27: {
        "the sealed box without a stop line": lambda: plan_of(stop_lines=()),
        "another stop line than its own": lambda: plan_of(
            stop_lines=tuple(replace(line, text="Mind the box.") for line in plan_of().stop_lines)
        ),
    },
    28: {
        "drying counted as nothing": lambda: plan_of(but("work filter", wait_s=0)),
        "inhibitor listed as certain": lambda: plan_of(
            parts=tuple(replace(part, certain=True, only_if=None) for part in plan_of().parts)
        ),
        "dosed whatever the test says": lambda: plan_of(but("prove function-test/2", only_if=None)),
        "a tool that no step uses": lambda: plan_of(
            tools=(*plan_of().tools, replace(plan_of().tools[0], id="hammer", title="hammer"))
        ),
    },
    29: {
        "nobody secures the way up in the loft": lambda: plan_of(without("make way-up", "release way-up")),
        "nobody speaks of the dark": lambda: plan_of(but("make way-up", cautions=())),
        "the loft's own proof left out": lambda: plan_of(without("prove listen")),
    },
    30: {
        "warned of hot water twice": lambda: plan_of(but("make drained/1", cautions=_HOT)),
        "warned of hot water when it is all done": lambda: plan_of(but("record", cautions=_HOT)),
    },
}
_DARK = next(line for line in LINES if line.name == "make way-up").fields["cautions"]
_HOT = next(line for line in LINES if line.name == "undo union").fields["cautions"]


def _acts(name: str) -> tuple[Any, ...]:
    return tuple(next(line for line in LINES if line.name == name).fields["acts"])


_LOOKS_TOO_SOON: dict[str, dict[str, Any]] = {
    "fit casing": {"acts": ()},
    "take pump": {
        "acts": _acts("fit casing"),
        "text": "Draw the pump straight out past the grille. Nothing is left inside the casing.",
    },
}


def _way(**fields: Any) -> Plan:
    way = next(one.way for one in plan_of().proofs if one.id == "run-look")
    assert way is not None
    return row(run_look={"way": replace(way, **fields)})


def refused(plan: Plan, number: int, subject: Visit | None = None) -> set[str]:
    """The rules that the plan breaks when it is judged by this law alone."""
    law = next(law for law in ALL_LAWS if law.number == number)
    found = {fault.rule for fault in check_plan(plan, subject or visit(), (law,))}
    return {rule for rule in found if rule.startswith("law-")}


def test_there_are_thirty_laws_each_by_its_number() -> None:
    assert [law.number for law in ALL_LAWS] == list(range(1, 31)) == sorted(BROKEN)
    assert set(KEPT_LAWS) <= set(ALL_LAWS)


def test_a_hand_made_plan_keeps_every_rule_and_every_law() -> None:
    assert check_plan(plan_of(), visit(), ALL_LAWS) == ()


@pytest.mark.parametrize("law", ALL_LAWS, ids=lambda law: f"law {law.number}: {law.title}")
def test_law_is_kept(law: Any) -> None:
    assert refused(plan_of(), law.number) == set()


@pytest.mark.parametrize(
    ("number", "made"),
    [(number, made) for number, plans in BROKEN.items() for made in plans.values()],
    ids=[f"law {number}: {what}" for number, plans in BROKEN.items() for what in plans],
)
def test_law_is_broken(number: int, made: Made) -> None:
    assert refused(made(), number) == {f"law-{number}"}


def with_plant(*changes: tuple[str, str]) -> Visit:
    """The visit with texts of the assembly changed."""
    text = ASSEMBLY
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return visit(text)


def test_law_1_holds_what_a_proof_leans_on() -> None:
    late = messages(plan_of(moved("prove earth", "release dead")), 1)
    assert late == {"dead is released before earth is done"}


def test_law_4_knows_the_points_and_how_they_normally_are() -> None:
    cock = StepPoint(id="cock", title="cock", to="closed")
    valve = StepPoint(id="valve", title="inlet valve", to="closed")
    assert messages(plan_of(but("make drained/2", points=(valve, cock))), 4) == {"cock is no point of this plant"}
    left = messages(plan_of(but("release source-off", points=())), 4)
    assert left == {
        "heat-source is left off; normally it is on",
        "the step does not name heat-source, which it sets to on",
    }


def test_law_4_reads_nothing_behind_a_cover() -> None:
    drain_behind = with_plant(('id = "drain"\n', 'id = "drain"\nbehind = ["casing"]\n'))
    assert refused(plan_of(), 4, drain_behind) == {"law-4"}


def test_law_4_leaves_nothing_open_behind_a_cover() -> None:
    behind = with_plant(('id = "drain"\n', 'id = "drain"\nbehind = ["terminal-cover"]\n'))
    reached = moved("make drained/3", "take terminal-cover")
    open_when_covered = plan_of(reached)  # the cover goes on before the drain is shut
    found = [fault.message for fault in check_plan(open_when_covered, behind, ALL_LAWS) if fault.rule == "law-4"]
    assert "terminal-cover goes back while drain stands open" in found


def test_law_7_lets_down_what_is_stored() -> None:
    spring = with_plant(('kind = "water", catch = ["tray"]', 'kind = "spring", condition = "terminals-dead"'))
    assert refused(plan_of(), 7, spring) == set()
    assert refused(plan_of(without("make terminals-dead")), 7, spring) == {"law-7"}


def test_law_7_ends_the_holding_before_the_guard_and_the_hand_turn() -> None:
    holding = CONDITIONS.replace('title = "heat source held off"', 'title = "held"\nends_open = true')
    guarded = ASSEMBLY.replace('forms = ["seal"]', 'forms = ["seal"]\nguards = ["spinning"]')
    library = replace(visit(conditions=holding).library, media={**visit().library.media, "spinning": SPINNING})
    held = replace(visit(guarded, holding), library=replace(library, assemblies=visit(guarded).library.assemblies))
    assert refused(plan_of(moved("release source-off", "remake bracket")), 7, held) == set()
    assert refused(plan_of(moved("release source-off", "remake cores")), 7, held) == {"law-7"}  # after the hand turn
    late = messages(plan_of(moved("release source-off", "fit casing")), 7, held)
    assert late == {"source-off is ended after casing is back on", "turned by hand while source-off holds"}
    assert messages(plan_of(without("release source-off")), 7, held) == {"no step ends source-off"}


# The occasions of an examination, one by one: what is left out of the plan is then missed.
OCCASIONS = {
    "a boundary disturbed": 'when = ["boundary-disturbed"]\nof = ["seal"]',
    "a part changed": 'when = ["part-changed"]\nof = ["pump"]',
    "settings lost": 'when = ["settings-lost"]',
    "a plant that was stopped": 'when = ["stopped"]',
}


@pytest.mark.parametrize("occasion", OCCASIONS.values(), ids=OCCASIONS)
def test_law_13_knows_each_occasion(occasion: str) -> None:
    asked = with_plant(('when = ["anything-opened"]\nproofs = ["function-test"]', f'{occasion}\nproofs = ["measure"]'))
    assert refused(plan_of(), 13, asked) == set()
    assert refused(plan_of(without("prove measure")), 13, asked) == {"law-13"}


def test_law_13_asks_nothing_of_other_occasions() -> None:
    asked = with_plant(
        ('when = ["anything-opened"]\nproofs = ["function-test"]',
         'when = ["part-changed"]\nof = ["filter"]\nproofs = ["measure"]')
    )  # fmt: skip
    assert refused(plan_of(without("prove measure")), 13, asked) == set()


def test_law_15_leaves_alone_what_need_not_be_tight() -> None:
    free = with_plant(('id = "union"\n', 'id = "union"\ntightness = "none"\n'))
    assert refused(plan_of(but("remake union", record=None)), 15, free) == set()


def test_law_20_tells_changed_from_put_back() -> None:
    casing_new = with_plant(("[component.brings]\nchanged", "[component.brings]\nput_back"))
    assert refused(plan_of(without("prove measure")), 20, casing_new) == set()  # the pump is new, not put back


def test_law_16_reaches_the_device_where_it_is() -> None:
    covered = with_plant(("behind = []\n", 'behind = ["casing"]\n'))
    assert refused(plan_of(), 16, covered) == {"law-16"}


def messages(plan: Plan, number: int, subject: Visit | None = None) -> set[str]:
    """What this law alone has against the plan."""
    law = next(law for law in ALL_LAWS if law.number == number)
    return {fault.message for fault in check_plan(plan, subject or visit(), (law,)) if fault.rule == f"law-{number}"}


def test_law_24_leaves_what_catches_dirt_in_place() -> None:
    gone = added("take pump", like="take casing", component="filter", text="Take the filter.", acts=(), tools=())
    assert messages(plan_of(gone), 24) == {"filter, which catches the dirt of pump, is not in place"}


def test_law_25_undoes_what_bears_weight_in_one_go_with_the_lift() -> None:
    loose = plan_of(moved("undo bracket", "take terminal-cover"))
    assert messages(loose, 25) == {"pump hangs loose: its last fixings and its lift are not one go"}


def test_law_29_asks_for_the_condition_and_the_people_of_a_fact() -> None:
    unsecured = tuple(line for line in but("make dead/1", cautions=_DARK) if "way-up" not in line.name)
    assert messages(plan_of(unsecured), 29) == {"loft asks for way-up: never made"}
    library = visit().library
    two = {"loft": library.facts["loft"].model_copy(update={"people": 2})}
    by_two = replace(visit(), library=replace(library, facts=two))
    assert messages(plan_of(), 29, by_two) == {"loft takes 2 people, the plan has 1"}
    assert messages(plan_of(people=2), 29, by_two) == set()
