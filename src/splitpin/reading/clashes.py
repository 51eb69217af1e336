"""Conditions that are needed together and exclude each other."""

from collections.abc import Iterable, Iterator
from itertools import product

from splitpin.notices import Notice, Place
from splitpin.reading.declared import Declared
from splitpin.reading.document import Document
from splitpin.records.assembly import Assembly, Circuit
from splitpin.records.library import Library

Pair = tuple[str, str]


class Clashes:
    """Which conditions of a library cannot hold together. Names that it does not know clash with nothing."""

    def __init__(self, library: Library) -> None:
        self.library = library
        self.excluded = {
            frozenset({name, other}) for name, condition in library.conditions.items() for other in condition.excludes
        }

    def before_opening(self, circuit: Circuit) -> tuple[str, ...]:
        """The conditions that the circuit, or else its medium, wants before it is opened."""
        if circuit.before_opening is not None:
            return circuit.before_opening
        medium = self.library.media.get(circuit.medium)
        return medium.before_opening if medium else ()

    def first_among(self, wanted: Iterable[str], choices: Iterable[tuple[str, ...]]) -> Pair | None:
        """The first two, in the alphabet, that exclude each other among the wanted conditions and all made before them.

        Of each of the `choices` one condition is needed besides; None where at least one choice of all goes together.
        """
        pairs = [self._first_pair((*wanted, *chosen)) for chosen in product(*choices)]
        return None if None in pairs else pairs[0]

    def sound(self, *sets: tuple[str, ...]) -> bool:
        """Whether each set is without a clash that arises elsewhere: in a condition alone, in a medium's own list."""
        return all(self._first_pair((name,)) is None for names in sets for name in names)

    def _first_pair(self, wanted: tuple[str, ...]) -> Pair | None:
        together = list(dict.fromkeys(wanted))
        for name in together:
            condition = self.library.conditions.get(name)
            together += [other for other in (condition.after if condition else ()) if other not in together]
        return min(
            ((a, b) for a in together for b in together if a <= b and frozenset({a, b}) in self.excluded), default=None
        )


def clash_notices(names: Declared, library: Library, documents: Iterable[Document]) -> list[Notice]:
    """What conditions, media, boundaries, proofs, circuits, components and tasks need that cannot hold together.

    A clash is reported where it arises, not again by everything that needs it. Cost: conditions needed, squared, at
    each; a component that guards several circuits is tried with every choice of their ways to isolate.
    """
    clashes = Clashes(library)
    if not clashes.excluded:
        return []
    needs: list[tuple[str, str, str, tuple[str, ...], tuple[str, ...]]] = [
        *(("condition", name, "after", row.after, (name,)) for name, row in library.conditions.items()),
        *(("medium", name, "before_opening", row.before_opening, ()) for name, row in library.media.items()),
        *(("boundary", name, "before_opening", row.before_opening, ()) for name, row in library.boundaries.items()),
        *(("proof", name, "held", row.held, ()) for name, row in library.proofs.items()),
    ]
    notices = []
    for noun, name, key, wanted, itself in needs:
        pair = clashes.first_among((*itself, *wanted), ())
        if pair is not None and clashes.sound(wanted):
            declaration = names.of(noun)[name]
            place = declaration.document.toml.place(*declaration.steps, key)
            notices.append(_notice(f"the {noun} `{name}`", pair, place))
    for document in documents:
        if isinstance(document.record, Assembly):
            notices += _in_assembly(document, document.record, clashes)
    return notices


def _in_assembly(document: Document, assembly: Assembly, clashes: Clashes) -> Iterator[Notice]:
    place = document.toml.place
    for index, circuit in enumerate(assembly.circuit):
        forced = clashes.before_opening(circuit)
        pair = clashes.first_among(forced, _choices([circuit]))
        if pair is not None and clashes.sound(*_parts(forced, [circuit])):
            yield _notice(f"opening the circuit `{circuit.id}`", pair, place("circuit", index, "id"))
    for index, component in enumerate(assembly.component):
        for task, work in component.work.items():
            pair = clashes.first_among(work.conditions, ())
            if pair is not None and clashes.sound(work.conditions):
                where = place("component", index, "work", task, "conditions")
                yield _notice(f"the task `{task}` of `{component.id}`", pair, where)
        bared = [circuit for circuit in assembly.circuit if circuit.medium in component.guards]
        rows = [clashes.library.media.get(name) for name in component.guards]
        rows_formed = [clashes.library.boundaries.get(name) for name in component.forms]
        sets = [row.before_opening for row in (*rows, *rows_formed) if row is not None]
        sets += [clashes.before_opening(circuit) for circuit in bared]
        pair = clashes.first_among([name for names in sets for name in names], _choices(bared))
        alone = all(clashes.first_among(clashes.before_opening(c), _choices([c])) is None for c in bared)
        if pair is not None and alone and clashes.sound(*sets):
            yield _notice(f"lifting `{component.id}`", pair, place("component", index, "id"))


def _choices(circuits: Iterable[Circuit]) -> tuple[tuple[str, ...], ...]:
    """For each circuit the conditions of which one isolates it."""
    return tuple(tuple(way.makes for way in circuit.isolate) for circuit in circuits if circuit.isolate)


def _parts(forced: tuple[str, ...], circuits: Iterable[Circuit]) -> tuple[tuple[str, ...], ...]:
    return (forced, *((name,) for choice in _choices(circuits) for name in choice))


def _notice(what: str, pair: Pair, place: Place) -> Notice:
    first, second = pair
    message = f"{what} needs `{first}` and `{second}` at the same time, which exclude each other"
    return Notice("conditions-clash", message, place)
