"""A plan as plain text for a terminal: headings, phases, numbered steps; no colour, nothing that moves the cursor."""

from collections.abc import Iterable, Iterator
from textwrap import wrap

from splitpin.records.plan import Licence, Plan, PlanCalculation, PlanPart, PlanProof, StepCaution
from splitpin.sheets.press import wording
from splitpin.sheets.press.running import Line, running
from splitpin.units import clock, listed

_NARROWEST = 40  # columns; below this the time column would leave no room for words
_TIME = 11  # columns of the time at the right: `1 h 05 min` and a blank
_INDENT = "  "
_STEP_INDENT = " " * 6


def plan_text(plan: Plan, width: int = 80, *, why: bool = False) -> str:
    """The plan in lines of at most `width` columns (40 at least), without a line end after the last.

    `why` adds under each step, tool, part and proof the rules that put it there. Notices are not part of the text.
    """
    width = max(width, _NARROWEST)
    if plan.stops:
        return wording.visible("\n".join(_stop_lines(plan, width)))
    blocks = [
        _head(plan, width),
        _section("Tasks", (_wrapped(wording.sentence(task), width) for task in plan.tasks)),
        _section(
            "Notes on the tasks",
            (_wrapped(f"{wording.sentence(row.task)}: {row.note}", width) for row in plan.task_notes),
        ),
        _section(
            "Not to be done on this visit",
            (_wrapped(f"{wording.sentence(refusal.task)}: {refusal.reason}", width) for refusal in plan.refused),
        ),
        _section("What must hold", (_condition(plan, n, width, why) for n in range(len(plan.conditions)))),
        _section("Who may do it", (_licence(row, width, why) for row in plan.licences)),
        _section("Tools", _tools(plan, width, why)),
        _section("Seals, parts and consumables", (_part(part, width, why) for part in plan.parts)),
        *_steps(plan, width, why),
        _section("Proofs", (_proof(plan, proof, width, why) for proof in plan.proofs)),
        _section("How it was chosen", _choice(plan, width) if why else ()),
        _section("Worked out for this job", (_calculation(plan, row, width, _INDENT) for row in plan.calculations)),
    ]
    return wording.visible("\n\n".join("\n".join(block) for block in blocks if block))


def _choice(plan: Plan, width: int) -> Iterator[list[str]]:
    """The cost of the opening, work apart from set-up, least and printed, and the next best opening."""
    row = plan.choice
    if row is None:
        return
    yield _wrapped(f"The opening costs at least {row.cost_s} s of hands-on time; {row.tried} tried to the end.", width)
    yield _wrapped(f"Work {row.work_s} s, tools and ways {row.setup_s} s; printed {plan.times.elapsed_s} s in all, "
                   f"at the least {row.least_s} s.", width)  # fmt: skip
    if row.next is None:
        yield _wrapped("No other opening can be quicker, or it opens all that this one does and more.", width)
        return
    more = f"{'at least ' * row.next.at_least}{row.next.more_s} s more"
    says = [("opens", row.next.opens), ("spares", row.next.spares)]
    what = listed([f"{verb} {listed(titles)}" for verb, titles in says if titles]) or "opens the same in another order"
    yield _wrapped(f"The next best opening takes {more}: it {what}.", width)


def _stop_lines(plan: Plan, width: int) -> Iterator[str]:
    """The stop page for the terminal."""
    from splitpin.sheets.stop_page import stop

    yield from (*_wrapped(f"{plan.job}: {plan.title}", width, ""), "", stop.heading(plan).upper())
    for row in plan.stops:
        block = stop.stop_block(row)
        yield from ("", *_wrapped(f"{block.title}. {block.said}", width, "", ""), *_wrapped(block.caller, width))
        for number, line in enumerate(block.do, 1):
            yield from _wrapped(line, width, f"{number:>4}  ", _STEP_INDENT)
        yield from (*_wrapped(block.call, width), *_wrapped(f"Advice: {block.origin}", width))
    if plan.ruled_out:
        yield from ("", *_wrapped(f"Ruled out: {plan.ruled_out}", width, ""))
    yield from ("", *_wrapped(stop.FIRST, width, "", ""), *_wrapped(stop.AFTERWARDS, width, "", ""))


def _head(plan: Plan, width: int) -> list[str]:
    times = plan.times
    return [
        *_wrapped(f"{plan.job}: {plan.title}", width, ""),
        *_wrapped(f"{wording.sentence(plan.assembly_title)} ({plan.assembly})", width, ""),
        "",
        *_wrapped(
            f"Hands-on {clock(times.hands_on_s)}, waiting {clock(times.waiting_s)}, elapsed {clock(times.elapsed_s)}; "
            f"{wording.people_words(plan.people)}.",
            width,
            "",
        ),
        *_wrapped(wording.sentence(wording.how_proved(plan)) + ".", width, ""),
        *(_wrapped(f"Best under the habits {', '.join(plan.habits)}.", width, "") if plan.habits else []),
        *(_wrapped(f"Emergency ruled out: {plan.ruled_out}", width, "") if plan.ruled_out else []),
    ]


def _section(heading: str, items: Iterable[list[str]]) -> list[str]:
    lines = [line for item in items for line in item]
    return [heading.upper(), *lines] if lines else []


