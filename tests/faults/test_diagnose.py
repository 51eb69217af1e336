"""From a job's symptoms to the sequence of checks: the heater, and laws over the symptoms of the catalogue."""

import itertools
from pathlib import Path

import pytest
from tests.bundled import LIBRARY
from tests.examples import firm_in

from splitpin.faults import diagnose
from splitpin.faults.suspects import cases, likelihoods, symptoms_of
from splitpin.reading.visit import read_visit
from splitpin.records.diagnosis import Diagnosis
from splitpin.records.library import Visit
from splitpin.sheets.office.diagnosis import diagnosis_document
from splitpin.sheets.press.terminal import text as text_of

ASSEMBLIES = sorted(LIBRARY.assemblies)


def visit_with(tmp_path: Path, assembly: str, symptoms: list[str], more: str = "") -> Visit:
    path = firm_in(tmp_path) / "job.toml"
    names = ", ".join(f'"{name}"' for name in symptoms)
    head = f'format = 1\n[job]\nreference = "T-1"\ntitle = "test"\nassembly = "{assembly}"\nsymptoms = [{names}]\n'
    path.write_text(head + more, encoding="utf-8")
    visit, notices = read_visit(path)
    assert visit is not None, notices
    return visit


@pytest.fixture(scope="module")
def losing_flame(tmp_path_factory: pytest.TempPathFactory) -> Visit:
    return visit_with(tmp_path_factory.mktemp("job"), "wall-hung-combination-heater", ["flame-lost"])


@pytest.fixture(scope="module")
def flame_lost(losing_flame: Visit) -> Diagnosis:
    return diagnose(losing_flame)


def test_checks_behind_the_casing_share_its_removal(flame_lost: Diagnosis) -> None:
    opened = [text for row in flame_lost.suspects for text in row.check.opens]
    assert opened.count("front casing out") == 1
    assert len(opened) == len(set(opened))


def test_times_run_on_through_the_sequence(flame_lost: Diagnosis) -> None:
    clock = 0
    for row in flame_lost.suspects:
        clock += row.check.opening_s + row.check.seconds
        assert row.found_s == clock
        assert sum(item.seconds for item in row.check.reach) == row.check.opening_s
        assert row.finish_s > row.found_s
    assert sum(row.likelihood for row in flame_lost.suspects) == pytest.approx(1)


def test_no_other_sequence_finds_the_fault_sooner(flame_lost: Diagnosis, tmp_path: Path) -> None:
    """All 120 sequences, timed from the steps of each check's own plan: a step counts once, the longer of two alike.

    A live check puts the supply back and isolates again, if a check has isolated it by then.
    """
    found = cases(visit_with(tmp_path, "wall-hung-combination-heater", ["flame-lost"]))
    dead = LIBRARY.conditions["electrically-dead"]
    again = 60 * sum(step.min for step in (*dead.release, *dead.make))
    isolating = {step.text for step in dead.make}
    taken: dict[str, int] = {}
    needs = []
    for case in found:
        steps = case.checking.steps
        own = [
            (a.text, b.start_s - a.start_s) for a, b in itertools.pairwise(steps) if a.phase in ("make-safe", "strip")
        ]
        needs.append({text for text, _ in own})
        for text, seconds in own:
            taken[text] = max(seconds, taken.get(text, 0))

    def expected(order: tuple[int, ...]) -> float:
        clock, total, done = 0.0, 0.0, set[str]()
        for suspect in order:
            clock += sum(taken[text] for text in needs[suspect] - done) + found[suspect].row.check.min * 60
            clock += again if found[suspect].row.check.live and isolating & (done | needs[suspect]) else 0
            done |= needs[suspect]
            total += found[suspect].likelihood * clock
        return total

    assert flame_lost.status == "proved"
    assert flame_lost.expected_find_s == round(min(map(expected, itertools.permutations(range(len(found))))))
    assert flame_lost.comparison is not None
    assert flame_lost.expected_find_s <= flame_lost.comparison.likeliest_first_s
    assert flame_lost.expected_find_s <= flame_lost.comparison.cheapest_first_s


