"""A round to its load: plan what each job may turn out to be, find the load, and say what comes of it.

In reading order: outcomes of each job, the problem in numbers, the load, its chances; then everything that the people
who load and drive the van have to know.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

import splitpin
from splitpin.faults.suspects import Cause
from splitpin.notices import Notice, in_order
from splitpin.notices.own_check import refuse
from splitpin.records.library import Round
from splitpin.records.plan import PlanNotice
from splitpin.records.prices import Price
from splitpin.records.supply import (
    LoadCompared,
    LoadJob,
    LoadLimit,
    LoadLine,
    LoadShared,
    LoadSuspect,
    PickPlace,
    RoundLoad,
)
from splitpin.supply import aboard, left, stowing
from splitpin.supply.chances import Chances, chances_of
from splitpin.supply.check import faults_of_shared
from splitpin.supply.numbers import GRAMS, MONEY, Numbers, masses_kg, numbers, volume_l
from splitpin.supply.sharing import SharedLoad, shared_load
from splitpin.supply.store import Stores
from splitpin.supply.visits import Outcome, outcomes

Counts = tuple[int, ...]


def load_round(
    done: Round,
    prices: Mapping[str, Price],
    *,
    counted: Mapping[str, Mapping[str, Mapping[Cause, float]]] | None = None,
    stop: Callable[[], bool] | None = None,
    said: Iterable[Notice] = (),
) -> RoundLoad:
    """The load of a round. `counted` are likelihoods learnt from records, by assembly and symptom.

    OwnCheckError where its own check refuses the load. Cost: a plan for each suspect of each job, then the search,
    which `stop` ends with the best so far.
    """
    known = counted or {}
    found = tuple(outcomes(visit, counted=known.get(visit.assembly.assembly.id), stop=None) for _, visit in done.visits)
    stores = Stores.of(done.in_van, done.in_store)
    plain = numbers(done, found, stores, prices)
    answer = shared_load(plain.problem, stop)
    wrong = faults_of_shared(plain.problem, answer.load, answer.cost, answer.floor, answer.chances.given_up)
    refuse("load", wrong, done.file.round.place, splitpin.__version__)
    return _Loading(done, found, stores, plain, answer).told(said)


@dataclass(frozen=True, slots=True)
class _Loading:
    done: Round
    outcomes: tuple[tuple[Outcome, ...], ...]
    stores: Stores
    numbers: Numbers
    answer: SharedLoad

    def told(self, said: Iterable[Notice]) -> RoundLoad:
        head = self.done.file.round
        supply, charges = self.done.firm.supply, self.done.firm.charges
        lines = self._lines()
        titles = self._titles()
        counts, chances = self.answer.load.counts, self.answer.chances
        notices = [*said, *aboard.notices(self.done, self.outcomes, self.numbers)]
        references = [visit.job.job.reference for _, visit in self.done.visits]
        return RoundLoad(
            splitpin=splitpin.__version__,
            round=head.reference,
            title=head.title,
            van=self.done.van.van.title,
            firm=self.done.firm.firm.title,
            date=head.date,
            aim=head.aim if supply else "fewest-return-visits",
            currency=charges.currency if charges else None,
            status="proved" if not self.answer.gap else "bounded",
            by_rule=self.answer.load.proved,
            gap=round(self.answer.gap, 6),
            finished=round(chances.expected, 6),
            every=round(chances.every, 6),
            jobs=tuple(self._jobs()),
            lines=lines,
            tools=aboard.tools(self.done, self.outcomes),
            shared=tuple(self._shared()),
            lifts=aboard.lifts(self.done, self.outcomes),
            licences=aboard.licences(self.done, self.outcomes),
            left=tuple(left.left_behind(self.done, self.numbers, counts, titles, chances)),
            best_extra=left.best_extra(self.numbers, counts, titles, chances),
            mass=self._mass(),
            volume=self._volume(),
            stowing=stowing.stowed(lines, references),
            compared=tuple(self._compared()),
            notices=(
                *self._emergencies(),
                *(PlanNotice.of(notice) for notice in in_order(notices)),
            ),
        )

    def _emergencies(self) -> tuple[PlanNotice, ...]:
        """Emergencies that a report speaks of and somebody ruled out: to be asked again, each told once."""
        found = (notice for job in self.outcomes for one in job for notice in one.plan.notices)
        return tuple(dict.fromkeys(notice for notice in found if notice.code == "emergency-ruled-out"))

    def _titles(self) -> dict[str, str]:
        library = self.done.visits[0][1].library
        titles = {part: wanted.row.title for part, wanted in self.numbers.wanted.items()}
        named = {part: library.parts[part].title for part in titles if part in library.parts}
        return titles | named | {tool: library.tools[tool].title for tool in self.numbers.tools}

    def _jobs(self) -> Iterable[LoadJob]:
        titles, counts = self._titles(), self.answer.load.counts
        rows = zip(self.done.visits, self.outcomes, self.answer.chances.faults, strict=True)
        for n, ((_, visit), found, cured) in enumerate(rows):
            weight = sum(one.weight for one in found)
            yield LoadJob(
                n=n + 1,
                reference=visit.job.job.reference,
                title=visit.job.job.title,
                assembly_title=visit.assembly.assembly.title,
                certain=len(found) == 1,
                chance=round(self.answer.chances.jobs[n], 6),
                people=max(visit.job.job.people, *(one.plan.people for one in found)),
                suspects=tuple(
                    LoadSuspect(
                        title=one.title,
                        likelihood=round(one.weight / weight, 6),
                        cured=round(chance, 6),
                        lacks=(one.obstacle,)
                        if one.obstacle
                        else tuple(left.lacking(self.numbers, counts, n, at, titles)),
                        obstacle=one.obstacle,
                    )
                    for at, (one, chance) in enumerate(zip(found, cured, strict=True))
                ),
            )

    def _certain(self) -> Counts:
        """The pieces of each item that are needed whatever turns out, as far as they are there."""
        found = []
        for at, item in enumerate(self.numbers.problem.items):
            each = [min(dict(fault.needs).get(at, 0) for fault in job.faults) for job in self.numbers.problem.jobs]
            wanted = sum(each) if item.used_up else max(each, default=0)
            found.append(min(wanted, item.aboard + item.stock))
        return tuple(found)

    def _everything(self) -> Counts:
        problem = self.numbers.problem
        return tuple(
            max(item.aboard, min(left.most_wanted(problem, at), item.aboard + item.stock))
            for at, item in enumerate(problem.items)
        )

    def _lines(self) -> tuple[LoadLine, ...]:
        problem, answer = self.numbers.problem, self.answer
        library = self.done.visits[0][1].library
        masses, certain, titles = masses_kg(self.done), self._certain(), self._titles()
        found = []
        for at, part in enumerate(self.numbers.parts):
            wanted = self.numbers.wanted[part]
            pieces = min(answer.load.counts[at], left.most_wanted(problem, at))
            if not pieces:
                continue
            drawn = answer.load.drawn[at]
            nowhere = (PickPlace(location="", pieces=drawn),) if drawn else ()
            jobs = tuple(
                visit.job.job.reference
                for (_, visit), job in zip(self.done.visits, problem.jobs, strict=True)
                if any(at in dict(fault.needs) for fault in job.faults)
            )
            mass = masses.get(part)
            found.append(
                LoadLine(
                    part=part,
                    title=titles[part],
                    kind=wanted.row.kind,
                    pieces=pieces,
                    certain=min(pieces, certain[at]),
                    from_van=pieces - drawn,
                    bins=self.stores.bins(part, pieces - drawn),
                    draw=self.stores.places(part, drawn) or nowhere,
                    mass_kg=mass,
                    volume_l=volume_l(part, library),
                    people=aboard.people_for(mass, library),
                    jobs=jobs,
                    instead_of=wanted.instead_of,
                    worth=self._worth(at, certain) if pieces > certain[at] and drawn else None,
                )
            )
        return tuple(found)

    def _worth(self, item: int, certain: Counts) -> float:
        """What the expected number of finished jobs would lose if only the certain pieces of it were aboard."""
        counts = self.answer.load.counts
        kept = max(certain[item], self.numbers.problem.items[item].aboard)
        less = tuple(kept if at == item else n for at, n in enumerate(counts))
        return round(self.answer.chances.expected - chances_of(self.numbers.problem, less).expected, 6)

    def _shared(self) -> Iterable[LoadShared]:
        titles = self._titles()
        for line in self._lines():
            at = self.numbers.parts.index(line.part)
            most, there = left.most_wanted(self.numbers.problem, at), self.answer.load.counts[at]
            if len(line.jobs) > 1 and most > there:
                yield LoadShared(part=line.part, title=titles[line.part], aboard=there, most=most, jobs=line.jobs)

    def _mass(self) -> LoadLimit:
        van, items = self.done.van.van, self.numbers.problem.items
        drawn = sum(n * item.mass for n, item in zip(self.answer.load.drawn, items, strict=True))
        return LoadLimit(
            limit=van.payload_kg,
            always=van.carried_kg,
            in_van=self.numbers.van_mass_g / GRAMS,
            drawn=drawn / GRAMS,
            unknown=self._of(self.numbers.unknown),
        )

    def _volume(self) -> LoadLimit:
        van, items = self.done.van.van, self.numbers.problem.items
        drawn = sum(n * item.volume for n, item in zip(self.answer.load.drawn, items, strict=True))
        return LoadLimit(
            limit=van.volume_l,
            always=0.0,
            in_van=self.numbers.van_volume_ml / GRAMS,
            drawn=drawn / GRAMS,
            unknown=self._of(self.numbers.unmeasured),
        )

    def _of(self, parts: Sequence[str]) -> int:
        """Pieces of these parts, drawn or in the van."""
        drawn = dict(zip(self.numbers.parts, self.answer.load.drawn, strict=False))
        return sum(drawn.get(part, 0) + self.stores.in_van(part) for part in parts)

    def _compared(self) -> Iterable[LoadCompared]:
        problem = self.numbers.problem
        aboard_now = tuple(item.aboard for item in problem.items)
        certain = tuple(map(max, self._certain(), aboard_now))
        yield self._outcome("certain-only", certain, chances_of(problem, certain))
        yield self._outcome("chosen", self.answer.load.counts, self.answer.chances)
        everything = self._everything()
        yield self._outcome("everything", everything, chances_of(problem, everything))

    def _outcome(
        self, name: Literal["certain-only", "chosen", "everything"], counts: Counts, chances: Chances
    ) -> LoadCompared:
        problem, supply = self.numbers.problem, self.done.firm.supply
        drawn = problem.drawn(counts)
        mass = sum(n * item.mass for n, item in zip(drawn, problem.items, strict=True))
        volume = sum(n * item.volume for n, item in zip(drawn, problem.items, strict=True))
        carried = sum(n * item.cost for n, item in zip(drawn, problem.items, strict=True)) if supply else 0
        missed = Decimal(0)
        if supply is not None:
            for (row, _), chance in zip(self.done.visits, chances.jobs, strict=True):
                penalty = supply.return_visit if row.return_visit is None else row.return_visit
                missed += penalty * Decimal(str(round(1 - chance, 9)))
        carrying = Decimal(carried) / MONEY
        return LoadCompared(
            name=name,
            finished=round(chances.expected, 6),
            every=round(chances.every, 6),
            carrying=_penny(carrying),
            cost=_penny(carrying + missed),
            fits=(problem.mass is None or mass <= problem.mass)
            and (problem.volume is None or volume <= problem.volume),
        )


def _penny(amount: Decimal) -> Decimal:
    """To two places: these are expectations, and nobody pays them."""
    return amount.quantize(Decimal("0.01"))
