"""The first half of a visit: making safe, stripping and the work itself, as acts with what comes before what.

The order of two acts follows from the opening that was chosen; habits of the trade are added, each by its name. By
hand: to replace a pump behind a casing: isolate, undo the casing's screws, casing off, undo the union, pump out, the
new one laid beside the old.
"""

from __future__ import annotations

from dataclasses import replace

from splitpin.access.result import Opening
from splitpin.planning.asked.expand import REPLACE
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Doing, Doings, Lift, Make, Undo, Work, turn
from splitpin.planning.plant.operating import circuits_opened, driven
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Ends, Programme
from splitpin.planning.programme.habits import BEARING_LAST, Habits, in_their_order
from splitpin.planning.programme.hands import compare_act, take_act, undo_act, work_act
from splitpin.planning.programme.loosening import bearing_joints, cautioned, undone_by_itself
from splitpin.planning.programme.procedures import make_acts, operated_behind
from splitpin.planning.programme.telling import tell_act, tellings


def doings_of(opening: Opening, graph: Graph, plant: Plant) -> Doings:
    """Every doing of an opening with those straight before it; what is taken or undone in place comes before the
    carrier that would take it along.
    """
    doings = graph.doings(opening)
    found = dict(doings)
    for carrier, before in doings.items():
        if isinstance(carrier, Lift) and carrier.ends == "out" and plant.carries(carrier.component.id):
            inside = [doing for doing in doings if _in_place_inside(doing, carrier, plant)]
            found[carrier] = tuple(sorted({*before, *inside}, key=turn))
    return found


def _in_place_inside(doing: Doing, carrier: Lift, plant: Plant) -> bool:
    match doing:
        case Undo(bench=False):
            return plant.inside(doing.joint, carrier.component)
        case Lift(carrier=None):
            inside = plant.group(carrier.component)
            return doing.component.id in inside and doing.component.id != carrier.component.id
    return False


class Strip:
    """The programme of the first half; `ends` are the first and the last act of each doing."""

    def __init__(self, doings: Doings, plant: Plant, habits: Habits) -> None:
        self.doings = doings
        self.plant = plant
        self.programme = Programme()
        self.ends: dict[Doing, Ends] = {}
        self.bearing = bearing_joints(doings, plant) if BEARING_LAST in habits else {}
        self._acts()
        for doing, earlier in doings.items():
            for other in earlier:
                self.programme.require(self.ends[other].last, self.ends[doing].first)
        for tell in tellings(doings, plant, back=False):
            told = self.programme.add(tell_act(tell))
            for made in tell.made:
                self.programme.require(told, self.ends[made].first)
        self._compared()
        self._guarded()
        self._at_the_joint()
        self._of_the_place()
        self._while_possible()
        for driver, other in driven(self.doings, self.plant):
            self.programme.prefer(self.ends[driver].last, self.ends[other].first)
        self._within_reach()
        for habit in in_their_order(habits):
            if habit.strip is not None:
                habit.strip(self)

    def _compared(self) -> None:
        """A new part is compared before anything is told, shut off or opened."""
        rest = tuple(self.programme.acts)
        for work in self.doings:
            if isinstance(work, Work) and work.wanted.do == REPLACE:
                component = work.wanted.component
                if component is None or not component.must_match:
                    continue
                act = self.programme.add(compare_act(work))
                for later in rest:
                    self.programme.require(act, later)

    def _guarded(self) -> None:
        """What must hold before a lift bares or opens something holds before its first fixing is undone."""
        for lift, earlier in self.doings.items():
            if isinstance(lift, Lift):
                for made in (doing for doing in earlier if isinstance(doing, Make)):
                    for undo in undone_by_itself(lift, self.doings):
                        self.programme.require(self.ends[made].last, self.ends[undo].first)

    def _at_the_joint(self) -> None:
        """What is made at a joint is made when everything in front of it is off, wherever such joints stand."""
        made = {doing.name: doing for doing in self.doings if isinstance(doing, Make)}
        for undo, earlier in self.doings.items():
            if isinstance(undo, Undo):
                covers = [self.ends[doing].last for doing in earlier if isinstance(doing, Lift)]
                for name in self.plant.before_undoing(undo.joint):
                    for cover in covers:
                        self.programme.prefer(cover, self.ends[made[name]].first)

    def _of_the_place(self) -> None:
        """What the place asks for comes before all that does not lead to it."""
        asked = {name for fact in self.plant.facts for name in fact.conditions}
        for doing in [doing for doing in self.doings if doing.name in asked and isinstance(doing, Make)]:
            for act in self.programme.acts:
                self.programme.prefer(self.ends[doing].last, act)

    def _while_possible(self) -> None:
        """What needs a state of the plant comes before what takes that state away."""
        made = [doing for doing in self.doings if isinstance(doing, Make) and not doing.already]
        for doing in self.doings:
            needed = {line.state for act in self.programme.acts if act.part is doing for line in act.lines}
            for taker in made:
                if taker is not doing and needed & {*taker.condition.takes_away}:
                    self.programme.prefer(self.ends[doing].last, self.ends[taker].first)

    def _within_reach(self) -> None:
        """A point that is operated stands clear: the covers in front of it come off first."""
        for lift in self.doings:
            if isinstance(lift, Lift):
                for act in operated_behind(lift.component.id, self.programme.acts, self.plant):
                    self.programme.prefer(self.ends[lift].last, act)

    def _acts(self) -> None:
        warned = cautioned(self.doings, self.bearing, self.plant)
        bearing = {*self.bearing.values()}
        opened = circuits_opened(self.doings)
        for doing in self.doings:
            match doing:
                case Make():
                    self.ends[doing] = self.programme.add_chain(make_acts(doing, self.plant, opened))
                case Lift():
                    act = take_act(doing, self.plant)
                    undo = self.bearing.get(doing)
                    if undo is not None:
                        undone = undo_act(undo, self.plant, warned.get(undo, ()))
                        lines = (replace(line, joint=undone.joint) for line in undone.lines)
                        act = replace(act, lines=(*lines, *act.lines))
                    self.ends[doing] = self.programme.add_chain([act])
                case Undo() if doing not in bearing:
                    act = undo_act(doing, self.plant, warned.get(doing, ()))
                    self.ends[doing] = self.programme.add_chain([act])
        for lift, undo in self.bearing.items():
            self.ends[undo] = self.ends[lift]
        for doing in self.doings:
            if isinstance(doing, Work):
                self.ends[doing] = self.programme.add_chain([work_act(doing, self.doings, self.plant)])
