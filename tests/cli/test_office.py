"""The office's commands as they are run: start a job, diagnose, record, look back, report, pack."""

import datetime
import json
import re
import subprocess
from pathlib import Path

import jsonschema
import pytest
import tomli_w
from tests.bundled import LIBRARY
from tests.cli.running import run

ROOT = Path(__file__).resolve().parents[2]
JOB = """\
format = 1
[job]
reference = "T-1"
title = "Pump hums, no flow"
assembly = "circulator-set"
{more}
"""
NO = dict.fromkeys(LIBRARY.emergencies, "no")
ASKED = tomli_w.dumps({"asked": {"by": "the office", "at": datetime.datetime(2027, 1, 5, 8, 30), "answers": NO}})
TASK = '[[task]]\ndo = "replace"\ncomponent = "motor-head"\n'
VISIT = {
    "format": 1,
    "job": "T-1",
    "assembly": "circulator-set",
    "date": "2026-03-01",
    "phases": {"strip": 20, "refit": 30, "prove": 45},
    "readings": [
        {"proof": "earth-continuity", "reading": "earth-continuity", "value": 0.2, "unit": "ohm", "result": "pass"}
    ],
    "found": [{"component": "motor-head", "task": "replace"}],
    "notes": "rotor stuck",
}


def job(folder: Path, more: str, name: str = "job.toml") -> Path:
    path = folder / name
    path.write_text(JOB.format(more=more), encoding="utf-8")
    return path


def visit(folder: Path, **changed: object) -> Path:
    path = folder / "visit.json"
    path.write_text(json.dumps({**VISIT, **changed}), encoding="utf-8")
    return path


def schema(what: str) -> object:
    return json.loads(run("schema", what).stdout)


def ok(*words: object) -> subprocess.CompletedProcess[str]:
    done = run(*words)
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    return done


def test_a_new_job_is_written_once_and_never_over_another(firm: Path) -> None:
    out = firm / "new.toml"
    words = ("new", "circulator-set", "--reference", "N-1", "--title", "noisy pump", "--out", out)
    assert "splitpin plan" in ok(*words).stdout
    before = out.read_text(encoding="utf-8")
    again = run(*words)
    assert again.returncode == 2 and "is there already" in again.stderr
    assert out.read_text(encoding="utf-8") == before
    assert "did you mean circulator-set?" in run("new", "circulator-sett", "--reference", "N", "--title", "t").stderr


def test_a_diagnosis_is_text_json_and_a_page(firm: Path) -> None:
    path = job(firm, 'symptoms = ["no-circulation"]\n' + ASKED)
    assert "Not found: Go on to check 2." in ok("diagnose", path).stdout
    found = json.loads(ok("diagnose", path, "--json").stdout)
    jsonschema.validate(found, schema("diagnosis"))
    assert found["status"] == "proved" and found["visits"] == 0
    assert ok("diagnose", path, "--json").stdout == run("diagnose", path, "--json", seed="7").stdout
    ok("diagnose", path, "--out", firm / "card.html")
    assert "Diagnosis card for job" in (firm / "card.html").read_text(encoding="utf-8")


def test_a_diagnosis_of_a_job_without_symptoms_is_an_error(firm: Path) -> None:
    done = run("diagnose", job(firm, TASK))
    assert done.returncode == 1 and done.stdout == "" and "error[no-symptom]" in done.stderr


def test_a_visit_is_recorded_once_and_teaches(firm: Path) -> None:
    path, actual = job(firm, 'symptoms = ["no-circulation"]\n' + ASKED + TASK), visit(firm)
    jsonschema.validate(VISIT, schema("visit"))
    before = json.loads(run("diagnose", path, "--json").stdout)
    assert "1 h 35 min hands-on against" in ok("record", path, "--actual", actual).stdout
    store = firm / "records" / "visits.sqlite"
    assert store.exists()
    again = run("record", path, "--actual", actual)
    assert again.returncode == 1 and "has a visit of 2026-03-01 on record already" in again.stderr
    ok("record", path, "--actual", actual, "--replace")
    assert "T-1" in ok("history", store).stdout
    after = json.loads(run("diagnose", path, "--json").stdout)
    assert after["visits"] == 1

    def share(diagnosis: dict[str, list[dict[str, object]]]) -> object:
        rows = diagnosis["suspects"]
        return next(row["likelihood"] for row in rows if (row["component"], row["task"]) == ("motor-head", "replace"))

    # weights 0.35, 0.3, 0.2, 0.15 count as ten visits
    assert share(before) == pytest.approx(0.3) and share(after) == pytest.approx(4 / 11)


def test_visits_go_out_as_a_table_and_come_back(firm: Path) -> None:
    path, store = job(firm, TASK), firm / "v.sqlite"
    ok("record", path, "--actual", visit(firm), "--store", store)
    ok("history", store, "--export", firm / "v.csv")
    other = firm / "other.sqlite"
    assert "1 visits taken in, 0 were there" in ok("history", other, "--import", firm / "v.csv").stdout
    assert "0 visits taken in, 1 were there" in ok("history", other, "--import", firm / "v.csv").stdout
    assert ok("history", other, "--json").stdout == ok("history", store, "--json").stdout
    (firm / "bad.csv").write_text("a,b\n", encoding="utf-8")
    bad = run("history", other, "--import", firm / "bad.csv")
    assert bad.returncode == 1 and "the columns must be" in bad.stderr


