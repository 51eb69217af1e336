"""Emergencies of a job: what was asked, what was answered, and what the job's own words speak of.

A job that comes from a caller is planned only when every question has a no. Where the words of the job speak of an
emergency that nobody was asked about, it is not planned either, whoever wrote them. An answer rules in or out its own
emergency and no other; the words never rule anything out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.notices import Notice, Place
from splitpin.planning.asked.heard import hear
from splitpin.records.plan import PlanStop

if TYPE_CHECKING:
    from splitpin.records.library import Visit
    from splitpin.records.procedure import Emergency

_NUMBERS = {"general": "emergency number", "gas": "gas emergency number", "electricity": "electricity emergency number"}


@dataclass(frozen=True, slots=True)
class Found:
    """An emergency that a text speaks of: the words as they stand there, what the text is, and where it stands."""

    emergency: Emergency
    words: str
    where: str
    place: Place


@dataclass(frozen=True, slots=True)
class Intake:
    """What a job's words, questions and answers come to."""

    spoken: tuple[Found, ...]  # by the words, whatever was answered
    answered: tuple[Found, ...]  # by a yes, or where the caller was not sure
    unasked: tuple[Emergency, ...]  # questions that a caller's job still lacks
    visit: Visit

    @property
    def emergencies(self) -> tuple[Found, ...]:
        """What stops the job: an answer, or words that no answer rules out; each emergency once."""
        by_answer = {one.emergency.id for one in self.answered}
        said = (one for one in self.spoken if one.emergency.id not in by_answer and not self._is_ruled_out(one))
        return tuple(sorted((*self.answered, *said), key=lambda one: one.emergency.id))

    @property
    def stops(self) -> bool:
        """Whether nothing may be planned or diagnosed yet."""
        return bool(self.emergencies or self.unasked)

    @property
    def ruled_out(self) -> str | None:
        """Who ruled out what, how and when; None where nobody did."""
        asked = self.visit.job.asked
        known = self.visit.library.emergencies
        titles = [known[name].title.lower() for name in known if asked and asked.answers.get(name) == "no"]
        return f"{asked.said}: no to {'; '.join(titles)}" if asked and titles else None

    def pages(self) -> tuple[PlanStop, ...]:
        """What the stop page says: of each emergency, or else of each question that is still to be asked."""
        found = self.emergencies
        if found:
            return tuple(self._page(one.emergency, words=one.words, where=one.where) for one in found)
        return tuple(self._page(one, words="", where="") for one in self.unasked)

    def notices(self) -> tuple[Notice, ...]:
        """An error for each emergency or for the questions to ask; a warning for words that an answer rules out."""
        hint = "follow the stop page; plan when [asked] in the job has the answers: who asked, when, and a no to each"
        told = [
            Notice("emergency-reported", f"{_said(one)}: no plan is made", one.place, hint) for one in self.emergencies
        ]
        if self.unasked and not told:
            names = ", ".join(one.id for one in self.unasked)
            message = f"the job comes from a caller, and [asked] lacks the answer to {names}: no plan is made"
            hint = "ask the questions of the stop page; write who asked, when and the answers into [asked]"
            told.append(Notice("emergency-not-asked", message, self.visit.job.job.place, hint))
        told += (
            Notice("emergency-ruled-out", f"{_said(one)}; ruled out by {self._who}", one.place, "ask again on arrival")
            for one in self.spoken
            if self._is_ruled_out(one)
        )
        return tuple(told)

    @property
    def _who(self) -> str:
        return self.visit.job.asked.said if self.visit.job.asked else ""

    def _is_ruled_out(self, one: Found) -> bool:
        asked = self.visit.job.asked
        return asked is not None and asked.answers.get(one.emergency.id) == "no"

    def _page(self, emergency: Emergency, *, words: str, where: str) -> PlanStop:
        return PlanStop(
            id=emergency.id,
            title=emergency.title,
            question=emergency.question,
            words=words,
            where=where,
            do=emergency.do,
            call=_call(emergency, self.visit),
            origin=emergency.origin,
        )


def intake(visit: Visit) -> Intake:
    """Every emergency that the job speaks of, once, at the text that comes first; the answers; and what was not asked.

    Emergencies stand in the order of their ids. Cost grows with the words of the texts times those of the library.
    """
    library, asked, job = visit.library, visit.job.asked, visit.job
    heard = [(where, hear(text, library.wordings.values()), place) for where, text, place in _texts(visit)]
    spoken = []
    for emergency in library.emergencies.values():
        hits = (
            Found(emergency, one.quoted(spans), where, place)
            for where, one, place in heard
            for sign in emergency.signs
            if (spans := one.together(sign, emergency.apart)) is not None
        )
        first = next(hits, None)
        spoken += [] if first is None else [first]
    answers = asked.answers if asked else {}
    answered = tuple(
        Found(emergency, answers[name], f'the answer to "{emergency.question}"', asked.place)
        for name, emergency in library.emergencies.items()
        if asked and answers.get(name) in ("yes", "unsure")
    )
    unasked = (row for name, row in library.emergencies.items() if job.from_a_caller and name not in answers)
    return Intake(tuple(spoken), answered, tuple(unasked), visit)


def stops_for_emergency(visit: Visit) -> bool:
    """Whether nothing may be planned or diagnosed: an emergency, or a caller whom nobody has asked."""
    return intake(visit).stops


def _said(one: Found) -> str:
    return f'{one.emergency.title.lower()}: {one.where} says "{one.words}"'


def _call(emergency: Emergency, visit: Visit) -> str:
    number: str | None = getattr(visit.firm.emergency_numbers, emergency.call)
    name = _NUMBERS[emergency.call]
    return f"{name}: {number}" if number else f"enter your {name} in firm.toml"


def _texts(visit: Visit) -> Iterator[tuple[str, str, Place]]:
    head, site = visit.job.job, visit.job.site
    given = [("the report", head.report, head.place), ("the title", head.title, head.place)]
    given += [("a symptom", row.title, head.place) for row in visit.assembly.symptom if row.id in head.symptoms]
    given += [("a note on the site", site.notes, site.place), ("the access to the site", site.access, site.place)]
    given += [("the name of the site", site.name, site.place), ("the contact", site.contact, site.place)]
    given += [("a note on a task", task.note, task.place) for task in visit.job.task]
    for where, text, place in given:
        if text is not None:
            yield where, text, place
