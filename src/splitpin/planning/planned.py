"""A planned job: the visit, its plan, and the course that the plan was written from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from splitpin.planning.written.course import Course
    from splitpin.records.library import Visit
    from splitpin.records.plan import Plan


@dataclass(frozen=True, slots=True)
class Planned:
    """What planning a visit came to. `course` is None where the plan has no steps."""

    visit: Visit
    plan: Plan
    course: Course | None
