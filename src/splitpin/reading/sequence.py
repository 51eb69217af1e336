"""The order in which conditions are made and released and proofs are run, where the rules leave none.

Each making, each release and each proof is an event; every rule says which of two comes first. Rules that make an event
wait for itself can never be kept. By hand: a proof that runs with the plant running comes after the release of every
condition; a condition that is released only after that proof comes after it: neither can be first.
"""

from collections.abc import Iterator

from splitpin.notices import Notice, Place
from splitpin.reading.cycles import Rule, circle_notice, circles, told_from
from splitpin.reading.declared import Declared
from splitpin.reading.located import Steps
from splitpin.records.assembly import Assembly
from splitpin.records.library import Library

Event = tuple[str, str]  # ("make", condition) ("release", condition) ("run", proof)
Waits = dict[Event, list[tuple[Event, Rule | None]]]


def sequence_notices(names: Declared, library: Library) -> list[Notice]:
    """Circles among conditions and proofs, and proofs that can never run.

    Only what the sound records of the library say is looked at. Cost: conditions x proofs, and the rules.
    """
    waits: Waits = {("run", name): [] for name in library.proofs}
    for name in library.conditions:
        at = _At(names, "condition", name)
        waits["make", name] = [
            _wait("make", other, f"`{name}` is made after `{other}`", place) for other, place in at.each("after")
        ]
        waits["release", name] = [
            _wait(
                "run" if other in library.proofs else "release", other, f"`{name}` is released after `{other}`", place
            )
            for other, place in at.each("release_after")
        ]
    for name, proof in library.proofs.items():
        at = _At(names, "proof", name)
        for other, place in at.each("after"):
            waits["run", name].append(_wait("run", other, f"`{name}` comes after `{other}`", place))
        for other, place in at.each("held"):
            text = f"`{other}` must hold during `{name}`"
            waits.setdefault(("release", other), []).append(_wait("run", name, text, place))
        if proof.plant == "running":
            text, place = f"`{name}` runs with every condition released", at.place("plant")
            waits["run", name] += [_wait("release", other, text, place) for other in library.conditions]
    for assembly in library.assemblies.values():
        _with_the_medium_back(names, library, assembly, waits)
    notices = [_told(circle) for _, circle in circles(waits)]
    for name in library.proofs:
        notices += _by_itself(names, library, name)
    return notices


def _wait(event: str, name: str, text: str, place: Place) -> tuple[Event, Rule | None]:
    return (event, name), Rule(text, place)


class _At:
    """The places of one declared table's keys."""

    def __init__(self, names: Declared, noun: str, name: str) -> None:
        declaration = names.of(noun)[name]
        self.toml = declaration.document.toml
        self.steps: Steps = declaration.steps

    def place(self, *steps: str | int) -> Place:
        return self.toml.later((*self.steps, *steps))

    def each(self, key: str) -> list[tuple[str, Place]]:
        """The names in a list, and the place of each."""
        value = self.toml.value((*self.steps, key))
        return [
            (str(name), self.place(key, index)) for index, name in enumerate(value if isinstance(value, list) else [])
        ]


def _with_the_medium_back(names: Declared, library: Library, assembly: Assembly, waits: Waits) -> None:
    """A proof with the plant charged comes after the release of what kept the medium out of the circuit it proves."""
    for circuit in assembly.circuit:
        medium = library.media.get(circuit.medium)
        proofs = circuit.after_remaking
        if proofs is None:
            proofs = medium.after_remaking if medium else ()
        for name in proofs:
            if name in library.proofs and library.proofs[name].plant == "charged":
                text = f"`{name}` runs with the medium back in `{circuit.id}` of `{assembly.assembly.id}`"
                rule = Rule(text, _At(names, "proof", name).place("plant"))
                waits["run", name] += [(("release", isolation.makes), rule) for isolation in circuit.isolate]


def _told(circle: tuple[tuple[Event, Rule], ...]) -> Notice:
    proof = next((name for (event, name), _ in circle if event == "run"), None)
    if proof is None:
        return circle_notice(circle)
    rules = [rule for _, rule in circle]
    message = f"`{proof}` can never run: {told_from(rules)}"
    return Notice("proof-never-runs", message, rules[0].place, "one of these rules has to go")


def _by_itself(names: Declared, library: Library, name: str) -> Iterator[Notice]:
    """Where a proof's own keys contradict each other."""
    proof, at = library.proofs[name], _At(names, "proof", name)
    if proof.stage == "live" and proof.plant != "running":
        message = f'`{name}` can never run: its stage is "live", when the plant runs, but its plant is "{proof.plant}"'
        yield Notice("proof-never-runs", message, at.place("plant"), 'write plant = "running", or another stage')
    if proof.plant == "dead" and not proof.held:
        message = f'`{name}` can never run: its plant is "dead", but it names no condition that keeps it so'
        yield Notice("proof-never-runs", message, at.place("plant"), 'name it: held = ["…"]')
