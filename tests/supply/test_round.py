"""The example round of the fictional firm, and what changes when something is missing."""

import datetime
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from splitpin.planning import plan_visit
from splitpin.reading.round import read_round
from splitpin.reading.stock import read_stock
from splitpin.records.job import Asked
from splitpin.records.library import Round
from splitpin.records.prices import Price
from splitpin.records.round import Stock
from splitpin.records.supply import RoundLoad
from splitpin.supply.loading import load_round
from splitpin.supply.pick import pick_list
from splitpin.supply.store import Stores


@pytest.fixture(scope="module")
def thursday(root: Path) -> Round:
    done, notices = read_round(root / "examples" / "skerrowdale" / "rounds" / "thursday-van-2.toml")
    assert done is not None
    assert [notice for notice in notices if notice.severity == "error"] == []
    return done


@pytest.fixture(scope="module")
def load(thursday: Round) -> RoundLoad:
    return load_round(thursday, {})


def stocked(done: Round, part: str, pieces: int) -> Round:
    """The round with so many pieces of a part in the store."""
    rest = tuple(row for row in done.in_store if row.part != part)
    return replace(done, in_store=(*rest, Stock(part=part, quantity=pieces, location="Z-01")))


def codes(load: RoundLoad) -> list[str]:
    return [notice.code for notice in load.notices]


def test_six_jobs_of_which_two_are_only_symptoms(load: RoundLoad) -> None:
    assert [job.certain for job in load.jobs] == [True, False, True, False, True, True]
    for job in load.jobs:
        assert sum(row.likelihood for row in job.suspects) == pytest.approx(1)
        assert job.chance == pytest.approx(sum(row.likelihood * row.cured for row in job.suspects), abs=1e-5)
    assert load.finished == pytest.approx(sum(job.chance for job in load.jobs), abs=1e-5)


def test_the_board_is_there_once_and_the_job_that_is_sure_of_it_comes_first(load: RoundLoad) -> None:
    board = next(line for line in load.lines if line.part == "heater-main-board")
    assert (board.pieces, board.certain, len(board.jobs)) == (1, 1, 2)
    assert load.jobs[0].chance == 1
    assert next(row for row in load.jobs[1].suspects if "main control board" in row.title).cured == 0
    assert "heater-main-board" in {row.part for row in load.shared}


def test_a_fan_that_is_not_in_stock_is_the_piece_that_would_help_most(thursday: Round, load: RoundLoad) -> None:
    assert load.best_extra is not None
    assert (load.best_extra.part, load.best_extra.in_store) == ("ventilation-fan-extract", False)
    left = next(row for row in load.left if row.part == "ventilation-fan-extract")
    assert (left.why, left.unit, left.wanted, left.there) == ("not-in-stock", "piece", 1, 0)
    more = load_round(stocked(thursday, "ventilation-fan-extract", 1), {})
    assert more.finished == pytest.approx(load.finished + load.best_extra.gain, abs=1e-5)


def test_certain_lines_alone_finish_less_and_everything_costs_more(load: RoundLoad) -> None:
    certain, chosen, everything = load.compared
    assert certain.finished < chosen.finished <= everything.finished
    assert chosen.cost <= min(certain.cost, everything.cost)
    assert chosen.finished == pytest.approx(load.finished)


def test_a_full_van_leaves_something_behind_and_says_so(thursday: Round) -> None:
    head = thursday.van.van.model_copy(update={"payload_kg": 345.0})
    tight = load_round(replace(thursday, van=thursday.van.model_copy(update={"van": head})), {})
    assert tight.mass.always + tight.mass.in_van + tight.mass.drawn <= 345
    crowded = next(row for row in tight.left if row.why == "no-room")
    assert crowded.unit == "kg" and (crowded.wanted or 0) > (crowded.there or 0) >= 0
    assert not next(row for row in tight.compared if row.name == "everything").fits


def test_an_overloaded_van_draws_nothing_that_weighs(thursday: Round) -> None:
    head = thursday.van.van.model_copy(update={"payload_kg": 300.0})
    over = load_round(replace(thursday, van=thursday.van.model_copy(update={"van": head})), {})
    assert "van-overloaded" in codes(over)
    assert over.mass.drawn == 0


def test_a_van_may_be_forbidden_a_part(thursday: Round) -> None:
    head = thursday.van.van.model_copy(update={"may_not_carry": ("nitrogen",)})
    found = load_round(replace(thursday, van=thursday.van.model_copy(update={"van": head})), {})
    assert [row.why for row in found.left if row.part == "nitrogen"] == ["van-may-not"]
    assert found.jobs[5].chance == 0


