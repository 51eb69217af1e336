"""The record of visits: nothing that was committed is lost, whoever writes and whatever ends the writer."""

import os
import sqlite3
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from tests.history.made import visit

from splitpin.history import AlreadyThere, PastVisit, StoreError, store
from splitpin.history.store import KIND, VERSION

ROOT = Path(__file__).resolve().parents[2]


def writer(path: Path, name: str, count: int) -> "subprocess.Popen[str]":
    words = [sys.executable, "-m", "tests.history.writer", str(path), name, str(count)]
    return subprocess.Popen(
        words, cwd=ROOT, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": str(ROOT)}
    )


def visits(path: Path) -> tuple[PastVisit, ...]:
    with store(path) as opened:
        return opened.visits()


def sound(path: Path) -> bool:
    connection = sqlite3.connect(path)
    answer = connection.execute("PRAGMA integrity_check").fetchone()[0]
    connection.close()
    return bool(answer == "ok")


def test_what_is_recorded_comes_back_the_same(tmp_path: Path) -> None:
    path = tmp_path / "visits.sqlite"
    one, other = visit("B"), visit("A", waiting_s=60.0, notes=None, phases={}, readings=(), found=())
    with store(path, create=True) as opened:
        opened.add_all([one, other])
    assert visits(path) == (other, one)


def test_a_job_has_one_visit_a_day_unless_it_is_replaced(tmp_path: Path) -> None:
    path = tmp_path / "visits.sqlite"
    with store(path, create=True) as opened:
        opened.add(visit())
        with pytest.raises(AlreadyThere, match="J-1 has a visit of 2026-03-01"):
            opened.add(visit(taken_s=1.0))
        assert opened.visits() == (visit(),)
        opened.add(visit(taken_s=1.0), replace=True)
        assert opened.visits() == (visit(taken_s=1.0),)


def test_of_many_visits_all_are_recorded_or_none(tmp_path: Path) -> None:
    path = tmp_path / "visits.sqlite"
    with store(path, create=True) as opened, pytest.raises(AlreadyThere):
        opened.add_all([visit("A"), visit("B"), visit("A")])
    assert visits(path) == ()


def killed(path: Path, rounds: int) -> None:
    """Kill the writer at once after it said how far it is, and look for every visit it said."""
    said: list[str] = []
    for number in range(rounds):
        with writer(path, f"round{number}", 10_000) as process:
            assert process.stdout is not None
            for _ in range(1 + number % 4):
                said.append(process.stdout.readline().strip())
            time.sleep(0.001 * (number % 7))
            process.kill()
            said += [line for line in process.stdout.read().split("\n") if line]
        assert sound(path)
        there = {one.job for one in visits(path)}
        assert set(said) <= there
    assert len(said) >= rounds


def test_a_killed_writer_loses_no_committed_visit(tmp_path: Path) -> None:
    killed(tmp_path / "visits.sqlite", 10)


@pytest.mark.benchmark
def test_a_hundred_killed_writers_lose_no_committed_visit(tmp_path: Path) -> None:
    killed(tmp_path / "visits.sqlite", 100)


def test_eight_writers_at_once_all_land(tmp_path: Path) -> None:
    path = tmp_path / "visits.sqlite"
    processes = [writer(path, f"w{number}", 12) for number in range(8)]
    for process in processes:
        process.communicate(timeout=120)
        assert process.returncode == 0
    assert {one.job for one in visits(path)} == {f"w{n}-{k}" for n in range(8) for k in range(12)}
    assert sound(path)


def test_a_store_that_many_begin_at_once_takes_them_all(tmp_path: Path) -> None:
    """None of them takes the other's half-laid file for a foreign one, or gives up while it changes its mode."""
    for number in range(30):
        path = tmp_path / f"{number}.sqlite"
        together = threading.Barrier(8)

        def one(name: int, path: Path = path, together: threading.Barrier = together) -> None:
            together.wait()
            with store(path, create=True) as opened:
                opened.add(visit(str(name)))

        with ThreadPoolExecutor(8) as pool:
            list(pool.map(one, range(8)))
        assert [past.job for past in visits(path)] == [str(name) for name in range(8)]


def test_what_is_missing_is_added_and_the_rest_left_alone(tmp_path: Path) -> None:
    with store(tmp_path / "visits.sqlite", create=True) as opened:
        opened.add(visit("A"))
        assert opened.add_missing([visit("A", taken_s=1.0), visit("B")]) == 1
        assert opened.visits() == (visit("A"), visit("B"))
        with pytest.raises(AlreadyThere):
            opened.add_missing([visit("C"), visit("D"), visit("D")])
        assert opened.visits() == (visit("A"), visit("B"))


def test_a_file_that_is_none_of_ours_is_refused(tmp_path: Path) -> None:
    text = tmp_path / "text.sqlite"
    text.write_text("job,date\n" * 200, encoding="utf-8")
    with pytest.raises(StoreError, match="is no record of visits"), store(text, create=True):
        pass
    other = tmp_path / "other.sqlite"
    connection = sqlite3.connect(other)
    connection.execute("CREATE TABLE x (y)")
    connection.commit()
    connection.close()
    with pytest.raises(StoreError, match="database of something else"), store(other, create=True):
        pass
    with pytest.raises(StoreError, match="there is no record"), store(tmp_path / "none.sqlite"):
        pass
    with pytest.raises(StoreError, match="cannot be opened"), store(tmp_path, create=True):
        pass


def test_a_store_of_a_newer_version_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "visits.sqlite"
    with store(path, create=True) as opened:
        opened.add(visit())
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA application_id").fetchone()[0] == KIND
    connection.execute(f"PRAGMA user_version = {VERSION + 1}")
    connection.close()
    with pytest.raises(StoreError, match=f"newer splitpin \\(version {VERSION + 1}"), store(path):
        pass
