"""Emergency words in what a job says: where there are any, nobody plans a repair.

The problem: a report is free text and an emergency a list of phrases; find every emergency of which some phrase stands
in the text. Too much is found rather than too little: case, hyphens and accents do not matter, a few other words may
stand between the words of a phrase, and a "no" before it changes nothing. Only the job itself can rule it out.
By hand, with two words between at most: `smell|smelt gas` is found in "Smelt some GAS!" and in "no smell of gas", but
not in "a smell, perhaps from the drain; gas is off". The method is our own rule.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from splitpin.notices import Notice, Place
from splitpin.records.plan import PlanStop

if TYPE_CHECKING:
    from splitpin.records.library import Visit
    from splitpin.records.procedure import Emergency

_WORD = re.compile(r"[^\W_]+")
_APOSTROPHE = re.compile("(?<=[^\\W_])['\u2019](?=[^\\W_])")
_NUMBERS = {"general": "emergency number", "gas": "gas emergency number", "electricity": "electricity emergency number"}


@dataclass(frozen=True, slots=True)
class Found:
    """An emergency that a text speaks of: the words as they stand there, what the text is, and where it stands."""

    emergency: Emergency
    words: str
    where: str
    place: Place


def spoken_of(visit: Visit) -> tuple[Found, ...]:
    """Every emergency that the job speaks of, each once, at the text that comes first; in the order of their ids.

    Read are the report, the title, the symptoms, the notes on the site and the notes on the tasks. Cost grows with
    the words of the texts times the words of the phrases.
    """
    texts = [(where, text, place, _words(text)) for where, text, place in _texts(visit)]
    found = []
    for emergency in visit.library.emergencies.values():
        phrases = [_Phrase(text, emergency.apart) for text in emergency.phrases]
        hits = (
            Found(emergency, " ".join(text[start:end].split()), where, place)
            for where, text, place, words in texts
            for phrase in phrases
            for start, end in phrase.spans(words)
        )
        first = next(hits, None)
        found += [] if first is None else [first]
    return tuple(found)


def stops_for_emergency(visit: Visit) -> bool:
    """Whether the job speaks of an emergency that nobody has ruled out, so that nothing may be planned or diagnosed."""
    return visit.job.job.emergency_ruled_out is None and bool(spoken_of(visit))


def stops(found: tuple[Found, ...], visit: Visit) -> tuple[PlanStop, ...]:
    """What the stop page says of each."""
    return tuple(
        PlanStop(
            id=one.emergency.id,
            title=one.emergency.title,
            words=one.words,
            where=one.where,
            do=one.emergency.do,
            call=_call(one.emergency, visit),
            origin=one.emergency.origin,
        )
        for one in found
    )


def notices(found: tuple[Found, ...], ruled_out: str | None) -> tuple[Notice, ...]:
    """An error for each, or a warning where the job rules it out."""
    if ruled_out is not None:
        return tuple(
            Notice("emergency-ruled-out", f"{_said(one)}; ruled out: {ruled_out}", one.place, "ask again on arrival")
            for one in found
        )
    hint = "follow the stop page; plan when [job] says `emergency_ruled_out`: who ruled it out, and how"
    return tuple(Notice("emergency-reported", f"{_said(one)}: no plan is made", one.place, hint) for one in found)


def _said(one: Found) -> str:
    return f'{one.emergency.title.lower()}: {one.where} says "{one.words}"'


def _call(emergency: Emergency, visit: Visit) -> str:
    number: str | None = getattr(visit.firm.emergency_numbers, emergency.call)
    name = _NUMBERS[emergency.call]
    return f"{name}: {number}" if number else f"enter your {name} in firm.toml"


def _texts(visit: Visit) -> Iterator[tuple[str, str, Place]]:
    job, head = visit.job, visit.job.job
    given = [("the report", head.report, head.place), ("the title", head.title, head.place)]
    given += [("a symptom", row.title, head.place) for row in visit.assembly.symptom if row.id in head.symptoms]
    given += [("a note on the site", text, job.site.place) for text in (job.site.notes, job.site.access)]
    given += [("a note on a task", task.note, task.place) for task in job.task]
    for where, text, place in given:
        if text is not None:
            yield where, text, place


def _words(text: str) -> list[tuple[str, int, int]]:
    """Every word without case, accents and apostrophes, with where it begins and ends."""
    plain = _APOSTROPHE.sub("\u02bc", text)  # a letter of its own, so that "can't" stays one word
    return [(_bare(match[0]), match.start(), match.end()) for match in _WORD.finditer(plain)]


def _bare(word: str) -> str:
    marked = unicodedata.normalize("NFKD", word.casefold())
    return "".join(c for c in marked if not unicodedata.combining(c) and c != "\u02bc")


class _Phrase:
    """The words of a phrase, each a choice, and how many others may stand before each."""

    def __init__(self, text: str, apart: int) -> None:
        self.choices: list[frozenset[str]] = []
        self.gaps: list[int] = []
        for group in text.split():
            for number, word in enumerate(group.split("-")):
                self.choices.append(frozenset(_bare(one) for one in word.split("|")))
                self.gaps.append(0 if number else apart)

    def spans(self, words: list[tuple[str, int, int]]) -> Iterator[tuple[int, int]]:
        """Where in the text the phrase begins and ends, first come first."""
        for index, (word, start, _) in enumerate(words):
            if word in self.choices[0]:
                last = self._rest(words, index, 1)
                if last is not None:
                    yield start, words[last][2]

    def _rest(self, words: list[tuple[str, int, int]], at: int, turn: int) -> int | None:
        """The place of the last word, where the words from `turn` on follow the one at `at`."""
        if turn == len(self.choices):
            return at
        for place in range(at + 1, min(at + 2 + self.gaps[turn], len(words))):
            if words[place][0] in self.choices[turn]:
                last = self._rest(words, place, turn + 1)
                if last is not None:
                    return last
        return None
