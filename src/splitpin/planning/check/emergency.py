"""Whether a plan was made although an emergency is told of or nobody asked, or none was made although all is clear.

Reading of the definitions, sentence by sentence. A sentence is a row of bare words with the number of the clause of
each; a wording is where an entry matches and no `not_in` entry covers it; a sign is any choice of one place for each
of its wordings that lies close enough, none of them denied or past.
"""

from __future__ import annotations

import itertools
import re
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

from splitpin.planning.check.fault import Fault
from splitpin.records.plan import Plan

if TYPE_CHECKING:
    from splitpin.records.library import Library, Visit
    from splitpin.records.procedure import Emergency, Wording

_Place = tuple[int, int]
_Sentence = list[tuple[str, int]]  # each word with the number of its clause


def emergencies(visit: Visit) -> frozenset[str]:
    """The ids of the emergencies that the words of the job speak of, whatever was answered."""
    head, site, library = visit.job.job, visit.job.site, visit.library
    texts = [head.title, head.report, site.name, site.notes, site.access, site.contact]
    texts += [row.title for row in visit.assembly.symptom if row.id in head.symptoms]
    texts += [task.note for task in visit.job.task]
    rows = [sentence for text in texts if text for sentence in _sentences(text)]
    return frozenset(name for row in rows for name in _told(row, library))


def emergency_faults(plan: Plan, visit: Visit) -> Iterator[Fault]:
    """A plan made where an answer, a word or a question still to be asked stops it, or stopped for another reason."""
    answers = visit.job.asked.answers if visit.job.asked else {}
    spoken = {name for name in emergencies(visit) if name not in answers}
    stopped = spoken | {name for name, answer in answers.items() if answer != "no"}
    caller = bool(visit.job.job.report or visit.job.job.symptoms)
    due = stopped or ({name for name in visit.library.emergencies if name not in answers} if caller else set())
    if {stop.id for stop in plan.stops} != due:
        yield Fault(None, "emergency", f"the job is stopped by {sorted(due)}, the plan by others")
    if due and (plan.steps or plan.status != "impossible"):
        yield Fault(None, "emergency", "planned although the job speaks of an emergency, or nobody asked")


def _sentences(text: str) -> Iterator[_Sentence]:
    row = re.sub("(?<![^\\W_])([^\\W\\d_])['\u2019](?=[^\\W_])", r"\1 ", text)
    row = re.sub("(?<=[^\\W_])['\u2019](?=[^\\W_])", "", row)
    row = re.sub(r"(?<![^\W_])(\d+)[.,](\d+)(?![^\W_])", r"\1\2", row)
    for sentence in re.split(r"[.:]\s|[!?;\n]", row):
        words: _Sentence = []
        for number, clause in enumerate(re.split(r"[,()\u2013\u2014]|\s-\s", sentence)):
            words += [(_plain(word), number) for word in re.findall(r"[^\W_]+", clause)]
        yield words


@lru_cache(maxsize=10_000)
def _plain(word: str) -> str:
    letters = [
        c for c in unicodedata.normalize("NFKD", word.casefold()) if not unicodedata.combining(c) and c != "\u02bc"
    ]
    return "".join(c for c, before in zip(letters, [None, *letters], strict=False) if c != before or c.isdecimal())


def _told(sentence: _Sentence, library: Library) -> Iterator[str]:
    words = [word for word, _ in sentence]
    begins: dict[str, list[int]] = {}
    for at, word in enumerate(words):
        begins.setdefault(word[:1], []).append(at)
    cues: dict[str, list[_Place]] = {}
    places: dict[str, list[_Place]] = {}
    for row in library.wordings.values():
        found = _found(words, begins, row)
        if row.cue:
            cues.setdefault(row.cue, []).extend(found)
        elif found:
            places[row.id] = found
    breaks = {first for first, _ in cues.get("breaks", [])}
    extra = list(itertools.accumulate(int(at in breaks) for at in range(len(words))))
    clauses = [(clause, extra[at]) for at, (_, clause) in enumerate(sentence)]
    for emergency in library.emergencies.values():
        if any(_sign(sign, emergency, places, cues, clauses) for sign in emergency.signs):
            yield emergency.id


def _sign(
    sign: tuple[str, ...],
    emergency: Emergency,
    places: dict[str, list[_Place]],
    cues: dict[str, list[_Place]],
    clauses: list[tuple[int, int]],
) -> bool:
    for choice in itertools.product(*(places.get(name, []) for name in sign)):
        named = {at for first, last in choice for at in range(first, last + 1)}
        others = max(named) - min(named) + 1 - len(named)
        if others <= emergency.apart and all(_holds(place, named, cues, clauses) for place in choice):
            return True
    return False


def _holds(place: _Place, named: set[int], cues: dict[str, list[_Place]], clauses: list[tuple[int, int]]) -> bool:
    for first, last in cues.get("denies", []):
        if 0 < place[0] - last <= 4 and clauses[last] == clauses[place[0]] and first not in named:
            return False
    if cues.get("present"):
        return True
    past = [clauses[first] for first, _ in cues.get("past", [])]
    return not any(theirs == clauses[place[0]] or clauses.count(theirs) <= 3 for theirs in past)


def _found(words: list[str], begins: dict[str, list[int]], row: Wording) -> list[_Place]:
    found = {place for entry in row.words for place in _matches(words, begins, entry)}
    if found and row.not_in:
        other = [place for entry in row.not_in for place in _matches(words, begins, entry)]
        found = {place for place in found if not any(a <= place[0] and place[1] <= b for a, b in other)}
    return sorted(found)


def _matches(words: list[str], begins: dict[str, list[int]], entry: str) -> Iterator[_Place]:
    initial = entry[0] if entry[0] < "\x80" else _plain(entry[0])
    firsts = range(len(words)) if initial == "*" else begins.get(initial)
    if firsts:
        parts = entry.split("-")
        for first in firsts:
            last = first + len(parts) - 1
            if last < len(words) and all(_is(words[first + turn], part) for turn, part in enumerate(parts)):
                yield first, last


def _is(word: str, part: str) -> bool:
    letters = _plain(part.strip("*"))
    size = len(letters)
    if part.startswith("*"):
        return letters in word if part.endswith("*") else word.endswith(letters)
    if word[:1] != letters[:1]:
        return False
    if not part.endswith("*"):
        return word == letters or (size >= 7 and _one_slip(word, letters))
    heads = {word[: size - 1], word[:size], word[: size + 1]}
    return letters in heads or (size >= 8 and any(_one_slip(head, letters) for head in heads))


def _one_slip(one: str, other: str) -> bool:
    """Whether one letter more, less, other or moved makes one word the other."""
    while one and other and one[0] == other[0]:
        one, other = one[1:], other[1:]
    while one and other and one[-1] == other[-1]:
        one, other = one[:-1], other[:-1]
    if len(one) == len(other):
        return len(one) <= 1 or one[1:] == other[:-1] or one[:-1] == other[1:]
    return len(one) + len(other) == 1
