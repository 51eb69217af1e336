"""The fixed phrases that paper and terminal share, so that the same thing has the same words on both."""

import datetime
import re
from collections import Counter
from collections.abc import Iterable

from splitpin.calculations.limits import NOT_SET
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
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.sheets.press.running import Idle, Line
from splitpin.units import clock, number

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
    "apart": "while it is apart",
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

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)+")

# A control character would move a terminal's cursor or end a page; its picture from the same alphabet does neither.
_VISIBLE = {code: 0x2400 + code for code in range(0x20) if chr(code) not in "\t\n"}
_VISIBLE |= {0x7F: 0x2421} | dict.fromkeys(range(0x80, 0xA0), 0xFFFD)
# Marks of direction would turn round the text beside them (Unicode Annex 9, section 2: explicit and implicit ones).
_VISIBLE |= dict.fromkeys((0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)), 0xFFFD)


def visible(text: str) -> str:
    """The text with control characters (but tab and line end) and marks of direction made visible."""
    return text.translate(_VISIBLE)


def spoken(name: str) -> str:
    """An id as words: `terminal-side` becomes `terminal side`; anything else stays as it is."""
    return name.replace("-", " ") if _ID.fullmatch(name) else name


def day(date: datetime.date, t: Words = ENGLISH) -> str:
    """`Wed 25 Nov 2026`, whatever the machine is set to."""
    return t.date(date)


def how_proved(plan: Plan, t: Words = ENGLISH) -> str:
    """How the search ended, in one of three phrases that never stand for each other.

    A job that is impossible as asked may leave work that can be done; its order is then spoken of apart.
    """
    order = t("order proved best")
    if plan.gap_s:
        order = t("best order found, at most {time} from best", time=clock(plan.gap_s))
    if plan.status != "impossible":
        return order
    return t("proved impossible as asked; for the rest, {order}", order=order) if plan.steps else t("proved impossible")


def phase_heading(line: Line, t: Words = ENGLISH) -> str:
    """The heading above the first step of a run of one phase."""
    phase = t(PHASES[line.step.phase])
    return t("{phase} (continued)", phase=phase) if line.phase_again else phase


def proof_heading(plan: Plan, line: Line, t: Words = ENGLISH) -> str | None:
    """What the next steps prove, above the first of them; None elsewhere."""
    if not line.opens_proof:
        return None
    titles = (proof.title for proof in plan.proofs if proof.id == line.step.proof)
    return next((t("Proof: {title}", title=title) for title in titles), None)


def wait_words(line: Line, t: Words = ENGLISH) -> str | None:
    """What to do about the wait that a step starts; None where it starts none."""
    if not line.step.wait_s:
        return None
    time = clock(line.step.wait_s)
    if line.wait_here:
        return t("Then wait here {time}.", time=time)
    return t("Then wait {time}: carry on with the next steps.", time=time)


def idle_words(idle: Idle, t: Words = ENGLISH) -> str:
    """What is stood out before a step, and for which earlier step."""
    time = clock(idle.seconds)
    if idle.step is None:
        return t("Wait here {time}.", time=time)
    return t("Wait here about {time}, until the wait of step {n} is over.", time=time, n=idle.step)


def part_words(part: PlanPart, t: Words = ENGLISH) -> str:
    """What is said after a part: its kind, and how many are in a pack; consumables are under their own heading."""
    pack = [t("packs of {n}", n=part.pack)] if part.pack is not None and part.pack > 1 else []
    return ", ".join([t(PART_KINDS[part.kind]), *pack])


def torque_words(step: Step, t: Words = ENGLISH) -> str | None:
    """`Tighten to 9 N·m`, where a torque is given and the step's own sentence does not say it."""
    if step.torque_nm is None or f"to {number(step.torque_nm)} N·m" in step.text:
        return None
    return t("Tighten to {torque} N·m", torque=t.number(number(step.torque_nm)))


def tool_titles(plan: Plan) -> dict[str, str]:
    """Titles of the plan's tools by id."""
    return {tool.id: tool.title for tool in plan.tools}


def seal_words(plan: Plan, step: Step, t: Words = ENGLISH) -> tuple[str, ...]:
    """The seals of a step by title, each once, counted where there are several: new, or at hand for an inspection."""
    parts = {part.part: part for part in plan.parts if part.kind == "seal"}
    words = []
    for seal, count in Counter(step.seals).items():
        title = parts[seal].title if seal in parts else spoken(seal)
        title = title if count == 1 else f"{count} × {title}"
        certain = seal not in parts or parts[seal].certain
        words.append(t("New: {title}", title=title) if certain else t("At hand: {title}", title=title))
    return tuple(words)


