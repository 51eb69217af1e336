"""The words of a text and what they mean: wordings found in it, and which of them are denied or long past.

The problem: callers write as they speak, in any of several languages, with slips; find where a text uses a wording,
not where it only sounds alike. By hand: "No smell of gas, but the gas meter hisses" says `smell` and `gas` once, both
denied, then `hiss`; the `gas` of "gas meter" is none, because that expression stands in its `not_in`. Our own rules:
case, accents and doubled letters do not matter; a word of seven letters or more, or eight before a `*`, is also found
with one letter more, less, other or moved, if it begins alike; "no" reaches four words on within its clause; a date
reaches its clause, or its sentence where its clause has three words at most.
"""

from __future__ import annotations

import itertools
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from splitpin.records.procedure import Wording

LONG = 7  # letters of a word from which on a slip is forgiven; a beginning needs one more
REACH = 4  # words that a denial reaches on
SHORT = 3  # words of a clause that speaks for its whole sentence

_WORD = re.compile(r"(?<![^\W_])\d+[.,]\d+(?![^\W_])|[^\W_]+")  # "0.4" is one word
_LETTER_APART = re.compile("(?<![^\\W_])([^\\W\\d_])['\u2019](?=[^\\W_])")
_APOSTROPHE = re.compile("(?<=[^\\W_])['\u2019](?=[^\\W_])")
_SENTENCE = re.compile(r"[.:]\s|[!?;\n]")
_CLAUSE = re.compile(r"[,()\u2013\u2014]|\s-\s")
_TWICE = re.compile(r"([^\W\d_])\1+")


@dataclass(frozen=True, slots=True)
class Word:
    """A word without case, accents and doubled letters, where it stands, its sentence, whether it opens a clause."""

    plain: str
    start: int
    end: int
    sentence: int
    opens: bool


Span = tuple[int, int]  # the first and the last word


def words_of(text: str) -> list[Word]:
    """Every word of the text in its order. Cost grows with its length."""
    plain = _APOSTROPHE.sub("\u02bc", _LETTER_APART.sub("\\1 ", text))  # "t'boiler" is two words, "can't" is one
    words: list[Word] = []
    sentence, last = 0, 0
    for match in _WORD.finditer(plain):
        between = plain[last : match.start()]
        ends = bool(words and _SENTENCE.search(between))
        sentence += ends
        opens = ends or not words or bool(_CLAUSE.search(between))
        words.append(Word(bare(match[0]), match.start(), match.end(), sentence, opens))
        last = match.end()
    return words


def bare(word: str) -> str:
    """The word without case, accents, apostrophes and doubled letters."""
    marked = unicodedata.normalize("NFKD", word.casefold())
    return _TWICE.sub(r"\1", "".join(c for c in marked if not unicodedata.combining(c) and c not in "\u02bc.,"))


class Part:
    """One word of an entry: `smell*` begins so, `*geruch` ends so, `*gas*` has it anywhere, `gas` is the whole word."""

    def __init__(self, text: str) -> None:
        self.open_before, self.open_after = text.startswith("*"), text.endswith("*")
        self.letters = bare(text.strip("*"))
        self.forgives = not self.open_before and len(self.letters) >= LONG + self.open_after

    def is_said(self, word: str) -> bool:
        """Whether the word is this one, or would be but for one letter."""
        if self.open_before:
            return self.letters in word if self.open_after else word.endswith(self.letters)
        if word.startswith(self.letters) if self.open_after else word == self.letters:
            return True
        size = len(self.letters)
        if not self.forgives or word[:1] != self.letters[0] or len(word) < size - 1:
            return False
        heads = {word[: size + step] for step in (-1, 0, 1)} if self.open_after else {word}
        slips = _one_less(self.letters)
        return any(abs(len(head) - size) <= 1 and not slips.isdisjoint(_one_less(head)) for head in heads)


@lru_cache(maxsize=10_000)
def _parts(entry: str) -> tuple[Part, ...]:
    return tuple(Part(part) for part in entry.split("-"))


@lru_cache(maxsize=10_000)
def _one_less(word: str) -> frozenset[str]:
    """The word, and the word without any one of its letters: two that share one differ by a letter at most."""
    return frozenset({word, *(word[:i] + word[i + 1 :] for i in range(len(word)))})