def test_a_check_that_needs_the_supply_warns_and_counts_putting_it_back(
    flame_lost: Diagnosis, losing_flame: Visit
) -> None:
    live = {row.component: row.check for row in flame_lost.suspects if row.check.live}
    assert set(live) == {"sensing-electrode", "gas-valve", "main-board"}
    # by hand: 0.5 + 0.5 + 0.25 min to put it back; 1 + 1 + 0.5 + 1 + 0.25 + 1 + 0.25 min to isolate again
    assert live["main-board"].supply_s == 375 and live["main-board"].seconds == 5 * 60 + 375
    assert live["sensing-electrode"].supply_s == 0  # it comes first, before anything is made dead
    text = " ".join(text_of(diagnosis_document(flame_lost, losing_flame.job, losing_flame.firm)).split())
    assert text.count("DANGER: supply on for this check only") == 1
    assert text.count("Supply on for this check; every cover stays closed.") == 2  # nothing was opened or made dead yet
    assert "Isolate and prove dead again" in " ".join(text.split())


def test_a_live_check_before_anything_is_made_dead_costs_nothing_more(tmp_path: Path) -> None:
    diagnosis = diagnose(visit_with(tmp_path, "circulator-set", ["pump-noise"]))
    live = [row.check for row in diagnosis.suspects if row.check.live]
    assert live and all(check.supply_s == 0 for check in live)


def test_each_repair_names_its_parts_and_minutes(flame_lost: Diagnosis) -> None:
    electrode = next(row for row in flame_lost.suspects if row.component == "sensing-electrode")
    parts = {part.part for part in electrode.repair.parts}
    assert any("electrode" in part for part in parts)
    assert electrode.repair.elapsed_s > 0 and electrode.repair.tools


def test_a_repair_that_is_closed_to_us_says_who_may(tmp_path: Path) -> None:
    library = LIBRARY
    pump = library.assemblies["monobloc-heat-pump"]
    closed = {component.id for component in pump.component if component.closed_to}
    symptom = next(row for row in pump.symptom if any(suspect.component in closed for suspect in row.suspects))
    diagnosis = diagnose(visit_with(tmp_path, "monobloc-heat-pump", [symptom.id]))
    refused = [row for row in diagnosis.suspects if row.component in closed]
    assert refused and all(row.repair.status == "impossible" and "only" in (row.repair.reason or "") for row in refused)


def test_a_job_without_symptoms_is_told_so(tmp_path: Path) -> None:
    visit = visit_with(tmp_path, "circulator-set", [], '[[task]]\ndo = "replace"\ncomponent = "motor-head"\n')
    diagnosis = diagnose(visit)
    assert diagnosis.status == "impossible" and not diagnosis.suspects
    assert [notice.code for notice in diagnosis.notices] == ["no-symptom"]


def test_two_symptoms_point_to_the_suspects_they_share(tmp_path: Path) -> None:
    visit = visit_with(tmp_path, "wall-hung-combination-heater", ["no-ignition", "flame-lost"])
    shares = likelihoods(symptoms_of(visit), {})
    assert set(shares) == {("trap", "clean"), ("main-board", "replace")}
    # 0.15 x 0.2 against 0.15 x 0.1
    assert shares["trap", "clean"] == pytest.approx(2 / 3)


def test_symptoms_that_share_no_suspect_keep_them_all(tmp_path: Path) -> None:
    visit = visit_with(tmp_path, "wall-hung-combination-heater", ["pressure-rises", "gurgling"])
    shares = likelihoods(symptoms_of(visit), {})
    assert len(shares) == 5 and sum(shares.values()) == pytest.approx(1)


def test_counted_likelihoods_stand_in_place_of_the_files(tmp_path: Path) -> None:
    visit = visit_with(tmp_path, "wall-hung-combination-heater", ["gurgling"])
    shares = likelihoods(symptoms_of(visit), {"gurgling": {("trap", "clean"): 1.0, ("exchanger", "clean"): 3.0}})
    assert shares == {("trap", "clean"): 0.25, ("exchanger", "clean"): 0.75}


@pytest.mark.parametrize("assembly", ASSEMBLIES)
def test_every_symptom_of_the_catalogue_has_a_sequence(assembly: str, tmp_path: Path) -> None:
    library = LIBRARY
    rows = library.assemblies[assembly].symptom
    assert rows
    for symptom in itertools.islice(rows, 2):
        diagnosis = diagnose(visit_with(tmp_path, assembly, [symptom.id]))
        assert {(row.component, row.task) for row in diagnosis.suspects} == {
            (row.component, row.task) for row in symptom.suspects
        }
        assert diagnosis.status == "proved"
