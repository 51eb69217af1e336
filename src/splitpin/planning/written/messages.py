"""Safety messages: which stand before a step, in which order, and when one is said again.

A message stands before the first step that meets its hazard. It is said again only once a state that kept the hazard
away has been released since: a step that comes under the same isolation is not told twice. By hand: "hot water" stands
before the step that shuts the valves, and before no other until they are open again; the test with hot plant tells it
once more. A hazard that no state keeps away, such as a sharp edge, is told once. The order of the words is that of ANSI
Z535: DANGER, WARNING, CAUTION, NOTICE; within a word, as the steps meet them.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from splitpin.planning.plant.plant import Plant
from splitpin.records.plan import StepCaution

if TYPE_CHECKING:
    from splitpin.records.procedure import Caution

WORDS = ("DANGER", "WARNING", "CAUTION", "NOTICE")  # gravest first: ANSI Z535; ISO 3864-2 has the first three


class Messages:
    """The messages of one visit, asked for in the order of its steps."""

    def __init__(self, plant: Plant) -> None:
        self.plant = plant
        self._kept_away = kept_away(plant)
        self._said: set[str] = set()

    def before(self, names: Iterable[str]) -> tuple[StepCaution, ...]:
        """The messages of a step that are not said yet, gravest first."""
        new = [name for name in dict.fromkeys(names) if name not in self._said]
        self._said.update(new)
        return gravest_first(_message(self.plant.library.cautions[name]) for name in new)

    def released(self, condition: str) -> None:
        """The condition no longer holds: what it kept away may be met again."""
        self._said -= self._kept_away.get(condition, set())


def kept_away(plant: Plant) -> dict[str, set[str]]:
    """For each condition that is released, the messages whose hazard it keeps away.

    A medium's or boundary's messages are kept away by what must hold before it is opened and by what isolates its
    circuits; a condition's own by that condition. One without a release of its own ends with those it comes after.
    """
    library = plant.library
    found: dict[str, set[str]] = {}

    def keeps(conditions: Iterable[str], cautions: Iterable[str]) -> None:
        for condition in conditions:
            for ending in _ends_with(condition, plant):
                found.setdefault(ending, set()).update(cautions)

    for medium in library.media.values():
        keeps(medium.before_opening, medium.cautions)
    for boundary in library.boundaries.values():
        keeps(boundary.before_opening, boundary.cautions)
    for circuit in plant.circuits:
        cautions = library.media[circuit.medium].cautions
        keeps((*plant.before_opening(circuit), *(way.makes for way in circuit.isolate)), cautions)
    for condition in library.conditions.values():
        steps = [caution for step in condition.make for caution in step.cautions]
        keeps((condition.id,), (*condition.cautions, *steps))
    return found


def _ends_with(condition: str, plant: Plant) -> tuple[str, ...]:
    row = plant.library.conditions[condition]
    if row.release or not row.after:
        return (condition,)
    return tuple(dict.fromkeys(ending for earlier in row.after for ending in _ends_with(earlier, plant)))


def front(steps_cautions: Iterable[tuple[StepCaution, ...]]) -> tuple[StepCaution, ...]:
    """Every message of the steps once, gravest first, within a word in the order in which the steps meet them."""
    met = {caution.id: caution for cautions in steps_cautions for caution in cautions}
    return gravest_first(met.values())


def gravest_first(cautions: Iterable[StepCaution]) -> tuple[StepCaution, ...]:
    """By signal word; the order within a word is kept."""
    return tuple(sorted(cautions, key=lambda caution: WORDS.index(caution.word)))


def _message(row: Caution) -> StepCaution:
    sentences = [row.hazard, *([row.consequence] if row.consequence else []), *row.avoid]
    return StepCaution(id=row.id, word=row.word, text=" ".join(sentence.rstrip(".") + "." for sentence in sentences))
