"""The fixed phrases that paper and terminal share, so that the same thing has the same words on both."""

import datetime
import re
from collections import Counter
from collections.abc import Iterable

from splitpin.readings import NOT_SET
from splitpin.records.plan import (
    Licence,
    Plan,
    PlanCondition,
    PlanFigure,
    PlanInput,
    PlanPart,
    PlanProof,
    PlanReading,
    Step,
    StepCaution,
)
from splitpin.sheets.running import Idle, Line
from splitpin.units import clock, counted, listed, number

PHASES = {
    "make-safe": "Make safe",
    "strip": "Strip",
    "work": "Work",
    "refit": "Refit",
    "release": "Release",
    "prove": "Prove",
    "hand-over": "Hand over",
}
STAGES = {
    "open": "joints still in sight",
    "closed": "everything back in place",
    "live": "plant running",
}
PART_KINDS = {
    "replace": "new part",
    "seal": "new seal",
    "single-use": "used once only",
    "consumable": "consumable",
}
WORDS = ("DANGER", "WARNING", "CAUTION", "NOTICE")  # gravest first
NO_LIMIT = "for the record"
YES_NO = "yes/no"  # the unit of a reading that is a question
NOT_OWNED = "not on the firm's tool list"
STANDING = (
    "The maker's instructions, local codes and licensed persons come first. Where they and this sheet differ, "
    "follow them. Where the plant is not as described here, stop and ask."
)

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)+")

# A control character would move a terminal's cursor or end a page; its picture from the same alphabet does neither.
_VISIBLE = {code: 0x2400 + code for code in range(0x20) if chr(code) not in "\t\n"}
_VISIBLE |= {0x7F: 0x2421} | dict.fromkeys(range(0x80, 0xA0), 0xFFFD)


def visible(text: str) -> str:
    """The text with every control character but tab and line end made visible."""
    return text.translate(_VISIBLE)


def spoken(name: str) -> str:
    """An id as words: `terminal-side` becomes `terminal side`; anything else stays as it is."""
    return name.replace("-", " ") if _ID.fullmatch(name) else name


def day(date: datetime.date) -> str:
    """`Wed 25 Nov 2026`, in English whatever the machine is set to."""
    return f"{_DAYS[date.weekday()]} {date.day} {_MONTHS[date.month - 1]} {date.year}"


def how_proved(plan: Plan) -> str:
    """How the search ended, in one of three phrases that never stand for each other.

    A job that is impossible as asked may leave work that can be done; its order is then spoken of apart.
    """
    order = f"best order found, at most {clock(plan.gap_s)} from best" if plan.gap_s else "order proved best"
    if plan.status != "impossible":
        return order
    return f"proved impossible as asked; for the rest, {order}" if plan.steps else "proved impossible"


def phase_heading(line: Line) -> str:
    """The heading above the first step of a run of one phase."""
    return PHASES[line.step.phase] + (" (continued)" if line.phase_again else "")


def proof_heading(plan: Plan, line: Line) -> str | None:
    """What the next steps prove, above the first of them; None elsewhere."""
    if not line.opens_proof:
        return None
    return next((f"Proof: {proof.title}" for proof in plan.proofs if proof.id == line.step.proof), None)


def wait_words(line: Line) -> str | None:
    """What to do about the wait that a step starts; None where it starts none."""
    if not line.step.wait_s:
        return None
    if line.wait_here:
        return f"Then wait here {clock(line.step.wait_s)}."
    return f"Then wait {clock(line.step.wait_s)}: carry on with the next steps."


def idle_words(idle: Idle) -> str:
    """What is stood out before a step, and for which earlier step."""
    if idle.step is None:
        return f"Wait here {clock(idle.seconds)}."
    return f"Wait here about {clock(idle.seconds)}, until the wait of step {idle.step} is over."


def part_words(part: PlanPart) -> str:
    """What is said after a part: its kind, and how many are in a pack; consumables are under their own heading."""
    pack = [f"packs of {part.pack}"] if part.pack is not None and part.pack > 1 else []
    return ", ".join([PART_KINDS[part.kind], *pack])


def torque_words(step: Step) -> str | None:
    """`Tighten to 9 N·m`, where a torque is given and the step's own sentence does not say it."""
    if step.torque_nm is None or f"to {number(step.torque_nm)} N·m" in step.text:
        return None
    return f"Tighten to {number(step.torque_nm)} N·m"


def tool_titles(plan: Plan) -> dict[str, str]:
    """Titles of the plan's tools by id."""
    return {tool.id: tool.title for tool in plan.tools}


