"""What nothing frees is what no engineer gets out: checked by taking plant apart, move by move, until nothing moves."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splitpin.reading.document import Document, read_document
from splitpin.reading.freedom import freedom_notices
from splitpin.reading.holding import circle_of_carriers
from splitpin.records.assembly import Assembly, Component, Joint

NAMES = ("a", "b", "c", "d")


def _text(components: list[str], joints: list[str]) -> str:
    head = 'format = 1\n[assembly]\nid = "unit"\ntitle = "unit"\npositions = ["front"]\n'
    return head + "".join(components + joints)


def _sets(sets: list[list[str]]) -> str:
    return "[" + ", ".join("[" + ", ".join(f'"{name}"' for name in names) + "]" for names in sets) + "]"


BEHIND = st.lists(st.lists(st.sampled_from(NAMES), max_size=2, unique=True), min_size=1, max_size=2)


@st.composite
def _assemblies(draw: st.DrawFn) -> str:
    components, joints = [], []
    for index, name in enumerate(NAMES):
        text = f'[[component]]\nid = "{name}"\ntitle = "{name}"\nrole = "{name}"\nposition = "front"\n'
        if index and draw(st.booleans()):
            text += f'carried_by = "{draw(st.sampled_from(NAMES[:index]))}"\n'  # of earlier ones: no circle
        for _ in range(draw(st.integers(1, 2))):
            ends = draw(st.sampled_from(["out", "out", "aside"]))
            text += f'[[component.way]]\nends = "{ends}"\nbehind = {_sets(draw(BEHIND))}\n'
        components.append(text)
    for number in range(draw(st.integers(0, 3))):
        ends = draw(st.lists(st.sampled_from((*NAMES, "frame")), min_size=2, max_size=2, unique=True))
        joints.append(
            f'[[joint]]\nid = "j{number}"\nbetween = ["{ends[0]}", "{ends[1]}"]\nhardware = "screw"\n'
            f'position = "front"\nbehind = {_sets(draw(BEHIND))}\n'
        )
    return _text(components, joints)


def _read(tmp_path: Path, text: str) -> tuple[Document, Assembly]:
    file = tmp_path / "unit.toml"
    file.write_text(text, encoding="utf-8")
    document, notices = read_document(file, "unit.toml")
    assert notices == []
    assert document is not None
    assert isinstance(document.record, Assembly)
    return document, document.record


class Bench:
    """The plant on the floor: what is away, out and undone, and every move that the file format allows."""

    def __init__(self, assembly: Assembly) -> None:
        self.components = {component.id: component for component in assembly.component}
        self.joints = assembly.joint
        self.out: set[str] = set()
        self.aside: set[str] = set()
        self.undone: set[str] = set()
        while self._move():
            pass

    def carriers(self, name: str) -> list[str]:
        """The component itself and all that carry it, upwards."""
        found = [name]
        while (above := self.components[found[-1]].carried_by) is not None:
            found.append(above)
        return found

    def travels_with(self, name: str, carrier: str) -> bool:
        return name in self.components and carrier in self.carriers(name)

    def clear(self, name: str) -> bool:
        """Out or aside by itself, or gone with its carrier."""
        return name in self.out | self.aside or any(one in self.out for one in self.carriers(name)[1:])

    def _holding(self, name: str) -> list[Joint]:
        return [j for j in self.joints if sum(self.travels_with(end, name) for end in j.between) == 1]

    def _may_lift(self, component: Component, number: int) -> bool:
        way = component.ways[number]
        held = any(joint.id not in self.undone for joint in self._holding(component.id))
        return not held and any(all(map(self.clear, names)) for names in way.behind)

    def _may_leave_bench(self, component: Component, number: int) -> bool:
        held = any(joint.id not in self.undone for joint in self._holding(component.id))
        carriers = [one for one in self.carriers(component.id)[1:] if one in self.out]
        return not held and any(self._bench_clear(component.ways[number].behind, one) for one in carriers)

    def _bench_clear(self, sets: tuple[tuple[str, ...], ...], carrier: str) -> bool:
        """At the bench only what came with the carrier is in the way, until it or what carries it leaves."""
        return any(
            all(self._left(n, carrier) for n in names if n != carrier and self.travels_with(n, carrier))
            for names in sets
        )

    def _left(self, name: str, carrier: str) -> bool:
        chain = self.carriers(name)
        return any(one in self.out | self.aside for one in chain[: chain.index(carrier)])

    def _may_undo(self, joint: Joint) -> bool:
        if any(all(map(self.clear, names)) for names in joint.behind):
            return True
        around = [n for n in self.components if all(self.travels_with(end, n) for end in joint.between)]
        around = [n for n in around if any(other.carried_by == n for other in self.components.values())]
        return any(one in self.out and self._bench_clear(joint.behind, one) for one in around)

    def _move(self) -> bool:
        before = (len(self.out), len(self.aside), len(self.undone))
        self.undone |= {joint.id for joint in self.joints if self._may_undo(joint)}
        for component in self.components.values():
            for number, way in enumerate(component.ways):
                if self._may_lift(component, number) or self._may_leave_bench(component, number):
                    (self.out if way.ends == "out" else self.aside).add(component.id)
        return before != (len(self.out), len(self.aside), len(self.undone))


@settings(max_examples=300)
@given(text=_assemblies())
def test_a_notice_is_given_exactly_where_something_can_never_be_cleared(
    text: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    document, assembly = _read(tmp_path_factory.getbasetemp(), text)
    assert circle_of_carriers(document, assembly) == []
    bench = Bench(assembly)
    stuck = [name for name in bench.components if not bench.clear(name)]
    notices = freedom_notices(document, assembly)
    assert bool(notices) == bool(stuck)
    assert {notice.code for notice in notices} <= {"cycle", "never-free"}
    for notice in notices:
        if notice.code == "never-free":
            assert notice.message.split("`")[1] in stuck


def _component(name: str, rest: str = "") -> str:
    return f'[[component]]\nid = "{name}"\ntitle = "{name}"\nrole = "{name}"\nposition = "front"\n{rest}'


def test_a_circle_does_not_count_where_another_way_breaks_it(tmp_path: Path) -> None:
    second = '[[component.way]]\nends = "out"\nbehind = ["b"]\n[[component.way]]\nends = "aside"\n'
    document, assembly = _read(tmp_path, _text([_component("a", second), _component("b", 'behind = ["a"]\n')], []))
    assert freedom_notices(document, assembly) == []


def test_a_circle_does_not_count_where_the_carrier_takes_a_part_along(tmp_path: Path) -> None:
    parts = [
        _component("a"),
        _component("b", 'carried_by = "a"\nbehind = ["c"]\n'),
        _component("c", 'behind = ["b"]\n'),
    ]
    document, assembly = _read(tmp_path, _text(parts, []))
    assert freedom_notices(document, assembly) == []
