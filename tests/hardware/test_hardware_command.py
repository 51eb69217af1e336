"""`splitpin hardware` from the outside."""

import json

from tests.cli.running import run


def test_a_designation_is_printed_with_tool_torque_rule_and_sources() -> None:
    result = run("hardware", "ISO4762 M6x25-8.8")
    assert result.returncode == 0
    lines = result.stdout.splitlines()
    assert lines[:5] == [
        "ISO 4762 - M6 x 25 - 8.8",
        "  hexagon socket screw M6 × 25",
        "",
        "Tools, one of each line",
        "  hex key 5 mm",
    ]
    assert "  hexagon socket: 5 mm [ISO 4762; six open tables agree]" in lines
    assert "  7.8 N·m (6.3 to 10)" in lines
    assert any(line.endswith("steel threads only; thread material unknown: a given torque wins") for line in lines)
    assert any(line.startswith("  reusable: ") for line in lines)
    assert "  off 11 s, on 14 s, log-spread 0.35" in lines


def test_no_torque_says_why() -> None:
    result = run("hardware", "ISO 228 - G 1")
    assert "  none: no rule gives a torque for a union nut" in result.stdout.splitlines()


def test_what_never_goes_back_is_on_the_pick_list() -> None:
    result = run("hardware", "ISO 1234 - 3.2 x 22")
    assert "  on the pick list: split pin 3.2 × 22" in result.stdout.splitlines()


def test_a_torque_beyond_the_driver_is_a_warning() -> None:
    # number 20 stands 10.5 to 12.7 N m; a figure given for the joint may be more
    result = run("hardware", "ISO 14583 - M4 x 10 - 4.8", "--torque", "11")
    lines = result.stdout.splitlines()
    assert "  six-lobe driver T20 stands 10.5 to 12.7 N·m [ISO 10664 socket 20; one encyclopaedia table]" in lines
    assert "  11 N·m" in lines
    assert "  given for this joint" in lines
    assert "  warning: more than six-lobe driver T20 stands" in lines
    assert "warning" not in run("hardware", "ISO 14583 - M4 x 10 - 4.8").stdout


def test_a_torque_names_the_wrenches_that_reach_it() -> None:
    result = run("hardware", "ISO 4762 - M8 x 25 - 8.8")
    assert "  with: torque wrench 5 to 25 N m" in result.stdout.splitlines()


def test_a_row_of_hardware_is_printed_too() -> None:
    result = run("hardware", "latched-plug")
    assert result.returncode == 0
    assert result.stdout.splitlines()[:5] == [
        "latched-plug",
        "  latched plug",
        "",
        "Tools, one of each line",
        "  by hand",
    ]


def test_a_wrong_designation_shows_the_place_and_leaves_with_one() -> None:
    result = run("hardware", "ISO 4032 - M8 - 8.8")
    assert result.returncode == 1
    assert result.stdout == ""
    assert result.stderr == (
        "error[bad-designation]: `8.8` is a property class of screws, not nuts\n"
        "  hint: the nut that goes with 8.8 screws is of class 8\n"
        "    ISO 4032 - M8 - 8.8\n"
        "                    ^^^\n"
    )


def test_json_carries_the_same() -> None:
    result = run("hardware", "EN 1254-2 - 22", "--json")
    found = json.loads(result.stdout)
    assert [choice[0]["id"] for choice in found["tools"]] == ["adjustable-spanner", "adjustable-spanner-second"]
    assert (found["torque"]["nm"], found["torque"]["low_nm"], found["torque"]["high_nm"]) == (40.0, 35.0, 45.0)
    assert found["reuse"]["rule"] == "renew"
    assert found["part"] == {"id": "olive-22", "title": "olive 22 mm"}
    none = json.loads(run("hardware", "ISO 4762 - M6 x 25", "--json").stdout)
    assert (none["torque"], none["no_torque"]) == (None, "the property class is not said")


def test_json_of_a_wrong_designation_is_the_list_of_its_errors() -> None:
    result = run("hardware", "ISO 4762 - M9 x 25", "--json")
    assert result.returncode == 1
    assert json.loads(result.stdout) == {
        "designation": "ISO 4762 - M9 x 25",
        "errors": [
            {
                "offset": 11,
                "length": 2,
                "message": "M9 is not a preferred size (ISO 261)",
                "hint": "the nearest: M8 and M10",
            }
        ],
    }
