"""What else must be aboard: tools, people for the lifts, licences; and what is not known or does not fit together."""

from collections.abc import Iterator, Sequence

from splitpin.notices import Notice
from splitpin.records.library import Library, Round
from splitpin.records.supply import LoadLicence, LoadLift, LoadTool
from splitpin.supply.numbers import GRAMS, Numbers
from splitpin.supply.visits import Outcome
from splitpin.units import counted, listed, number

Outcomes = Sequence[tuple[Outcome, ...]]


def _by_job(done: Round, found: Outcomes) -> Iterator[tuple[str, Outcome]]:
    for (_, visit), job in zip(done.visits, found, strict=True):
        for one in job:
            yield visit.job.job.reference, one


def tools(done: Round, found: Outcomes) -> tuple[LoadTool, ...]:
    """Every tool that some outcome uses, by the place where it is kept, then by title."""
    library = done.visits[0][1].library
    users: dict[str, dict[str, None]] = {}
    owned: dict[str, bool] = {}
    for job, one in _by_job(done, found):
        for tool in one.plan.tools:
            users.setdefault(tool.id, {})[job] = None
            owned[tool.id] = tool.owned
    rows = [
        LoadTool(
            id=tool,
            title=library.tools[tool].title,
            place_kept=library.tools[tool].place_kept,
            owned=owned[tool],
            jobs=tuple(jobs),
        )
        for tool, jobs in users.items()
    ]
    return tuple(sorted(rows, key=lambda row: (row.place_kept is None, row.place_kept or "", row.title, row.id)))


def lifts(done: Round, found: Outcomes) -> tuple[LoadLift, ...]:
    """Every lift of which a plan says something, once for each job and component; taken out or put in alike."""
    rows: dict[tuple[str, str], LoadLift] = {}
    for (_, visit), job in zip(done.visits, found, strict=True):
        titles = {component.id: component.title for component in visit.assembly.component}
        for one in job:
            for step in one.plan.steps:
                if step.lift is not None and step.component is not None:
                    key = (visit.job.job.reference, step.component)
                    people = max(step.people, rows[key].people if key in rows else 1)
                    title = titles.get(step.component, step.component)
                    rows[key] = LoadLift(job=key[0], title=title, people=people, words=step.lift)
    return tuple(rows.values())


def licences(done: Round, found: Outcomes) -> tuple[LoadLicence, ...]:
    """Every licence that some outcome needs, by id, and whether one who rides holds it."""
    held = done.van.van.licences
    persons: dict[str, str] = {}
    users: dict[str, dict[str, None]] = {}
    for job, one in _by_job(done, found):
        for licence in one.plan.licences:
            persons[licence.id] = licence.person
            users.setdefault(licence.id, {})[job] = None
    return tuple(
        LoadLicence(id=name, person=persons[name], held=None if held is None else name in held, jobs=tuple(users[name]))
        for name in sorted(persons)
    )


def people_for(mass_kg: float | None, library: Library) -> int:
    """The people who lift one piece, by the rows of handling; 1 where its mass is not known."""
    if mass_kg is None or not library.handling:
        return 1
    return next((row.people for row in library.handling if mass_kg <= row.up_to_kg), library.handling[-1].people)


def notices(done: Round, found: Outcomes, plain: Numbers) -> Iterator[Notice]:
    """What those who load and drive should know beforehand."""
    van, supply = done.van.van, done.firm.supply
    if supply is None:
        hint = 'give firm.toml [supply] with `return_visit = "80.00"`'
        message = "what a return visit costs is not known: loaded for the fewest return visits"
        yield Notice("no-supply", message, done.firm.place, hint)
    if supply is None or supply.store is None:
        message = "what lies in the store is not known: whatever is wanted counts as there"
        yield Notice("stock-unknown", message, done.firm.place, "name its table: [supply] with `store`")
    if van.stock is None:
        message = "what lies in the van is not known: it counts as empty"
        yield Notice("stock-unknown", message, van.place, "name its table: `stock`")
    before = van.carried_kg + plain.van_mass_g / GRAMS
    if before > van.payload_kg:
        message = (
            f"{van.title} is overloaded before anything is drawn: {number(round(before, 1))} kg of "
            f"{number(van.payload_kg)} kg"
        )
        yield Notice("van-overloaded", message, van.place, "take something out")
    if plain.unknown:
        yield _unknown("mass-unknown", "mass", plain.unknown, done)
    if plain.unmeasured:
        yield _unknown("mass-unknown", "volume", plain.unmeasured, done)
    for licence in licences(done, found):
        if licence.held is False:
            message = f"nobody in {van.title} is {licence.person}: needed for {listed(licence.jobs)}"
            yield Notice("licence-missing", message, van.place)
    for (row, visit), job in zip(done.visits, found, strict=True):
        people = max(visit.job.job.people, *(one.plan.people for one in job))
        if people > van.people:
            there = f"{van.people} {'rides' if van.people == 1 else 'ride'} in {van.title}"
            message = f"{visit.job.job.reference} takes {people} people; {there}"
            yield Notice("too-few-people", message, row.place)
        if all(one.obstacle for one in job):
            message = f"{visit.job.job.reference} cannot be finished: {job[0].obstacle}"
            yield Notice("not-planned", message, row.place)


def _unknown(code: str, what: str, parts: Sequence[str], done: Round) -> Notice:
    few = [*parts[:3], f"{len(parts) - 3} more"] if len(parts) > 4 else list(parts)
    message = f"the {what} of {counted(len(parts), 'part')} is not known and counts as nothing: {listed(few)}"
    key = "mass_kg" if what == "mass" else "volume_l"
    return Notice(code, message, done.van.van.place, f"give `{key}` in the part's row, with `source` or `basis`")
