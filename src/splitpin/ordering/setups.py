"""Exact search without waits: the order with the least set-ups.

A state is (bundles done, stance). By hand: driver at the front opens a panel, spanner at the side frees a pump behind
it, driver at the front again for the pump's bracket: three visits, and no order has fewer, because the bracket waits
for the pump.

Exact: A* (Hart, Nilsson, Raphael 1968, from memory) with the bound "least tool changes of the rest plus least
position changes of the rest". Each part ignores what the other must obey, so the sum never overstates. Three facts
keep the states few: what can be done in the stance at hand is done at once (see bundles); a stance with work to do
that lies on the cheapest way to another is visited on the way; and a state is dropped when one with the same stance,
no more seconds and more done has been expanded, for whatever completes the lesser one completes the greater. Our own
rules.
"""

import heapq
from collections.abc import Iterator

from splitpin.ordering.bundles import bundles
from splitpin.ordering.changes import Blocks, LeastChanges, Stop
from splitpin.ordering.hands import Stances
from splitpin.ordering.precedence import bits

MOST_REMEMBERED = 5_000_000
"""States and bounds remembered before the search gives up the proof: about a gigabyte."""

FIRST_BEAM, BEAM_EVERY = 32, 400
"""A beam of this width after this many expansions; then twice the width at four times as many. Chosen by trial."""

Visit = tuple[int, int, Blocks]
"""A stance to go to, the seconds to get there, and what can be done in it."""