def test_licences_and_people_that_nobody_brings_are_told(thursday: Round) -> None:
    head = thursday.van.van.model_copy(update={"licences": ("electrical-work",), "people": 1})
    found = load_round(replace(thursday, van=thursday.van.model_copy(update={"van": head})), {})
    assert {"licence-missing", "too-few-people"} <= set(codes(found))
    assert [row.id for row in found.licences if row.held is False] == ["gas-work"]


def test_without_figures_of_the_firm_the_fewest_return_visits_are_sought(thursday: Round) -> None:
    found = load_round(replace(thursday, firm=thursday.firm.model_copy(update={"supply": None})), {})
    assert found.aim == "fewest-return-visits"
    assert {"no-supply", "stock-unknown"} <= set(codes(found))
    assert found.finished == pytest.approx(6)  # whatever is wanted counts as there


def test_an_emergency_in_a_report_stops_that_job_alone(thursday: Round) -> None:
    (row, visit), *rest = thursday.visits
    job = visit.job.model_copy(update={"job": visit.job.job.model_copy(update={"report": "There is a smell of gas."})})
    found = load_round(replace(thursday, visits=((row, replace(visit, job=job)), *rest)), {})
    assert found.jobs[0].chance == 0
    assert "emergency" in found.jobs[0].suspects[0].lacks[0]
    assert "not-planned" in codes(found)
    assert found.jobs[2].chance == 1


def test_an_emergency_that_was_ruled_out_is_told_once_to_those_who_drive(thursday: Round) -> None:
    first, (row, visit), *rest = thursday.visits
    answers = dict.fromkeys(visit.library.emergencies, "no")
    asked = Asked(by="the office", at=datetime.datetime(2027, 3, 10, 9), answers=answers)
    head = visit.job.job.model_copy(update={"report": "There was a smell of gas."})
    job = visit.job.model_copy(update={"job": head, "asked": asked})
    found = load_round(replace(thursday, visits=(first, (row, replace(visit, job=job)), *rest)), {})
    assert codes(found).count("emergency-ruled-out") == 1
    assert found.jobs[1].chance == pytest.approx(0.9)


def test_the_last_job_goes_in_first_and_heavy_things_lie_at_the_bulkhead(load: RoundLoad) -> None:
    order = [job.reference for job in load.jobs]
    turns = [order.index(step.job) for step in load.stowing if "bulkhead" not in step.where]
    assert turns == sorted(turns, reverse=True)
    drawn = {line.part: sum(place.pieces for place in line.draw) for line in load.lines if line.draw}
    assert {step.part: step.pieces for step in load.stowing} == drawn


def test_same_files_same_load(thursday: Round, load: RoundLoad) -> None:
    assert load_round(thursday, {}).model_dump_json() == load.model_dump_json()


def test_a_pick_list_merges_jobs_and_shares_out_what_there_is(thursday: Round, root: Path) -> None:
    jobs = [plan_visit(visit) for _, visit in thursday.visits]
    stores = Stores.of(thursday.in_van, thursday.in_store)
    price = Price(part="case-seal", cost=Decimal("9.80"), supplier_ref="B-2204", gtin="6291041500213")
    picks = pick_list(jobs, stores, {"case-seal": price})
    assert [bool(job.problem) for job in picks.jobs] == [False, True, False, True, False, False]
    for line in picks.lines:
        each = [part.quantity for job in jobs for part in job.plan.parts if part.part == line.part]
        assert line.wanted == (1 if line.kind == "consumable" else sum(each))
        if line.counted or line.kind != "consumable":
            assert line.wanted == line.from_van + line.drawn + line.order
            assert line.from_van == sum(place.pieces for place in line.bins)
        assert all(reason.because for reason in line.reasons)
    seal = next(line for line in picks.lines if line.part == "case-seal")
    assert (seal.supplier_ref, seal.gtin) == ("B-2204", "6291041500213")
    assert (seal.wanted, seal.from_van, [reason.pieces for reason in seal.reasons]) == (2, 2, [1, 1])


def test_every_part_of_the_example_stock_is_in_the_catalogue(thursday: Round, root: Path) -> None:
    for name in ("store-stock.csv", "vans/van-2-stock.csv"):
        _, notices = read_stock(root / "examples" / "skerrowdale" / name, thursday.visits[0][1].library)
        assert notices == ()
