"""Joints closed in stages and to a torque: what the steps say, what the reasons say, and what is warned of."""

from dataclasses import replace

import pytest
from tests.planning.lid import LIBRARY, closing, codes, planned, visit

from splitpin.hardware.designation import Designation
from splitpin.hardware.given import Torque
from splitpin.hardware.parser import parse
from splitpin.hardware.torque import tightening
from splitpin.planning.check import check_plan

SOCKET_SCREWS = 'hardware = "ISO 4762 - M6 x 25 - 8.8"\ncount = 4\n'


def test_a_cross_pattern_becomes_its_stages_and_names_the_joint_once() -> None:
    steps = closing(planned(visit(SOCKET_SCREWS + 'pattern = "cross"\ntitle = "lid screws"')))
    assert [step.text for step in steps] == [
        "Start all 4 hexagon socket screws M6 × 25 (lid screws) by hand: lid to pot.",
        "Tighten all 4 crosswise (1, 3, 2, 4) until they just bear.",
        "Tighten all 4 crosswise (1, 3, 2, 4) until half tight.",
        "Tighten all 4 crosswise (1, 3, 2, 4) until tight.",
    ]
    assert [step.tools for step in steps] == [(), *[("hex-key-5",)] * 3]


def test_a_torque_stands_on_each_stage_and_as_a_figure_on_the_last() -> None:
    joint = SOCKET_SCREWS + 'pattern = "cross"\ntorque_nm = 8\ntorque_source = "plate on the lid"'
    plan = planned(visit(joint))
    steps = closing(plan)
    assert [step.text for step in steps[1:]] == [
        "Tighten all 4 crosswise (1, 3, 2, 4) to 2.4 N·m (30 %).",
        "Tighten all 4 crosswise (1, 3, 2, 4) to 5.6 N·m (70 %).",
        "Tighten all 4 crosswise (1, 3, 2, 4) to 8 N·m.",
        "Go once round all 4 to 8 N·m: none may turn further.",
    ]
    assert [step.torque_nm for step in steps] == [None, None, None, None, 8]
    assert steps[-1].because[-1] == "8 N·m: given: plate on the lid"
    assert steps[-1].tools == ("hex-key-5", "torque-wrench-5-25")
    assert not {"driver-too-weak", "no-torque-tool"} & set(codes(plan))


def test_two_pieces_even() -> None:
    steps = closing(planned(visit('hardware = "ISO 4762 - M4 x 10 - 8.8"\ncount = 2\npattern = "even"')))
    assert [step.text for step in steps] == [
        "Start both hexagon socket screws M4 × 10 by hand: lid to pot.",
        "Tighten both in turn until they just bear.",
        "Tighten both in turn until tight.",
    ]


@pytest.mark.parametrize("pattern", ["cross", "even", "staged"])
@pytest.mark.parametrize("torque", ["", '\ntorque_nm = 8\ntorque_source = "plate"'])
def test_the_seconds_of_a_joint_are_the_same_however_many_lines(pattern: str, torque: str) -> None:
    def seconds(text: str) -> int:
        return sum(step.seconds for step in closing(planned(visit(text))))

    assert seconds(SOCKET_SCREWS + f'pattern = "{pattern}"' + torque) == seconds(SOCKET_SCREWS + torque.strip())


def test_a_pattern_cut_short_or_left_half_tight_is_refused() -> None:
    subject = visit(SOCKET_SCREWS + 'pattern = "cross"\ntorque_nm = 8\ntorque_source = "plate"')
    plan = planned(subject)
    last = closing(plan)[-1].n
    without = [step for step in plan.steps if step.n != last]
    short = replace(plan, steps=tuple(replace(step, n=n) for n, step in enumerate(without, start=1)))
    assert {"torque"} <= {fault.rule for fault in check_plan(short, subject)}
    slack = tuple(replace(step, torque_nm=4) if step.n == last else step for step in plan.steps)
    assert {"torque"} == {fault.rule for fault in check_plan(replace(plan, steps=slack), subject)}


def test_a_torque_is_computed_only_where_the_joint_says_steel() -> None:
    silent = closing(planned(visit(SOCKET_SCREWS)))
    assert [step.torque_nm for step in silent] == [None]
    assert not any("N·m" in reason for step in silent for reason in step.because)
    (said,) = closing(planned(visit(SOCKET_SCREWS + 'into = "steel"')))
    designation = parse("ISO 4762 - M6 x 25 - 8.8")
    assert isinstance(designation, Designation)
    torque = tightening(designation, into="steel")
    assert isinstance(torque, Torque)
    assert said.torque_nm == torque.nm
    # By hand: T = K d F = 0.15 x 0.006 m x 0.75 x 11 600 N (proof load of M6 8.8, ISO 898-1) = 7.8 N m.
    assert said.torque_nm == pytest.approx(0.15 * 0.006 * 0.75 * 11_600, abs=0.05)
    assert said.because[-1].startswith("7.8 N·m (6.3 to 10): T = K·d·F, K = 0.15")
    assert said.because[-1].endswith("; thread in steel")