class Setups:
    """One search. Cost: states times visits open at once; states grow with the sets of bundles that can be done."""

    def __init__(self, hands: Stances, ancestors: list[int]) -> None:
        self._bundles = bundles(hands.tool_kinds, hands.place_kinds, ancestors)
        self._hands = hands
        self._places = hands.places
        self._stances = hands.places * len(hands.pickup_s)
        self._all = (1 << len(self._bundles)) - 1
        before = [bundle.ancestors for bundle in self._bundles]
        self._least_pickups = LeastChanges(
            [bundle.tools for bundle in self._bundles], hands.pickup_s, before, hands.stop
        )
        self._least_travel = LeastChanges(
            [bundle.place for bundle in self._bundles], hands.travel_s, before, hands.stop
        )
        self._blocks: dict[int, Blocks] = {}
        self._visits: dict[tuple[int, int], list[Visit]] = {}
        self._goals: dict[int, list[tuple[int, int, int]]] = {}
        self._ways: dict[tuple[int, int], int] = {}
        self._expanded: dict[int, dict[int, list[int]]] = {}
        self.explored = 0

    def rest(self, done: int, stance: int) -> int:
        """A lower bound on the set-ups still needed."""
        held, place = divmod(stance, self._places)
        return self._least_pickups(done, held) + self._least_travel(done, place)

    def run(self, stop: Stop, cutoff: int | None) -> tuple[tuple[int, ...], int, int]:
        """The best order found, its set-up seconds, and the proved bound on the least."""
        start = self._closed(0, self._hands.start) * self._stances + self._hands.start
        parents = {start: -1}
        least = {start: 0}
        path, best = self._greedy(start)
        if stop():
            held, place = divmod(self._hands.start, self._places)
            quick = self._least_pickups.quick(0, held) + self._least_travel.quick(0, place)
            return self._order(path), best, quick
        other_path, found = self._beam(start, 1, stop)
        if found < best:
            path, best = other_path, found
        limit = best if cutoff is None else min(best, cutoff)
        heap = [(self.rest(*divmod(start, self._stances)), 0, start, 0)]
        width, next_beam = FIRST_BEAM, BEAM_EVERY
        proved = limit
        while heap:
            bound, _, state, seconds = heapq.heappop(heap)
            if bound >= limit:
                break
            if least[state] < seconds or self._beaten(state, seconds):
                continue
            self.explored += 1
            if not self.explored & 63 and (self._remembered(least) > MOST_REMEMBERED or stop()):
                proved = bound
                break
            if self.explored == next_beam:
                next_beam, width = next_beam * 4, width * 2
                other_path, found = self._beam(start, width, stop)
                if found < best:
                    path, best = other_path, found
                    limit = min(limit, best)
            for after, total in self._moves(state, seconds):
                known = least.get(after)
                if known is not None and known <= total:
                    continue
                done, stance = divmod(after, self._stances)
                promise = total + self.rest(done, stance)
                if promise < bound:
                    promise = bound
                if promise >= limit:
                    continue
                least[after] = total
                parents[after] = state
                if done == self._all:
                    path, best, limit = self._trace(parents, after), total, total
                heapq.heappush(heap, (promise, -done.bit_count(), after, total))
        else:
            proved = limit
        return self._order(path), best, min(proved, limit)

    def _remembered(self, least: dict[int, int]) -> int:
        return len(least) + self._least_pickups.remembered + self._least_travel.remembered

    def _moves(self, state: int, seconds: int) -> Iterator[tuple[int, int]]:
        """States one visit further, with their seconds."""
        done, stance = divmod(state, self._stances)
        goals = self._goals.get(stance) or self._find_goals(stance)
        targets = 0
        for bundle, needed, goal in goals:
            if needed & done == needed and not done & bundle:
                targets |= goal
        visits = self._visits.get((stance, targets))
        if visits is None:
            visits = self._visits[stance, targets] = self._choose(stance, targets)
        for target, cost, blocks in visits:
            after = done
            for needed, members in blocks:
                if needed & after == needed:
                    after |= members
            yield after * self._stances + target, seconds + cost

    def _find_goals(self, stance: int) -> list[tuple[int, int, int]]:
        """Per bundle: itself, what it needs, and the stance it leads to, each as a set."""
        held, place = divmod(stance, self._places)
        goals = []
        for index, bundle in enumerate(self._bundles):
            tools = bundle.tools if bundle.tools >= 0 else held
            goal = tools * self._places + (bundle.place if bundle.place >= 0 else place)
            goals.append((1 << index, bundle.ancestors, 1 << goal))
        self._goals[stance] = goals
        return goals

    def _choose(self, stance: int, targets: int) -> list[Visit]:
        """The visits worth making next: those with no other such visit on the way."""
        from_here = self._hands.steps(stance)
        return [
            (target, from_here[target], self._work(target))
            for target in bits(targets)
            if not self._way(stance, target) & targets
        ]

    def _way(self, stance: int, target: int) -> int:
        """The set of stances that can be passed from one to the other for nothing more, as in on_the_way."""
        known = self._ways.get((stance, target))
        if known is None:
            from_here, back, direct = (
                self._hands.steps(stance),
                self._hands.steps(target),
                self._hands.steps(stance)[target],
            )
            known = 0
            for middle, there in enumerate(from_here):
                if middle == target or there > direct or there + self._hands.steps(middle)[target] > direct:
                    continue
                if middle < target or direct + back[middle] > there:
                    known |= 1 << middle
            self._ways[stance, target] = known
        return known

    def _work(self, stance: int) -> Blocks:
        known = self._blocks.get(stance)
        if known is None:
            held, place = divmod(stance, self._places)
            known = self._blocks[stance] = [
                (bundle.ancestors, 1 << index)
                for index, bundle in enumerate(self._bundles)
                if bundle.tools in (-1, held) and bundle.place in (-1, place)
            ]
        return known

    def _closed(self, done: int, stance: int) -> int:
        for needed, members in self._work(stance):
            if needed & done == needed:
                done |= members
        return done

    def _beaten(self, state: int, seconds: int) -> bool:
        """Whether an expanded state has the same stance, no more seconds and nothing less done; else remembered."""
        done, stance = divmod(state, self._stances)
        expanded = self._expanded.setdefault(stance, {})
        common = done.__and__
        for spent, others in expanded.items():
            if spent <= seconds and done in map(common, others):
                return True
        expanded.setdefault(seconds, []).append(done)
        return False

    def _greedy(self, start: int) -> tuple[list[int], int]:
        """A first path, without any bound: always the visit that takes the least for every bundle it does."""
        path, seconds = [start], 0
        while (done := path[-1] // self._stances) != self._all:
            spent = seconds
            state, seconds = min(
                self._moves(path[-1], spent),
                key=lambda move: (
                    (move[1] - spent) * len(self._bundles) // (move[0] // self._stances & ~done).bit_count(),
                    move,
                ),
            )
            path.append(state)
        return path, seconds

    def _beam(self, start: int, width: int, stop: Stop) -> tuple[list[int], int]:
        """A good path: at every visit the most promising states up to the width go on."""
        layer = [(self.rest(*divmod(start, self._stances)), start, 0)]
        parents = {start: -1}
        path: list[int] = []
        best = 1 << 60
        if start // self._stances == self._all:
            return [start], 0
        while layer:
            following: dict[int, tuple[int, int]] = {}
            for _, state, seconds in layer:
                if stop():
                    return path, best
                for after, total in self._moves(state, seconds):
                    if after not in following or total < following[after][0]:
                        following[after] = total, state
            layer = []
            for after, (total, state) in following.items():
                done, stance = divmod(after, self._stances)
                promise = total + self.rest(done, stance)
                if promise < best:
                    if after in parents:
                        continue
                    parents[after] = state
                    if done == self._all:
                        best, path = total, self._trace(parents, after)
                    else:
                        layer.append((promise, after, total))
            layer.sort()
            del layer[width:]
        return path, best

    @staticmethod
    def _trace(parents: dict[int, int], state: int) -> list[int]:
        path = []
        while state >= 0:
            path.append(state)
            state = parents[state]
        return path[::-1]

    def _order(self, path: list[int]) -> tuple[int, ...]:
        """The operations visit by visit, within a visit by number."""
        order: list[int] = []
        done = 0
        for state in path:
            after = state // self._stances
            members = 0
            for index in bits(after & ~done):
                members |= self._bundles[index].members
            order.extend(bits(members))
            done = after
        return tuple(order)
