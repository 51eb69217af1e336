"""The load of a round in words that text and page share."""

from collections.abc import Iterator

from splitpin.records.supply import LoadCompared, LoadJob, LoadLimit, LoadLine, LoadSuspect, PickPlace, RoundLoad
from splitpin.sheets import wording
from splitpin.supply.store import on_the_way as turn
from splitpin.units import counted, listed, number

NAMES = {
    "certain-only": "Only what is needed for certain",
    "chosen": "This load",
    "everything": "Everything that any fault may need",
}


def percent(share: float) -> str:
    """`90 %`; a chance that is neither nought nor one never reads as one of them."""
    whole = round(share * 100)
    if whole in (0, 100) and 1e-9 < share < 1 - 1e-9:
        return "under 1 %" if whole == 0 else "over 99 %"
    return f"{whole} %"


def jobs_of(count: float) -> str:
    """An expected number of jobs: `5.60`."""
    return f"{count:.2f}"


def summary(load: RoundLoad) -> Iterator[str]:
    """What comes of the load, and how it was found."""
    yield (
        f"{jobs_of(load.finished)} of {counted(len(load.jobs), 'job')} are finished at the first visit on average; "
        f"all of them with a chance of {percent(load.every)}."
    )
    if load.status == "proved":
        yield "Load proved best: none costs less, counting carrying and return visits."
    else:
        proof = "proved best by the cautious rule of sharing" if load.by_rule else "best found"
        yield f"Load {proof}; no other can cost over {load.gap * 100:.1f} % less."
    if load.best_extra is not None:
        extra = load.best_extra
        where = "from the store" if extra.in_store else "not in stock"
        yield f"One piece more that would help most: {extra.title} ({where}), {jobs_of(extra.gain)} of a job more."


def compared(row: LoadCompared, currency: str | None) -> tuple[str, str, str, str, str]:
    """Name, jobs finished, chance of all, carrying cost, carrying and return visits together."""
    name = NAMES[row.name] + ("" if row.fits else " (over the van's limits)")
    money = (str(row.carrying), str(row.cost)) if currency else ("", "")
    return name, jobs_of(row.finished), percent(row.every), *money


def suspect(row: LoadSuspect, job: LoadJob) -> str:
    """One suspect of a job, and what becomes of it."""
    if row.cured >= 1 - 1e-9:
        fate = "can be cured"
    elif row.lacks:
        fate = f"stays uncured: {listed(row.lacks)} not aboard" if row.cured <= 1e-9 else percent(row.cured)
    elif row.cured <= 1e-9:
        fate = "stays uncured: an earlier job takes what it needs"
    else:
        fate = f"cured with a chance of {percent(row.cured)}: an earlier job may take what it needs"
    return f"{percent(row.likelihood)} {row.title}: {fate}" if not job.certain else fate


def limit(row: LoadLimit, unit: str) -> str:
    """How far a limit is used."""
    total = row.always + row.in_van + row.drawn
    parts = [f"{number(round(row.drawn, 1))} {unit} drawn", f"{number(round(row.in_van, 1))} {unit} in the van"]
    if row.always:
        parts.insert(0, f"{number(round(row.always, 1))} {unit} always aboard")
    of = f" of {number(row.limit)} {unit}" if row.limit is not None else f" {unit}, no limit given"
    unknown = f"; {counted(row.unknown, 'piece')} of unknown figure not counted" if row.unknown else ""
    return f"{number(round(total, 1))}{of} ({', '.join(parts)}){unknown}"


def pieces(line: LoadLine) -> str:
    """What of a line is certain and what is extra."""
    extra = line.pieces - line.certain
    if not extra:
        return "certain"
    if not line.certain:
        return "extra"
    return f"{line.pieces} aboard in all: {line.certain} certain, {extra} extra"


def open_question(job: LoadJob) -> bool:
    """Whether there is anything to say of a job beyond its title and its chance."""
    return not job.certain or job.suspects[0].cured < 1


def remark(line: LoadLine) -> str:
    """What whoever picks a line should know."""
    instead = f", instead of {line.instead_of}" if line.instead_of else ""
    people = f"; {wording.people_words(line.people)} to lift it" if line.people > 1 else ""
    return f"{pieces(line)}{instead}{people}"


def on_the_way(load: RoundLoad) -> list[tuple[LoadLine, PickPlace]]:
    """What is drawn, place by place on the way through the store."""
    rows = [(line, place) for line in load.lines for place in line.draw]
    return sorted(rows, key=lambda row: (turn(row[1].location), row[0].part))


def shared(load: RoundLoad) -> Iterator[str]:
    """Parts that jobs compete for."""
    for row in load.shared:
        yield f"{row.title}: {row.aboard} aboard, up to {row.most} wanted by {listed(row.jobs)}"


def tools(load: RoundLoad) -> Iterator[tuple[str, str]]:
    """The tools of each place, with the number of jobs that use them: these must come back to the van each time."""
    places: dict[str, list[str]] = {}
    for tool in load.tools:
        many = f" ({counted(len(tool.jobs), 'job')})" if len(tool.jobs) > 1 else ""
        missing = "" if tool.owned else " (not owned)"
        places.setdefault(tool.place_kept or "elsewhere", []).append(f"{tool.title}{missing}{many}")
    for place, titles in places.items():
        yield wording.sentence(place.replace("-", " ")), ", ".join(titles)


def licences(load: RoundLoad) -> Iterator[str]:
    """Who must be aboard."""
    for row in load.licences:
        state = {True: "aboard", False: "nobody aboard", None: "the van's file does not say who rides"}[row.held]
        yield f"{wording.sentence(row.person)}: {state} ({listed(row.jobs)})"