def seal_words(plan: Plan, step: Step) -> tuple[str, ...]:
    """The seals of a step by title, each once, counted where there are several: new, or at hand for an inspection."""
    parts = {part.part: part for part in plan.parts if part.kind == "seal"}
    words = []
    for seal, count in Counter(step.seals).items():
        title = parts[seal].title if seal in parts else spoken(seal)
        state = "New" if seal not in parts or parts[seal].certain else "At hand"
        words.append(f"{state}: {title}" if count == 1 else f"{state}: {count} × {title}")
    return tuple(words)


def step_numbers(numbers: Iterable[int]) -> str:
    """`step 4`, `steps 4–6 and 9`; empty for none."""
    spans: list[list[int]] = []
    for n in sorted(set(numbers)):
        if spans and n == spans[-1][1] + 1:
            spans[-1][1] = n
        else:
            spans.append([n, n])
    if not spans:
        return ""
    words = [str(low) if low == high else f"{low}–{high}" for low, high in spans]
    return f"{'step' if len(spans) == 1 and spans[0][0] == spans[0][1] else 'steps'} {listed(words)}"


def licence_words(licence: Licence) -> str:
    """The steps that take a licence."""
    return step_numbers(licence.steps)


def condition_words(plan: Plan, condition: PlanCondition) -> str:
    """Where in the sheet a condition is made or confirmed, and where it is released."""
    begun = step_numbers(s.n for s in plan.steps if s.condition == condition.id and s.action in ("make", "confirm"))
    ended = step_numbers(s.n for s in plan.steps if s.condition == condition.id and s.action == "release")
    if condition.already:
        words = ["said to hold already", *([f"confirm in {begun}"] if begun else [])]
    else:
        words = [f"made in {begun}"] if begun else []
    return ", ".join([*words, *([f"released in {ended}"] if ended else [])])


def proof_words(plan: Plan, proof: PlanProof) -> str:
    """When a proof is done: its stage, and its steps."""
    steps = step_numbers(step.n for step in plan.steps if step.proof == proof.id)
    return ", ".join([STAGES[proof.stage], *([steps] if steps else [])])


def judged(reading: PlanReading) -> bool:
    """Whether the reading has a limit to be held against, or should have one."""
    return reading.min is not None or reading.max is not None or bool(reading.note)


def limit_words(reading: PlanReading) -> str:
    """The bounds of a reading with its unit, or the words that say that one is missing, or that none belongs to it."""
    unit = unit_words(reading)
    if reading.min is not None and reading.max is not None:
        bounds = f"{number(reading.min)} to {number(reading.max)}"
    elif reading.min is not None:
        bounds = f"at least {number(reading.min)}"
    elif reading.max is not None:
        bounds = f"at most {number(reading.max)}"
    else:
        return NOT_SET if reading.note else NO_LIMIT if reading.unit != YES_NO else "yes or no"
    return f"{bounds} {unit}" if unit else bounds


def limit_source(reading: PlanReading) -> str:
    """Where the limit of a reading comes from, and what is to be noted with it; nothing that `limit_words` says."""
    note = (reading.note or "").removeprefix(NOT_SET).strip().removeprefix("(").removesuffix(")")
    return ". ".join(words for words in ((reading.source or "").rstrip("."), sentence(note)) if words)


def unit_words(reading: PlanReading) -> str:
    """What is written behind the figure: a ratio has no unit."""
    return "" if reading.unit == "ratio" else reading.unit


def input_words(one: PlanInput) -> str:
    """What is known of an input: its value, or the reading that it is; empty where it must be filled in."""
    if one.reading is not None:
        return f"as read: {one.reading}"
    if one.value is None:
        return ""
    return f"{one.value} {one.unit}".rstrip() + (" (usual)" if one.by_default else "")


def figure_words(figure: PlanFigure) -> str:
    """A result with its unit; empty where it cannot be worked out yet."""
    if figure.value is None:
        return ""
    return figure.value if figure.unit in ("", "ratio") else f"{figure.value} {figure.unit}"


def verdict_words(figure: PlanFigure) -> str:
    """The limit of a result and whether it is kept; empty where none belongs to it, or nothing is worked out yet."""
    if figure.limit is None:
        return ""
    kept = {True: ": passes", False: ": does not pass", None: ""}[figure.passes]
    return figure.limit + kept


def people_words(people: int) -> str:
    """`1 person`, `2 people`."""
    return counted(people, "person", "people")


def sentence(text: str) -> str:
    """The text with a capital first letter, for the head of a line."""
    return text[:1].upper() + text[1:]


def gravest_first(cautions: Iterable[StepCaution]) -> tuple[StepCaution, ...]:
    """DANGER, WARNING, CAUTION, NOTICE; within a word, as the steps meet them."""
    return tuple(sorted(cautions, key=lambda caution: WORDS.index(caution.word)))
def inside(title: str) -> str:
    """A title for inside a sentence: a small first letter, unless it begins with an abbreviation such as CO2."""
    return title if title[1:2].isupper() or title[1:2].isdigit() else title[:1].lower() + title[1:]


