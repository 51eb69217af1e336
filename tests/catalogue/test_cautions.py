"""What is warned of before hands go where it hurts. Expected by trade practice, named beside each check."""

import pytest
from tests.bundled import LIBRARY
from tests.planning.test_every_task import visit_for

from splitpin.hardware.fixing import Fixing
from splitpin.hardware.resolving import resolve
from splitpin.planning import plan_visit
from splitpin.records.assembly import Assembly, Joint

MAINS = {"mains", "three-phase", "incoming-three-phase", "stored-charge"}


def cores(assembly: Assembly) -> list[Joint]:
    """The joints at which bare terminals of the mains are touched; earths are not live."""
    media = {circuit.id: circuit.medium for circuit in assembly.circuit}
    found = []
    for joint in assembly.joint:
        fixing = resolve(joint.hardware, LIBRARY)
        if isinstance(fixing, Fixing) and fixing.kind == "core" and media.get(joint.circuit or "") in MAINS:
            found.append(joint)
    return found


def test_every_mains_terminal_is_tested_dead_again_before_it_is_touched() -> None:
    # HSE HSG85 as taught in trade texts: dead is tested at the point of work; a second supply may end there.
    joints = [(name, joint) for name, assembly in LIBRARY.assemblies.items() for joint in cores(assembly)]
    assert len({name for name, _ in joints}) >= 10
    assert [(name, joint.id) for name, joint in joints if "mains-terminals" not in joint.cautions] == []


def test_every_stored_charge_is_waited_for_and_measured() -> None:
    # Common practice: the wait is read from the label, then the direct voltage is measured.
    condition = LIBRARY.conditions["stored-charge-discharged"]
    assert condition.after == ("electrically-dead",)
    assert any(step.wait_min for step in condition.make) and condition.make[-1].tools and condition.make[-1].record
    guards = [
        component.id
        for assembly in LIBRARY.assemblies.values()
        for component in assembly.component
        if "stored-charge" in component.guards
    ]
    assert guards


def test_new_board_has_its_settings_before_anything_runs_by_them() -> None:
    # Common practice: parameters are copied before the burner is fired or a safety device is proved.
    after = {name: set(proof.after) for name, proof in LIBRARY.proofs.items()}
    live = [name for name, proof in LIBRARY.proofs.items() if proof.stage == "live" and proof.plant == "running"]
    apart = {"settings-restored", "hand-over", "filter-timer-reset", "refrigerant-circuit-checks", "flow-direction"}
    assert [name for name in live if name not in apart and "settings-restored" not in after[name]] == []


@pytest.mark.parametrize(
    ("task", "nuts"),
    [
        ({"do": "replace", "component": "burner"}, "burner-nuts"),
        ({"do": "replace", "component": "door-insulation"}, "front-door-nuts"),
    ],
    ids=["burner", "front door"],
)
def test_what_hangs_on_a_hinge_is_told_before_its_nuts_let_it_swing(task: dict[str, str], nuts: str) -> None:
    """Though the hinge is undone last, the nuts are what holds the weight still: common practice."""
    steps = plan_visit(visit_for("floor-standing-boiler", task)).plan.steps
    told = next(step for step in steps if "swinging-weight" in {caution.id for caution in step.cautions})
    assert (told.action, told.joint) == ("undo", nuts)