class Text:
    """The words of a text, and where those with one initial stand."""

    def __init__(self, text: str) -> None:
        self.text, self.words = text, words_of(text)
        self.by_initial: dict[str, list[int]] = {}
        for at, word in enumerate(self.words):
            self.by_initial.setdefault(word.plain[:1], []).append(at)

    def spans(self, entries: Iterable[str]) -> list[Span]:
        """Where any of the entries stands, all of its words in one sentence."""
        found = set()
        for entry in entries:
            initial = entry[0] if entry[0].isascii() else bare(entry[0])
            for first in range(len(self.words)) if initial == "*" else self.by_initial.get(initial, ()):
                parts = _parts(entry)
                run = self.words[first : first + len(parts)]
                if (
                    len(run) == len(parts)
                    and run[0].sentence == run[-1].sentence
                    and all(part.is_said(word.plain) for part, word in zip(parts, run, strict=True))
                ):
                    found.add((first, first + len(parts) - 1))
        return sorted(found)


def hear(text: str, wordings: Iterable[Wording]) -> Heard:
    """What the text says. Cost grows with its words times the entries of the wordings."""
    read = Text(text)
    said: dict[str, list[Span]] = {}
    cues: dict[str, list[Span]] = {"denies": [], "past": [], "present": [], "breaks": []}
    for row in wordings:
        spans = read.spans(row.words)
        if spans and row.not_in:
            other = read.spans(row.not_in)
            spans = [span for span in spans if not any(a <= span[0] and span[1] <= b for a, b in other)]
        (cues[row.cue] if row.cue else said.setdefault(row.id, [])).extend(spans)
    return Heard(text, read.words, said, cues)


class Heard:
    """What a text says: where each wording stands, and what denies it or puts it into the past."""

    def __init__(self, text: str, words: list[Word], said: dict[str, list[Span]], cues: dict[str, list[Span]]) -> None:
        self.text, self.words, self.said, self.cues = text, words, said, cues

    def quoted(self, spans: Iterable[Span]) -> str:
        """The words from the first to the last of the spans, as they stand in the text."""
        ends = [end for span in spans for end in span]
        return " ".join(self.text[self.words[min(ends)].start : self.words[max(ends)].end].split())

    def together(self, wordings: tuple[str, ...], apart: int) -> tuple[Span, ...] | None:
        """The first place where all the wordings stand in one sentence, `apart` other words at most, and hold now."""
        places = (self.said.get(name, ()) for name in wordings)
        choices = itertools.product(*places)
        return next((spans for spans in choices if self._near(spans, apart) and self._holds(spans)), None)

    def _near(self, spans: tuple[Span, ...], apart: int) -> bool:
        named = {at for first, last in spans for at in range(first, last + 1)}
        first, last = min(named), max(named)
        return self.words[first].sentence == self.words[last].sentence and last - first + 1 - len(named) <= apart

    def _holds(self, spans: tuple[Span, ...]) -> bool:
        return not any(self._denied(span, spans) or self._past(span) for span in spans)

    def _denied(self, span: Span, hit: tuple[Span, ...]) -> bool:
        return any(
            span[0] - REACH <= cue[1] < span[0]
            and self._clauses[cue[1]] == self._clauses[span[0]]
            and not any(a <= cue[0] <= b for a, b in hit)
            for cue in self.cues["denies"]
        )

    def _past(self, span: Span) -> bool:
        sentence = self.words[span[0]].sentence
        if any(self.words[cue[0]].sentence == sentence for cue in self.cues["present"]):
            return False
        mine = self._clauses[span[0]]
        for cue in self.cues["past"]:
            theirs = self._clauses[cue[0]]
            reaches = theirs == mine or self._clauses.count(theirs) <= SHORT
            if self.words[cue[0]].sentence == sentence and reaches:
                return True
        return False

    @cached_property
    def _clauses(self) -> list[int]:
        """The number of each word's clause."""
        breaks = {cue[0] for cue in self.cues["breaks"]}
        numbers, number = [], 0
        for at, word in enumerate(self.words):
            number += word.opens or at in breaks
            numbers.append(number)
        return numbers
