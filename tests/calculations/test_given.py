"""Inputs as typed: everything wrong is said at once, with what is allowed and what to do."""

import pytest

from splitpin.calculations.answer import Answer, take
from splitpin.calculations.given import Problem
from splitpin.calculations.register import READINGS


def problems(name: str, *pairs: str) -> list[tuple[str | None, str, str]]:
    found = take(READINGS[name], pairs, {})
    assert isinstance(found, tuple), found
    return [(problem.input, problem.message, problem.hint) for problem in found]


def test_a_missing_input_says_what_it_is_and_what_is_allowed() -> None:
    assert problems("co-co2-ratio", "co_ppm=40") == [
        (
            "co2_percent",
            "`co2_percent` is missing: carbon dioxide in the products",
            "add co2_percent=…, 0.1 to 21 %",
        )
    ]


def test_a_mistyped_name_is_put_right_and_not_called_missing_too() -> None:
    assert problems("co-co2-ratio", "co_pmm=40", "co2_percent=8") == [
        ("co_pmm", "co-co2-ratio has no input `co_pmm`", "did you mean `co_ppm`?")
    ]


@pytest.mark.parametrize("text", ["361ppm", "9,0", "nan", "inf", "1e3", "", "1_000", "½", "٣", "--5", "0x10", "."])
def test_only_a_plain_decimal_is_a_figure(text: str) -> None:
    assert problems("co-co2-ratio", f"co_ppm={text}", "co2_percent=8") == [
        (
            "co_ppm",
            f"`co_ppm={text}` is not a figure",
            "write the figure alone, in ppm, with a decimal point; 0 to 20000 ppm",
        )
    ]


@pytest.mark.parametrize("text", ["0", "0.0999999", "-8", "21.001"])
def test_out_of_range_says_the_range(text: str) -> None:
    assert problems("co-co2-ratio", "co_ppm=40", f"co2_percent={text}") == [
        (
            "co2_percent",
            f"`co2_percent={text}` is out of range",
            "carbon dioxide in the products: 0.1 to 21 %; check the figure and its unit",
        )
    ]


@pytest.mark.parametrize("text", ["0.1", "21", "+8", "8.", " 8 ", ".5"])
def test_the_ends_of_the_range_belong_to_it(text: str) -> None:
    assert isinstance(take(READINGS["co-co2-ratio"], ["co_ppm=0", f"co2_percent={text}"], {}), Answer)


def test_a_choice_lists_its_words() -> None:
    assert problems("installation-volume", "meter=g6") == [
        ("meter", "`meter=g6` is not a choice", "the meter: g4, u6, u16 or none")
    ]


def test_a_flag_is_yes_or_no() -> None:
    assert problems("gas-energy", "volume_m3=1", "corrected=true") == [
        (
            "corrected",
            "`corrected=true` is not a choice",
            "multiply by 1.02264 for temperature and pressure, as bills do: yes or no",
        )
    ]


def test_all_that_is_wrong_is_said_at_once() -> None:
    found = problems("co-co2-ratio", "hello", "co_ppm=-1", "co_ppm=2", "volume=3")
    assert [message for _, message, _ in found] == [
        "`hello` is not an input",
        "`co_ppm=-1` is out of range",
        "`co_ppm` is given twice",
        "co-co2-ratio has no input `volume`",
        "`co2_percent` is missing: carbon dioxide in the products",
    ]


def test_an_answer_shows_every_input_and_which_were_by_default() -> None:
    found = take(READINGS["gas-rate-metric"], ["seconds=120", "volume_m3=0.040"], {})
    assert isinstance(found, Answer)
    assert [(one.input.name, one.text, one.by_default) for one in found.given] == [
        ("volume_m3", "0.040", False),
        ("seconds", "120", False),
        ("cv_mj_m3", "39.5", True),
        ("corrected", "no", True),
        ("net_divisor", "1.11", True),
    ]


@pytest.mark.parametrize(
    ("name", "pairs", "message", "hint"),
    [
        (
            "vessel-precharge",
            "static_m=10.1 rule=one-bar",
            "the rule of 1 bar ends at 10 m of static height",
            "take rule=static-plus",
        ),
        (
            "vessel-pressures",
            "system_l=100 initial_bar=2 final_bar=2",
            "the final pressure of 2.00 bar is not above the initial 2.00 bar: no vessel is large enough",
            "check the static height and the setting of the relief valve",
        ),
        (
            "vessel-fill-range",
            "vessel_l=3 system_l=100 static_m=5 reserve_rule=3-litres",
            "the reserve of 3.0 l fills the whole vessel",
            "it is far too small: size it by vessel-reserve",
        ),
        (
            "vessel-table",
            "system_l=100 relief_bar=2.0 initial_bar=1.5",
            "the table has no vessel for 1.5 bar under a relief valve of 2.0 bar",
            "take a lower initial pressure or size it by vessel-pressures",
        ),
        (
            "pump-head",
            "flow_l_s=1 suction_bar=2 discharge_bar=1",
            "the discharge pressure is not above the suction pressure",
            "check which gauge is which",
        ),
        (
            "discharge-pipe",
            "valve=g1/2 run_m=30 elbows=10",
            "no size of the table will do for 30.0 m with 10 elbows: "
            "22 mm (allows 1.0 m), 28 mm (allows 8.0 m), 35 mm (allows 13.0 m)",
            "shorten the run, take elbows out, or have the pipe designed",
        ),
        ("discharge-pipe", "valve=g1 run_m=3 elbows=1.5", "elbows are counted whole", "count the next one up"),
    ],
)
def test_where_the_method_ends_the_answer_says_so(name: str, pairs: str, message: str, hint: str) -> None:
    found = take(READINGS[name], pairs.split(), {})
    assert found == (Problem(None, message, hint),)