def _wrapped(text: str, width: int, indent: str = _INDENT, hanging: str | None = None) -> list[str]:
    """The text in lines; at least one, even where the text is blank."""
    lines = wrap(
        text,
        width,
        initial_indent=indent,
        subsequent_indent=indent + _INDENT if hanging is None else hanging,
        break_on_hyphens=False,
    )
    return lines or [indent.rstrip()]


def _item(text: str, because: tuple[str, ...], width: int, why: bool, indent: str = _INDENT) -> list[str]:
    lines = _wrapped(text, width, indent)
    if why:
        for reason in because:
            lines += _wrapped(f"because {reason}", width, indent + _INDENT)
    return lines


def _licence(row: Licence, width: int, why: bool) -> list[str]:
    steps = wording.licence_words(row)
    return _item(wording.sentence(row.person) + (f": {steps}" if steps else ""), row.because, width, why)


def _condition(plan: Plan, n: int, width: int, why: bool) -> list[str]:
    condition = plan.conditions[n]
    words = wording.condition_words(plan, condition)
    text = wording.sentence(condition.title) + (f": {words}" if words else "")
    return _item(text, condition.because, width, why)


def _tools(plan: Plan, width: int, why: bool) -> Iterator[list[str]]:
    for tool in plan.tools:
        text = wording.sentence(tool.title) + ("" if tool.owned else f" ({wording.NOT_OWNED})")
        yield _item(text, tool.because, width, why)


def _part(part: PlanPart, width: int, why: bool) -> list[str]:
    doubt = "" if part.certain else ", only if the inspection says so"
    return _item(f"{part.quantity} × {part.title} ({wording.part_words(part)}{doubt})", part.because, width, why)


def _steps(plan: Plan, width: int, why: bool) -> Iterator[list[str]]:
    """A block for each run of a phase."""
    course = running(plan)
    block: list[str] = []
    for line in course.lines:
        if line.opens_phase:
            if block:
                yield block
            block = [wording.phase_heading(line).upper()]
        block += _step(plan, line, width, why)
    if course.rest:
        block += _wrapped(wording.idle_words(course.rest), width)
    yield block


def _step(plan: Plan, line: Line, width: int, why: bool) -> list[str]:
    step = line.step
    before = _wrapped(wording.idle_words(line.idle), width) if line.idle else []
    if heading := wording.proof_heading(plan, line):
        before += _wrapped(heading, width)
    for caution in wording.gravest_first(step.cautions):
        before += _caution(caution, width)
    words = _wrapped(step.text, width - _TIME, f"{step.n:>4}  ", _STEP_INDENT)
    words[0] = f"{words[0]:<{width - _TIME}}{clock(step.seconds):>{_TIME}}"
    titles = wording.tool_titles(plan)
    details = [
        *([wording.people_words(step.people)] if step.people > 1 else []),
        *([wording.spoken(step.position)] if step.position else []),
        *(titles.get(tool, wording.spoken(tool)) for tool in step.tools),
    ]
    under = [
        "; ".join(details),
        step.lift or "",
        wording.torque_words(step) or "",
        *wording.seal_words(plan, step),
        f"Write down: {step.record}" if step.record else "",
        wording.wait_words(line) or "",
        *((f"because {reason}" for reason in step.because) if why else ()),
    ]
    return before + words + [part for text in under if text for part in _wrapped(text, width, _STEP_INDENT)]


def _caution(caution: StepCaution, width: int) -> list[str]:
    return _wrapped(f"{caution.word}: {caution.text}", width, _INDENT + "! ")


def _proof(plan: Plan, proof: PlanProof, width: int, why: bool) -> list[str]:
    lines = _wrapped(f"{wording.sentence(proof.title)} ({wording.proof_words(plan, proof)})", width)
    deeper = _INDENT * 2
    if proof.joints:
        lines += _wrapped("Joints: " + ", ".join(wording.spoken(joint) for joint in proof.joints), width, deeper)
    for reading in proof.readings:
        source = wording.limit_source(reading)
        text = f"{wording.sentence(reading.title)}: {wording.limit_words(reading)}" + (f" ({source})" if source else "")
        lines += _wrapped(text, width, deeper)
    for calculation in proof.calculations:
        lines += _calculation(plan, calculation, width, deeper)
    lines += _wrapped(f"If it fails: {proof.failure}", width, deeper)
    if why:
        for reason in proof.because:
            lines += _wrapped(f"because {reason}", width, deeper)
    return lines


def _calculation(plan: Plan, row: PlanCalculation, width: int, indent: str) -> list[str]:
    """A calculation; its formula and source only where it stands first."""
    deeper = indent + _INDENT
    lines = _wrapped(f"Work out: {row.title}", width, indent)
    for one in row.inputs:
        known = wording.input_words(one) or f"… {one.unit}".rstrip()
        lines += _wrapped(f"{one.title}, {one.name}: {known}", width, deeper)
    for figure in row.figures:
        verdict = wording.verdict_words(figure)
        text = f"{wording.sentence(figure.title)} = {wording.figure_words(figure) or f'… {figure.unit}'.rstrip()}"
        lines += _wrapped(text + (f" ({verdict})" if verdict else ""), width, deeper)
    if row.outside:
        lines += _wrapped(wording.sentence(row.outside), width, deeper)
    every = (*(one for proof in plan.proofs for one in proof.calculations), *plan.calculations)
    if next(one for one in every if one.name == row.name) is not row:
        return lines
    tail = [f"Formula: {row.formula}", f"Source: {row.source}", row.note]
    return [*lines, *(line for text in tail if text for line in _wrapped(text, width, deeper))]
