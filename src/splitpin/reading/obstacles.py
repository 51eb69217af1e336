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

# ("lift", component, way) ("bench", component) ("undo", joint) ("undo at bench", joint) ("task", component, name), and
# the states ("out", component) ("clear", component) ("clear at bench", component) ("undone", joint)
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
        name, carrier = component.id, component.carried_by
        lifts = [(("lift", name, str(number)), way) for number, way in enumerate(component.ways)]
        out: Requirement = [[(lift, None)] for lift, way in lifts if way.ends == "out"]
        clear: Requirement = [[(lift, None)] for lift, _ in lifts]
        at_bench: Requirement = [[(lift, None)] for lift, _ in lifts]
        if carrier is not None:
            rule = Rule(f"`{name}` is carried by `{carrier}`", self.toml.place(*steps, "carried_by"))
            out.append([(("bench", name), None)])
            clear.append([(("out", carrier), rule)])
            at_bench.append([(("bench", name), None)])
            self.needs["bench", name] = self._off_the_bench(component, carrier, rule, steps)
        self.needs["out", name] = [out]
        self.needs["clear", name] = [clear]
        self.needs["clear at bench", name] = [at_bench]
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

    def _off_the_bench(self, component: Component, carrier: str, rule: Rule, steps: Steps) -> list[Requirement]:
        needs: list[Requirement] = [[[(("out", carrier), rule)]]]
        for joint in self.assembly.joint:
            if holds(joint, self.groups[component.id]):
                inside = set(joint.between) <= self.groups[carrier]
                needs.append([[(("undo at bench" if inside else "undone", joint.id), self._holds(joint, component))]])
        where = (*steps, "way", 0) if component.way else steps
        needs.append(self._behind(component.id, component.ways[0].behind, where, at=carrier))
        return needs

    def _holds(self, joint: Joint, component: Component) -> Rule:
        return Rule(f"`{component.id}` is held by `{joint.id}`", self.toml.place(*self.joint_steps[joint.id]))

    def _behind(self, name: str, sets: tuple[tuple[str, ...], ...], steps: Steps, at: str | None = None) -> Requirement:
        """The sets of which one must be clear; with `at`, only what travels with that carrier stands in the way."""
        choice: Requirement = []
        group = None if at is None else self.groups[at] - {at}
        nested = isinstance(self.toml.value((*steps, "behind", 0)), list)
        for number, names in enumerate(sets):
            alternative: Alternative = []
            for index, other in enumerate(names):
                if group is None or other in group:
                    place = self.toml.place(*steps, "behind", *((number, index) if nested else (index,)))
                    rule = Rule(f"`{name}` is behind `{other}`", place)
                    alternative.append((("clear" if at is None else "clear at bench", other), rule))
            choice.append(alternative)
        return choice

    # -- joints

    def _joint(self, joint: Joint) -> None:
        steps = self.joint_steps[joint.id]
        undone: Requirement = [[(("undo", joint.id), None)]]
        self.needs["undo", joint.id] = [self._behind(joint.id, joint.behind, steps)]
        carrier = self._carrier_around(joint)
        if carrier is not None:
            undone.append([(("undo at bench", joint.id), None)])
            rule = Rule(f"`{joint.id}` is inside what `{carrier}` carries", self.toml.place(*steps, "between"))
            self.needs["undo at bench", joint.id] = [
                [[(("out", carrier), rule)]],
                self._behind(joint.id, joint.behind, steps, at=carrier),
            ]
        self.needs["undone", joint.id] = [undone]

    def _carrier_around(self, joint: Joint) -> str | None:
        """The innermost carrier inside whose group the joint stays made."""
        around = [name for name, group in self.groups.items() if len(group) > 1 and set(joint.between) <= group]
        return min(around, key=lambda name: (len(self.groups[name]), name), default=None)
