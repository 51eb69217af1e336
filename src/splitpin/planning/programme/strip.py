"""The first half of a visit: making safe, stripping and the work itself, as acts with what comes before what.

The order of two acts follows from the opening that was chosen; habits of the trade are added, each by its name. By
hand: to replace a pump behind a casing: isolate, undo the casing's screws, casing off, undo the union, pump out, the
new one laid beside the old.
"""

from __future__ import annotations

from dataclasses import replace

from splitpin.access.result import Opening
from splitpin.planning.opening.graph import Graph
from splitpin.planning.plant.doings import Doing, Doings, Lift, Make, Undo, Work, turn
from splitpin.planning.plant.plant import Plant
from splitpin.planning.programme.acts import Ends, Programme
from splitpin.planning.programme.habits import BEARING_LAST, Habits, in_their_order
from splitpin.planning.programme.hands import take_act, undo_act, work_act
from splitpin.planning.programme.loosening import bearing_joints, cautioned, undone_by_itself
from splitpin.planning.programme.procedures import make_acts


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
        self._guarded()
        for habit in in_their_order(habits):
            if habit.strip is not None:
                habit.strip(self)

    def _guarded(self) -> None:
        """What must hold before a lift bares or opens something holds before its first fixing is undone."""
        for lift, earlier in self.doings.items():
            if isinstance(lift, Lift):
                for made in (doing for doing in earlier if isinstance(doing, Make)):
                    for undo in undone_by_itself(lift, self.doings):
                        self.programme.require(self.ends[made].last, self.ends[undo].first)

    def _acts(self) -> None:
        warned = cautioned(self.doings, self.bearing, self.plant)
        bearing = {*self.bearing.values()}
        for doing in self.doings:
            match doing:
                case Make():
                    self.ends[doing] = self.programme.add_chain(make_acts(doing, self.plant))
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