def step_numbers(numbers: Iterable[int], t: Words = ENGLISH) -> str:
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
    one = len(spans) == 1 and spans[0][0] == spans[0][1]
    return t("step {numbers}", numbers=words[0]) if one else t("steps {numbers}", numbers=t.listed(words))


def licence_words(licence: Licence, t: Words = ENGLISH) -> str:
    """The steps that take a licence."""
    return step_numbers(licence.steps, t)


def condition_words(plan: Plan, condition: PlanCondition, t: Words = ENGLISH) -> str:
    """Where in the sheet a condition is made or confirmed, and where it is released."""
    own = [step for step in plan.steps if step.condition == condition.id]
    begun = step_numbers((step.n for step in own if step.action in ("make", "confirm")), t)
    ended = step_numbers((step.n for step in own if step.action == "release"), t)
    if condition.already:
        words = [t("said to hold already"), *([t("confirm in {steps}", steps=begun)] if begun else [])]
    else:
        words = [t("made in {steps}", steps=begun)] if begun else []
    return ", ".join([*words, *([t("released in {steps}", steps=ended)] if ended else [])])


def proof_words(plan: Plan, proof: PlanProof, t: Words = ENGLISH) -> str:
    """When a proof is done: its stage, and its steps."""
    steps = step_numbers((step.n for step in plan.steps if step.proof == proof.id), t)
    return ", ".join([t(STAGES[proof.stage]), *([steps] if steps else [])])


def judged(reading: PlanReading) -> bool:
    """Whether the reading has a limit to be held against, or should have one."""
    return reading.min is not None or reading.max is not None or bool(reading.note)


def limit_words(reading: PlanReading, t: Words = ENGLISH) -> str:
    """The bounds of a reading with its unit, or the words that say that one is missing, or that none belongs to it."""
    unit = unit_words(reading)
    low, high = (None if bound is None else t.number(number(bound)) for bound in (reading.min, reading.max))
    if low is not None and high is not None:
        bounds = t("{low} to {high}", low=low, high=high)
    elif low is not None:
        bounds = t("at least {low}", low=low)
    elif high is not None:
        bounds = t("at most {high}", high=high)
    else:
        return t(NOT_SET) if reading.note else t(NO_LIMIT) if reading.unit != YES_NO else t("yes or no")
    return f"{bounds} {unit}" if unit else bounds


def limit_source(reading: PlanReading) -> str:
    """Where the limit of a reading comes from, and what is to be noted with it; nothing that `limit_words` says."""
    note = (reading.note or "").removeprefix(NOT_SET).strip().removeprefix("(").removesuffix(")")
    return ". ".join(words for words in ((reading.source or "").rstrip("."), sentence(note)) if words)


def unit_words(reading: PlanReading) -> str:
    """What is written behind the figure: a ratio has no unit."""
    return "" if reading.unit == "ratio" else reading.unit


def input_words(one: PlanInput, t: Words = ENGLISH) -> str:
    """What is known of an input: its value, or the reading that it is; empty where it must be filled in."""
    if one.reading is not None:
        return t("as read: {reading}", reading=one.reading)
    if one.value is None:
        return ""
    value = f"{t.number(one.value)} {one.unit}".rstrip()
    return t("{value} (usual)", value=value) if one.by_default else value


def figure_words(figure: PlanFigure, t: Words = ENGLISH) -> str:
    """A result with its unit; empty where it cannot be worked out yet."""
    if figure.value is None:
        return ""
    value = t.number(figure.value)
    return value if figure.unit in ("", "ratio") else f"{value} {figure.unit}"


def verdict_words(figure: PlanFigure, t: Words = ENGLISH) -> str:
    """The limit of a result and whether it is kept; empty where none belongs to it, or nothing is worked out yet."""
    if figure.limit is None:
        return ""
    if figure.passes is None:
        return figure.limit
    kept = t("passes") if figure.passes else t("does not pass")
    return f"{figure.limit}: {kept}"


def people_words(people: int, t: Words = ENGLISH) -> str:
    """`1 person`, `2 people`."""
    return t("1 person") if people == 1 else t("{n} people", n=people)


def sentence(text: str) -> str:
    """The text with a capital first letter, for the head of a line."""
    return text[:1].upper() + text[1:]


def inside(title: str) -> str:
    """A title for inside a sentence: a small first letter, unless it begins with an abbreviation such as CO2."""
    return title if title[1:2].isupper() or title[1:2].isdigit() else title[:1].lower() + title[1:]


def gravest_first(cautions: Iterable[StepCaution]) -> tuple[StepCaution, ...]:
    """DANGER, WARNING, CAUTION, NOTICE; within a word, as the steps meet them."""
    return tuple(sorted(cautions, key=lambda caution: WORDS.index(caution.word)))