def test_a_given_torque_wins_over_the_computed_one() -> None:
    (step,) = closing(planned(visit(SOCKET_SCREWS + 'into = "steel"\ntorque_nm = 6\ntorque_source = "plate"')))
    assert (step.torque_nm, step.because[-1]) == (6, "6 N·m: given: plate")


def test_nothing_is_computed_for_what_no_rule_covers() -> None:
    for hardware in ("ISO 7049 - ST4.2 x 13 - C - Z", "ISO 4032 - M6 - 8", "stud-nut-m6"):
        assert closing(planned(visit(f'hardware = "{hardware}"\ninto = "steel"')))[-1].torque_nm is None


def test_a_driver_below_its_torque_is_warned_of() -> None:
    # The tip of a T20 driver is at its limit from 10.5 to 12.7 N m (one encyclopaedia table).
    joint = 'hardware = "ISO 14583 - M4 x 10 - 8.8"\ntorque_source = "plate"\n'
    strong, weak = planned(visit(joint + "torque_nm = 10.5")), planned(visit(joint + "torque_nm = 10.6"))
    assert "driver-too-weak" not in codes(strong)
    (notice,) = [notice for notice in weak.notices if notice.code == "driver-too-weak"]
    assert notice.message == "lid to pot: 10.6 N·m is more than the six-lobe driver T20 stands (10.5 to 12.7 N·m)"
    assert notice.severity == "warning"


def test_a_torque_that_nothing_sets_is_warned_of() -> None:
    plan = planned(visit('hardware = "ISO 4017 - M8 x 25 - 8.8"\ntorque_nm = 0.2\ntorque_source = "plate"'))
    (notice,) = [notice for notice in plan.notices if notice.code == "no-torque-tool"]
    assert notice.message == "lid to pot: no torque tool of the catalogue sets 0.2 N·m"


def test_a_torque_tool_of_the_firm_is_taken_before_a_narrower_one() -> None:
    joint = SOCKET_SCREWS + 'torque_nm = 22\ntorque_source = "plate"'
    assert closing(planned(visit(joint)))[0].tools[-1] == "torque-wrench-5-25"
    plan = planned(visit(joint, owned=("hex-key-5", "torque-wrench-20-100")))
    assert closing(plan)[0].tools[-1] == "torque-wrench-20-100"
    assert "tool-not-owned" not in codes(plan)


def test_a_firm_without_any_torque_tool_is_told_which_to_bring() -> None:
    plan = planned(visit(SOCKET_SCREWS + 'torque_nm = 22\ntorque_source = "plate"', owned=("hex-key-5",)))
    (notice,) = [notice for notice in plan.notices if notice.code == "tool-not-owned"]
    assert notice.message == "the firm's list has no torque wrench 5 to 25 N m"
    assert [tool.id for tool in plan.tools if not tool.owned] == ["torque-wrench-5-25"]


SCREW_AND_NUT = 'hardware = "ISO 4017 - M8 x 25 - 8.8 + ISO 4032 - M8 - 8"\n'


def test_no_tool_serves_two_needs() -> None:
    assert closing(planned(visit(SCREW_AND_NUT)))[0].tools == ("socket-13", "spanner-13")


def test_a_firm_with_sockets_but_no_spanners_is_told_of_the_second() -> None:
    sockets = tuple(tool for tool in LIBRARY.tools if tool.startswith("socket-"))
    assert len(sockets) > 20
    plan = planned(visit(SCREW_AND_NUT, owned=sockets))
    assert closing(plan)[0].tools == ("socket-13", "spanner-13")
    assert {tool.id: tool.owned for tool in plan.tools} == {"socket-13": True, "spanner-13": False}
    (notice,) = [notice for notice in plan.notices if notice.code == "tool-not-owned"]
    assert notice.message == "the firm's list has no spanner 13 mm"
    alone = planned(visit('hardware = "ISO 4032 - M8 - 8"', owned=sockets))
    assert closing(alone)[0].tools == ("socket-13",)
    assert "tool-not-owned" not in codes(alone)


def test_a_firm_with_spanners_only_uses_one_where_a_socket_is_best() -> None:
    plan = planned(visit('hardware = "ISO 4032 - M8 - 8"', owned=("spanner-13",)))
    assert closing(plan)[0].tools == ("spanner-13",)
    assert "tool-not-owned" not in codes(plan)
