"""What stands in the way of what, in one assembly: the rules of `docs/file-format.md`, "What must hold", as a graph.

A node is a doing or a state. It has requirements, all to be met; a requirement has alternatives, one to be met; an
alternative is a set of nodes. By hand: a pump held by a union behind a casing gives `out pump` <- `lift pump` <-
(`undone union` <- `undo union` <- `clear casing`) and (`clear casing`). Conditions and licences are not in it: they
open no way.
"""

from splitpin.reading.cycles import Rule
from splitpin.reading.document import Document
from splitpin.reading.holding import Groups, groups, holds
from splitpin.reading.located import Steps
from splitpin.records.assembly import Assembly, Component, Joint, Way
from splitpin.records.base import Behind

# ("lift", component, way) ("bench", component, way, carrier) ("undo", joint) ("undo at bench", joint, carrier)
# ("task", component, name), and the states ("out", component) ("clear", component) ("undone", joint)
# ("clear at bench", component, carrier)
Node = tuple[str, ...]
Alternative = list[tuple[Node, Rule | None]]
Requirement = list[Alternative]


def obstacles(document: Document, assembly: Assembly) -> dict[Node, list[Requirement]]:
    """The requirements of every node. The assembly's names are all known and nothing carries itself.

    Cost: joints x components, and the rules.
    """
    return _Graph(document, assembly).needs


class _Graph:
    def __init__(self, document: Document, assembly: Assembly) -> None:
        self.toml = document.toml
        self.assembly = assembly
        self.groups: Groups = groups(assembly)
        self.needs: dict[Node, list[Requirement]] = {}
        self.joint_steps = {joint.id: ("joint", index) for index, joint in enumerate(assembly.joint)}
        for index, component in enumerate(assembly.component):
            self._component(component, ("component", index))
        for joint in assembly.joint:
            self._joint(joint)

    # -- components

    def _component(self, component: Component, steps: Steps) -> None:
        name = component.id
        lifts = [(("lift", name, str(number)), way) for number, way in enumerate(component.ways)]
        out: Requirement = [[(lift, None)] for lift, way in lifts if way.ends == "out"]
        clear: Requirement = [[(lift, None)] for lift, _ in lifts]
        at_bench: Requirement = [[(lift, None)] for lift, _ in lifts]
        carriers = self._carriers(component)
        for carrier in carriers:
            rule = Rule(f"`{name}` is carried by `{carrier}`", self.toml.place(*steps, "carried_by"))
            clear.append([(("out", carrier), rule)])
            for number, way in enumerate(component.ways):
                bench = ("bench", name, str(number), carrier)
                at_bench.append([(bench, None)])
                if way.ends == "out":
                    out.append([(bench, None)])
                where = (*steps, "way", number) if component.way else steps
                self.needs[bench] = self._off_the_bench(component, way, carrier, rule, where)
        self.needs["out", name] = [out]
        self.needs["clear", name] = [clear]
        for number, carrier in enumerate(carriers):
            along: Requirement = [[(("clear at bench", carriers[0], carrier), None)]] if number else []
            self.needs["clear at bench", name, carrier] = [[*at_bench, *along]]
        for number, (lift, way) in enumerate(lifts):
            where = (*steps, "way", number) if component.way else steps
            self.needs[lift] = [*self._held(component, way), self._behind(name, way.behind, where)]
        for task in sorted(set(component.work) | ({"replace"} if component.part else set())):
            self.needs["task", name, task] = self._task(component, task, steps)

    def _task(self, component: Component, task: str, steps: Steps) -> list[Requirement]:
        work = component.work.get(task)
        if work is not None and work.needs != "out":
            return []
        key = (*steps, "work", task, "needs") if work else (*steps, "part")
        return [[[(("out", component.id), Rule(f"`{task}` needs `{component.id}` out", self.toml.place(*key)))]]]

    def _held(self, component: Component, way: Way) -> list[Requirement]:
        group = self.groups[component.id]
        undoes = [j for j in self.assembly.joint if (holds(j, group) if way.undoes is None else j.id in way.undoes)]
        return [[[(("undone", joint.id), self._holds(joint, component))]] for joint in undoes]

    def _off_the_bench(
        self, component: Component, way: Way, carrier: str, rule: Rule, steps: Steps
    ) -> list[Requirement]:
        out: Requirement = [[(("out", carrier), rule)]]
        return [out, *self._held(component, way), self._behind_at_bench(component.id, way, steps, carrier)]

    def _behind_at_bench(self, name: str, item: Way | Joint, steps: Steps, carrier: str) -> Requirement:
        if item.bench_behind is None:
            return self._behind(name, item.behind, steps, at=carrier)
        return self._behind(name, item.bench_behind, steps, at=carrier, key="bench_behind")

    def _carriers(self, component: Component) -> list[str]:
        """What carries it, the nearest first."""
        rows = {row.id: row for row in self.assembly.component}
        found: list[str] = []
        while component.carried_by is not None:
            found.append(component.carried_by)
            component = rows[component.carried_by]
        return found

    def _holds(self, joint: Joint, component: Component) -> Rule:
        return Rule(f"`{component.id}` is held by `{joint.id}`", self.toml.place(*self.joint_steps[joint.id]))

    def _behind(self, name: str, sets: Behind, steps: Steps, at: str | None = None, key: str = "behind") -> Requirement:
        """The sets of which one must be clear; with `at`, only what travels with that carrier stands in the way."""
        choice: Requirement = []
        group = None if at is None else self.groups[at] - {at}
        nested = isinstance(self.toml.value((*steps, key, 0)), list)
        for number, names in enumerate(sets):
            alternative: Alternative = []
            for index, other in enumerate(names):
                if group is None or other in group:
                    place = self.toml.place(*steps, key, *((number, index) if nested else (index,)))
                    rule = Rule(f"`{name}` is behind `{other}`", place)
                    alternative.append((("clear", other) if at is None else ("clear at bench", other, at), rule))
            choice.append(alternative)
        return choice

    # -- joints

    def _joint(self, joint: Joint) -> None:
        steps = self.joint_steps[joint.id]
        undone: Requirement = [[(("undo", joint.id), None)]]
        self.needs["undo", joint.id] = [self._behind(joint.id, joint.behind, steps)]
        for carrier in self._carriers_around(joint):
            undone.append([(("undo at bench", joint.id, carrier), None)])
            rule = Rule(f"`{joint.id}` is inside what `{carrier}` carries", self.toml.place(*steps, "between"))
            self.needs["undo at bench", joint.id, carrier] = [
                [[(("out", carrier), rule)]],
                self._behind_at_bench(joint.id, joint, steps, carrier),
            ]
        self.needs["undone", joint.id] = [undone]

    def _carriers_around(self, joint: Joint) -> list[str]:
        """The carriers inside whose groups the joint stays made, the innermost first."""
        around = [name for name, group in self.groups.items() if len(group) > 1 and set(joint.between) <= group]
        return sorted(around, key=lambda name: (len(self.groups[name]), name))
