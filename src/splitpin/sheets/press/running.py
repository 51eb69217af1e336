"""The steps in running order: where a phase begins or is taken up again, and where one has to stand and wait.

A step's wait runs by itself once its hands-on part is over, so the work goes on under it; only where the next step
starts later than the hands are free is time stood out. By hand: step 1 takes 60 s, then 600 s run by themselves; step 2
takes 120 s from 60 on; step 3 starts at 660. Step 1 says "carry on", and 480 s for step 1 are stood out before step 3.
A step that waits for another may begin a little before that wait is over, for the tool is picked up meanwhile.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from splitpin.records.plan import Phase, Plan, Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Idle:
    """Time stood out, in seconds, and the number of the step whose wait it is; None where no wait ends then."""

    seconds: int
    step: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A step in its place. `opens_proof`: the first of its proof; `wait_here`: its whole wait is stood out at once."""

    step: Step
    opens_phase: bool
    phase_again: bool
    opens_proof: bool
    idle: Idle | None
    wait_here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """Every step of a plan in order, and what is still to be waited for after the last one."""

    lines: tuple[Line, ...]
    rest: Idle | None


def running(plan: Plan) -> Running:
    """The steps of `plan` in its own order. Cost grows with the number of steps times the number of waits."""
    lines: list[Line] = []
    met: set[Phase] = set()
    phase: Phase | None = None
    proof: str | None = None
    busy_until = 0
    for index, step in enumerate(plan.steps):
        following = plan.steps[index + 1] if index + 1 < len(plan.steps) else None
        free_at = _hands_off(step)
        wait_here = step.wait_s > 0 and (
            following is None or (following.start_s > free_at and _hands_off(following) >= _wait_ends(step))
        )
        lines.append(
            Line(
                step=step,
                opens_phase=step.phase != phase,
                phase_again=step.phase != phase and step.phase in met,
                opens_proof=step.proof is not None and step.proof != proof,
                idle=_idle(plan.steps[:index], busy_until, step.start_s, _hands_off(step)),
                wait_here=wait_here,
            )
        )
        phase, proof = step.phase, step.proof
        met.add(phase)
        busy_until = free_at + (step.wait_s if wait_here else 0)
    end = max(map(_wait_ends, plan.steps), default=0)
    return Running(lines=tuple(lines), rest=_idle(plan.steps, busy_until, end, end))


def _hands_off(step: Step) -> int:
    return step.start_s + step.seconds


def _wait_ends(step: Step) -> int:
    return _hands_off(step) + step.wait_s


def _idle(before: Sequence[Step], busy_until: int, starts_at: int, done_at: int) -> Idle | None:
    """The time from `busy_until` to `starts_at`, put down to the first wait that ends once the step has begun, else to
    the last that ended before; of several that end together, to that of the lowest step.
    """
    if starts_at <= busy_until:
        return None
    waits = [step for step in before if step.wait_s and busy_until < _wait_ends(step) <= done_at]
    for_it = min((_wait_ends(step) for step in waits if _wait_ends(step) >= starts_at), default=None)
    end = for_it if for_it is not None else max(map(_wait_ends, waits), default=None)
    cause = next((step.n for step in waits if _wait_ends(step) == end), None)
    return Idle(seconds=starts_at - busy_until, step=cause)
