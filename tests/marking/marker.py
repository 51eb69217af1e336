"""Marks plans as an engineer would: what must or must not be there, and in which order, against the plan as printed.

The expectations are TOML beside this module, one file for each assembly, written before the plans were looked at;
`usual.toml` holds what goes for one kind of work on any plant. An expectation is a sentence of the engineer with the
mark of its lack (A: somebody can be hurt; B: a second visit, damage, a wrong strip; C: polish), the law it rests on,
and how it is known: a text of the plan fits `words` when each entry has one of its words (`|` between them) in it.
"""

from __future__ import annotations

import re
import sys
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, get_args

from tests.bundled import LIBRARY

from splitpin.planning import plan_visit
from splitpin.records.firm import FirmFile
from splitpin.records.job import JobFile
from splitpin.records.library import Visit
from splitpin.records.plan import Plan

Mark = Literal["A", "B", "C"]
Where = Literal["steps", "tools", "parts", "proofs", "cautions", "notices", "anywhere"]
HERE = Path(__file__).resolve().parent
FIRM = FirmFile.model_validate(
    {
        "format": 1,
        "firm": {"id": "marking", "title": "Marking", "jurisdiction": "gb"},
        "times": {"pickup_s": 6, "move_s": 8, "basis": "common practice"},
    }
)


@dataclass(frozen=True, kw_only=True)
class Expected:
    """One line of the engineer; `before` and `after` are patterns of other steps that it must stand before or after."""

    mark: Mark
    law: int
    says: str
    words: tuple[str, ...]
    where: Where = "steps"
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    once: bool = False
    absent: bool = False


@dataclass(frozen=True, kw_only=True)
class Marked:
    """A job to be marked: what is asked, the facts of the place, and what is expected of its plan."""

    id: str
    assembly: str
    tasks: tuple[dict[str, str], ...]
    template: tuple[str, ...]
    people: int
    rule_out: tuple[str, ...]
    facts: tuple[str, ...]
    expected: tuple[Expected, ...]

    def visit(self) -> Visit:
        """The job with those of its facts of the place that the library knows."""
        head = {"reference": "M", "title": "marked job", "assembly": self.assembly, "people": self.people}
        asked = {"template": list(self.template), "rule_out": list(self.rule_out)}
        facts = [fact for fact in self.facts if fact in LIBRARY.facts]
        job = {"format": 1, "job": {**head, **asked}, "site": {"facts": facts}, "task": list(self.tasks)}
        return Visit(JobFile.model_validate(job), FIRM, LIBRARY)


def expectations() -> tuple[Marked, ...]:
    """Every job of the folder, file by file; ValueError for a key or a mark that there is none of."""
    usual = {row["id"]: row for row in tomllib.loads((HERE / "usual.toml").read_text(encoding="utf-8"))["usual"]}
    jobs = []
    for file in sorted(HERE.glob("*.toml")):
        data = tomllib.loads(file.read_text(encoding="utf-8"))
        for row in data.get("job", ()):
            groups = [usual[name] for name in row.pop("usual")]
            rows = [one for group in (*groups, row) for one in group["expect"]]
            del row["expect"]
            facts = [*row.pop("facts", ()), *(fact for group in groups for fact in group.get("facts", ()))]
            jobs.append(
                Marked(
                    id=f"{data['assembly']}: {row.pop('id')}",
                    assembly=data["assembly"],
                    tasks=tuple(row.pop("tasks", ())),
                    template=tuple(row.pop("template", ())),
                    people=row.pop("people", 1),
                    rule_out=tuple(row.pop("rule_out", ())),
                    facts=tuple(dict.fromkeys(facts)),
                    expected=tuple(_expected(one) for one in rows),
                )
            )
            if row:
                raise ValueError(f"{file.name}: {jobs[-1].id}: unknown keys {sorted(row)}")
    return tuple(jobs)


def missed(plan: Plan, job: Marked) -> tuple[Expected, ...]:
    """The expectations that the plan does not meet; all of those about presence where there is no plan."""
    texts = printed(plan, job.visit())
    return tuple(row for row in job.expected if not _met(row, texts))


def passes(lines: tuple[Expected, ...]) -> bool:
    """Whether a plan with these lines missed passes: no A, at most two B."""
    return not any(row.mark == "A" for row in lines) and sum(row.mark == "B" for row in lines) <= 2


def printed(plan: Plan, visit: Visit) -> dict[Where, list[str]]:
    """What the sheet says, by where it stands; the steps in their order."""
    cautions = [*plan.cautions, *(caution for step in plan.steps for caution in step.cautions)]
    texts: dict[Where, list[str]] = {
        "steps": [" ".join(part for part in (step.text, step.record, step.lift) if part) for step in plan.steps],
        "tools": [tool.title for tool in plan.tools],
        "parts": [part.title for part in plan.parts],
        "proofs": [
            " ".join((proof.title, proof.failure, *(reading.title for reading in proof.readings)))
            for proof in plan.proofs
        ],
        "cautions": [caution.text for caution in cautions],
        "notices": [*(notice.message for notice in plan.notices), *visit.assembly.assembly.notes],
    }
    texts["notices"] += [condition.title for condition in plan.conditions]
    texts["anywhere"] = [text for rows in texts.values() for text in rows]
    return texts


def _met(row: Expected, texts: dict[Where, list[str]]) -> bool:
    if not texts["steps"]:
        return False
    found = _places(row.words, texts[row.where])
    if row.absent:
        return not found
    if not found or (row.once and len(found) > 1):
        return False
    before, after = (_places(words, texts["steps"]) for words in (row.before, row.after))
    at = _places(row.words, texts["steps"]) if row.before or row.after else found
    if row.before and before and not (at and at[0] < before[0]):
        return False
    return not (row.after and not (after and at and at[-1] > after[0]))


def _places(words: tuple[str, ...], texts: list[str]) -> list[int]:
    if not words:
        return []
    patterns = [re.compile("|".join(_word(one) for one in entry.split("|")), re.IGNORECASE) for entry in words]
    return [at for at, text in enumerate(texts) if all(pattern.search(text) for pattern in patterns)]


def _word(word: str) -> str:
    """Found where a word of the text begins with it; a short one only as a whole word."""
    return rf"\b{re.escape(word)}" + (r"\b" if len(word) <= 3 else "")


def _expected(row: dict[str, object]) -> Expected:
    given = {
        "where" if key == "in" else key: tuple(value) if isinstance(value, list) else value
        for key, value in row.items()
    }
    expected = Expected(**given)  # type: ignore[arg-type]
    if expected.mark not in get_args(Mark) or expected.where not in get_args(Where) or not 1 <= expected.law <= 30:
        raise ValueError(f"no such mark, law or place: {row}")
    return expected


def main() -> None:
    """Print of each job how many lines of each mark are missed, and with `--lines` which."""
    for job in expectations():
        plan = plan_visit(job.visit()).plan
        lines = missed(plan, job)
        counts = " ".join(f"{mark} {sum(row.mark == mark for row in lines)}" for mark in get_args(Mark))
        print(f"{job.id:<70} {plan.status:<10} {counts} of {len(job.expected)}{'  passes' if passes(lines) else ''}")
        if "--lines" in sys.argv:
            for row in lines:
                print(f"    {row.mark} law {row.law}: {row.says}")


if __name__ == "__main__":
    main()