def test_a_visit_of_another_job_is_not_recorded(firm: Path) -> None:
    done = run("record", job(firm, TASK), "--actual", visit(firm, job="T-2"))
    assert done.returncode == 1 and "error[other-job]: this visit is of job T-2, not of T-1" in done.stderr
    assert not (firm / "records" / "visits.sqlite").exists()


def test_a_report_and_a_pack_are_written(firm: Path) -> None:
    path = job(firm, 'symptoms = ["no-circulation"]\n' + ASKED + TASK)
    ok("report", path, "--actual", visit(firm), "--out", firm / "report.html")
    text = (firm / "report.html").read_text(encoding="utf-8")
    assert "Service record of job" in text and "rotor stuck" in text
    ok("pack", path, "--out", firm / "pack.html", "--date", "2026-03-02")
    text = (firm / "pack.html").read_text(encoding="utf-8")
    headings = ("Pack for job", "Diagnosis card for job", "Step sheet for job", "Pick list for", "Quote for job")
    assert [text.count(heading) for heading in headings] == [1] * 5
    assert sorted(map(text.index, headings)) == [text.index(heading) for heading in headings]
    assert re.findall(r'href="#(part-\d)">([^<]+)<', text) == [
        ("part-2", "Diagnosis card"), ("part-3", "Step sheet"), ("part-4", "Pick list"), ("part-5", "Quote"),
    ]  # fmt: skip
    assert text.count('class="qr"') >= 1


def test_the_pack_of_an_emergency_is_its_stop_page_alone(firm: Path) -> None:
    path = job(firm, 'report = "there is a smell of gas"\nsymptoms = ["no-circulation"]\n' + TASK)
    for name in ("pack", "sheet"):
        done = run(name, path, "--out", firm / f"{name}.html")
        assert done.returncode == 1
    assert (firm / "pack.html").read_text() == (firm / "sheet.html").read_text()
    done = run("pack", path, "--out", firm / "pack.html")
    assert done.stdout == f"{firm / 'pack.html'}: stop page only, no work is planned\n"


def test_a_pack_says_which_documents_it_holds(firm: Path) -> None:
    done = ok("pack", job(firm, TASK), "--out", firm / "pack.html")
    assert done.stdout == f"{firm / 'pack.html'}: 3 documents (step sheet, pick list, quote), proved\n"


def test_every_page_is_written_in_the_language_asked_for(firm: Path) -> None:
    path, out = job(firm, 'symptoms = ["no-circulation"]\n' + ASKED + TASK), firm / "page.html"
    for words, said in (
        (("diagnose", path), "Diagnoseblatt zum Auftrag"),
        (("quote", path), "Angebot zum Auftrag"),
        (("report", path, "--actual", visit(firm)), "Servicebericht zum Auftrag"),
        (("pack", path), "Schrittblatt zum Auftrag"),
    ):
        ok(*words, "--out", out, "--language", "de")
        assert said in out.read_text(encoding="utf-8")
        wrong = run(*words, "--out", out, "--language", "fr")
        assert wrong.returncode == 2 and "it may be en, de, es" in wrong.stderr


def test_a_pocket_sheet_is_one_file_in_each_language(firm: Path) -> None:
    path = job(firm, TASK)
    for language, word in (("en", "Start again"), ("de", "Neu beginnen"), ("es", "Empezar de nuevo")):
        out = firm / f"{language}.html"
        ok("sheet", path, "--pocket", "--language", language, "--out", out)
        text = out.read_text(encoding="utf-8")
        assert word in text and "http" not in text.replace("http-equiv", "")
    wrong = run("sheet", path, "--pocket", "--language", "fr", "--out", firm / "fr.html")
    assert wrong.returncode == 2 and "it may be en, de, es" in wrong.stderr
    assert run("sheet", path, "--pocket", "--out", firm / "x.pdf").returncode == 2


def test_a_visit_to_find_a_fault_teaches_causes_and_no_pace(firm: Path) -> None:
    path = job(firm, 'symptoms = ["no-circulation"]\n' + ASKED)
    assert "against no planned work: it teaches no pace" in ok("record", path, "--actual", visit(firm)).stdout
    told = ok("history", firm / "records" / "visits.sqlite").stdout
    assert "circulator-set, no-circulation: replace motor-head: 1 of 1 (22 to 97 %)" in told


def test_places_where_nothing_can_be_written_are_told(firm: Path) -> None:
    path, actual = job(firm, TASK), visit(firm)
    done = run("record", path, "--actual", actual, "--store", actual / "visits.sqlite")
    assert done.returncode == 2 and "cannot be made for the record of visits" in done.stderr
    store = firm / "v.sqlite"
    ok("record", path, "--actual", actual, "--store", store)
    done = run("history", store, "--export", firm / "nowhere" / "v.csv")
    assert done.returncode == 2 and "--export: there is no folder" in done.stderr
