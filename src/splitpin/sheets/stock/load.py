"""The load of a round: for whoever picks it, and for whoever drives."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal

from splitpin.sheets.press import wording
from splitpin.sheets.press.blocks import (
    Blanks,
    Column,
    Document,
    Fact,
    Facts,
    Item,
    Items,
    Lines,
    Panel,
    Paragraphs,
    Row,
    Scan,
    Section,
    Table,
    Tick,
    Where,
)
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.supply.store import on_the_way as turn
from splitpin.units import number
from splitpin.units.currencies import CURRENCIES, Currency
from splitpin.units.money import printed

if TYPE_CHECKING:
    from splitpin.records.firm import FirmFile
    from splitpin.records.supply import (
        LoadCompared,
        LoadJob,
        LoadLeft,
        LoadLimit,
        LoadLine,
        LoadSuspect,
        PickPlace,
        RoundLoad,
    )

NAMES = {
    "certain-only": "Only what is needed for certain",
    "chosen": "This load",
    "everything": "Everything that any fault may need",
}
LEFT = {
    ("not-in-stock", "piece"): "{there} in stock, up to {wanted} wanted",
    ("no-room", "kg"): "no room: one takes {wanted} kg, {there} kg are left",
    ("no-room", "l"): "no room: one takes {wanted} l, {there} l are left",
    ("not-worth-it", None): "one more would finish {gain} of a job more: not worth carrying it",
    ("van-may-not", None): "this van may not carry it",
}
NO_USE = "one more alone would finish nothing more"


def load_document(load: RoundLoad, firm: FirmFile, t: Words = ENGLISH) -> Document:
    """The load: what comes of it, what is drawn and stowed, what stays behind, and what another load would do."""
    lists = (
        (t("Less aboard than the jobs together may want"), _shared(load, t)),
        (t("Lifts"), (f"{row.job}, {row.title}: {row.words}" for row in load.lifts)),
        (t("Licences"), _licences(load, t)),
    )
    in_van = [line for line in load.lines if line.from_van]
    averages = t(
        "Jobs finished and money are averages over all that the faults may turn out to be; returns are second visits."
    )
    return Document(
        label=t("Load for round"),
        reference=load.round,
        title=load.title,
        firm=load.firm,
        phone=firm.firm.phone or "",
        blocks=(
            Facts(tuple(_facts(load, t))),
            Lines(tuple(_summary(load, t)), "summary"),
            Panel(
                t("Before the van leaves"),
                tuple(
                    Fact(label=wording.sentence(one.message), text=wording.sentence(one.hint))
                    for one in load.notices
                    if one.severity != "note"
                ),
            ),
            Section(t("Jobs, with the chance that the first visit finishes them"), (_jobs(load, t),)),
            Section(t("From the store, in this order"), (_drawn(load, t),)),
            Section(t("Into the van, in this order"), (_stowing(load, t), Paragraphs(_limits(load, t), "outcome"))),
            Section(
                t("In the van already, to be checked"),
                (Items(tuple(Item(quantity=str(x.from_van), title=x.title, remark=_bins(x)) for x in in_van)),),
            ),
            Section(t("Tools"), (_tools_table(load, t),)),
            *(Section(heading, (Lines(tuple(lines)),)) for heading, lines in lists),
            Section(t("Left behind"), (_left_table(load, t),), "whole"),
            Section(
                t("The same round, loaded otherwise"), (_others(load, t), Paragraphs((averages,), "legend")), "whole"
            ),
            Blanks((t("Picked by"), t("Loaded by"), t("Date"))),
        ),
    )


def _facts(load: RoundLoad, t: Words) -> Iterator[Fact]:
    if load.date is not None:
        yield Fact(label=t("Date"), text=t.date(load.date))
    yield Fact(label=t("Van"), text=load.van)
    yield Fact(label=t("Jobs"), text=str(len(load.jobs)))


def _jobs(load: RoundLoad, t: Words) -> Table:
    columns = (Column(name="n"), Column(name="what", wraps=True), Column(name="chance", right=True))
    rows = (
        Row(
            cells=(str(job.n), f"{job.reference} {job.title}", _percent(job.chance, t)),
            under=tuple(_suspect(row, job, t) for row in job.suspects) if _open_question(job) else (),
        )
        for job in load.jobs
    )
    return Table(name="round", columns=columns, rows=tuple(rows))


def _drawn(load: RoundLoad, t: Words) -> Table:
    columns = (
        Column(name="tick", head=t("picked"), on="page"),
        Column(name="location", head=t("Location")),
        Column(name="number", head=t("Pieces"), right=True),
        Column(name="what", head=t("Part"), wraps=True),
        Column(name="for", head=t("For"), below=True),
        Column(name="code", head=t("Number"), below=True),
    )
    rows = (
        Row(
            cells=(
                Tick(),
                place.location or t("store"),
                str(place.pieces),
                line.title,
                "\n".join(line.jobs),
                Scan(line.part),
            ),
            under=(_remark(line, t),),
        )
        for line, place in _on_the_way(load)
    )
    return Table(name="picks", columns=columns, rows=tuple(rows))


def _stowing(load: RoundLoad, t: Words) -> Table:
    columns = (
        Column(name="n", right=True),
        Column(name="number", head=t("Pieces"), right=True),
        Column(name="what", head=t("Part"), wraps=True),
        Column(name="mass", head=t("Each"), right=True, on="page"),
        Column(name="for", head=t("First for"), on="page"),
        Column(name="where", head=t("Where")),
    )
    rows = (
        Row(
            cells=(
                str(row.n),
                str(row.pieces),
                row.title,
                t("not known") if row.mass_kg is None else f"{t.number(number(row.mass_kg))} kg",
                row.job,
                t(row.where),
            )
        )
        for row in load.stowing
    )
    return Table(name="stow", columns=columns, rows=tuple(rows))


def _limits(load: RoundLoad, t: Words) -> tuple[str, ...]:
    if not load.stowing:
        return ()
    return (
        t("Mass: {words}.", words=_limit(load.mass, "kg", t)),
        t("Volume: {words}.", words=_limit(load.volume, "l", t)),
        t("Check the axles, and lash what can move: this page knows the mass alone."),
    )


def _tools_table(load: RoundLoad, t: Words) -> Table:
    columns = (Column(name="tick", on="page"), Column(name="kept"), Column(name="what", wraps=True))
    rows = (Row(cells=(Tick(), place, titles)) for place, titles in _tools(load, t))
    return Table(name="tools", columns=columns, rows=tuple(rows))


def _left_table(load: RoundLoad, t: Words) -> Table:
    columns = (Column(name="number", right=True), Column(name="what", wraps=True), Column(name="why"))
    rows = (Row(cells=(str(row.pieces), row.title, left(row, t))) for row in load.left)
    return Table(name="left", columns=columns, rows=tuple(rows))


def _others(load: RoundLoad, t: Words) -> Table:
    money: Where = "both" if load.currency else "nowhere"
    columns = (
        Column(name="what", head=t("Load"), wraps=True),
        Column(name="figure", head=t("Jobs finished"), right=True),
        Column(name="figure", head=t("All of them"), right=True),
        Column(name="amount", head=t("Carrying {currency}", currency=load.currency), right=True, on=money),
        Column(name="amount", head=t("And returns"), right=True, on=money),
    )
    currency = CURRENCIES[load.currency] if load.currency else None
    return Table(name="compared", columns=columns, rows=tuple(_compared(row, currency, t) for row in load.compared))


def _percent(share: float, t: Words) -> str:
    """`90%`; a chance that is neither nought nor one never reads as one of them."""
    whole = round(share * 100)
    if whole in (0, 100) and 1e-9 < share < 1 - 1e-9:
        if whole:
            return t("over {share}", share=t.share(0.99))
        return t("under {share}", share=t.share(0.01))
    return t.share(whole / 100)


def _jobs_of(count: float, t: Words) -> str:
    """An expected number of jobs: `5.60`."""
    return t.number(f"{count:.2f}")


def _summary(load: RoundLoad, t: Words) -> Iterator[str]:
    """What comes of the load, and how it was found."""
    if len(load.jobs) == 1:
        yield t("The job is finished at the first visit with a chance of {share}.", share=_percent(load.every, t))
    else:
        yield t(
            "{finished} of {n} jobs are finished at the first visit on average; all of them with a chance of {share}.",
            finished=_jobs_of(load.finished, t),
            n=len(load.jobs),
            share=_percent(load.every, t),
        )
    gap = t.share(load.gap, places=1)
    if load.status == "proved":
        yield t("Load proved best: none costs less, counting carrying and return visits.")
    elif load.by_rule:
        yield t("Load proved best by the cautious rule of sharing; no other can cost over {gap} less.", gap=gap)
    else:
        yield t("Load best found; no other can cost over {gap} less.", gap=gap)
    if load.best_extra is not None:
        extra = load.best_extra
        yield t(
            "One piece more that would help most: {title} ({where}), {gain} of a job more.",
            title=extra.title,
            where=t("from the store") if extra.in_store else t("not in stock"),
            gain=_jobs_of(extra.gain, t),
        )


def _compared(row: LoadCompared, currency: Currency | None, t: Words) -> Row:
    """Name, jobs finished, chance of all, carrying cost, carrying and return visits together."""
    name = t(NAMES[row.name]) + ("" if row.fits else " (" + t("over the limits of the van") + ")")
    amounts = [t.money(printed(amount, currency)) if currency else "" for amount in (row.carrying, row.cost)]
    kind: Literal["", "strong"] = "strong" if row.name == "chosen" else ""
    return Row(cells=(name, _jobs_of(row.finished, t), _percent(row.every, t), *amounts), kind=kind)


def _suspect(row: LoadSuspect, job: LoadJob, t: Words) -> str:
    """One suspect of a job, and what becomes of it."""
    if row.cured >= 1 - 1e-9:
        fate = t("can be cured")
    elif row.obstacle:
        fate = t("stays uncured: {reason}", reason=row.obstacle)
    elif row.lacks:
        fate = t("stays uncured: {parts} not aboard", parts=t.listed(list(row.lacks)))
    elif row.cured <= 1e-9:
        fate = t("stays uncured: an earlier job takes what it needs")
    else:
        fate = t("cured with a chance of {share}: an earlier job may take what it needs", share=_percent(row.cured, t))
    return fate if job.certain else f"{_percent(row.likelihood, t)} {row.title}: {fate}"


def _limit(row: LoadLimit, unit: str, t: Words) -> str:
    """How far a limit is used."""
    total = row.always + row.in_van + row.drawn
    parts = [
        *([t("{amount} always aboard", amount=_amount(row.always, unit, t))] if row.always else []),
        t("{amount} drawn", amount=_amount(row.drawn, unit, t)),
        t("{amount} in the van", amount=_amount(row.in_van, unit, t)),
    ]
    if row.limit is None:
        used = t("{amount}, no limit given", amount=_amount(total, unit, t))
    else:
        used = t("{amount} of {limit}", amount=_amount(total, unit, t), limit=_amount(row.limit, unit, t))
    unknown = t("1 piece of unknown figure not counted")
    if row.unknown != 1:
        unknown = t("{n} pieces of unknown figure not counted", n=row.unknown)
    return f"{used} ({', '.join(parts)})" + (f"; {unknown}" if row.unknown else "")


def _amount(value: float, unit: str, t: Words) -> str:
    return f"{t.number(number(round(value, 1)))} {unit}"


def _pieces(line: LoadLine, t: Words) -> str:
    """What of a line is certain and what is extra."""
    extra = line.pieces - line.certain
    if not extra:
        return t("certain")
    if not line.certain:
        return t("extra")
    return t("{n} aboard in all: {certain} certain, {extra} extra", n=line.pieces, certain=line.certain, extra=extra)


def _open_question(job: LoadJob) -> bool:
    """Whether there is anything to say of a job beyond its title and its chance."""
    return not job.certain or job.suspects[0].cured < 1


def _remark(line: LoadLine, t: Words) -> str:
    """What whoever picks a line should know."""
    instead = [t("instead of {part}", part=line.instead_of)] if line.instead_of else []
    people = [t("{people} to lift it", people=wording.people_words(line.people, t))] if line.people > 1 else []
    return ", ".join([_pieces(line, t), *instead, *people])


def left(row: LoadLeft, t: Words = ENGLISH) -> str:
    """Why something stays behind, with its figures."""
    if row.gain == 0:
        return t(NO_USE)
    figures = {"wanted": row.wanted, "there": row.there, "gain": None if row.gain is None else round(row.gain, 3)}
    written = {name: t.number(number(figure)) for name, figure in figures.items() if figure is not None}
    return t(LEFT[row.why, row.unit], **written)


def _bins(line: LoadLine) -> str:
    """Where the pieces from the van lie in it: `VAN-1, VAN-3`; nothing where the van's list does not say."""
    return ", ".join(place.location for place in line.bins if place.location)


def _on_the_way(load: RoundLoad) -> list[tuple[LoadLine, PickPlace]]:
    """What is drawn, place by place on the way through the store."""
    rows = [(line, place) for line in load.lines for place in line.draw]
    return sorted(rows, key=lambda row: (turn(row[1].location), row[0].part))


def _shared(load: RoundLoad, t: Words) -> Iterator[str]:
    """Parts that jobs compete for."""
    for row in load.shared:
        yield t(
            "{title}: {aboard} aboard, up to {most} wanted by {jobs}",
            title=row.title,
            aboard=row.aboard,
            most=row.most,
            jobs=t.listed(list(row.jobs)),
        )


def _tools(load: RoundLoad, t: Words) -> Iterator[tuple[str, str]]:
    """The tools of each place, with the number of jobs that use them: these must come back to the van each time."""
    places: dict[str, list[str]] = {}
    for tool in load.tools:
        many = " (" + t("{n} jobs", n=len(tool.jobs)) + ")" if len(tool.jobs) > 1 else ""
        missing = "" if tool.owned else " (" + t("not owned") + ")"
        place = tool.place_kept.replace("-", " ") if tool.place_kept else t("elsewhere")
        places.setdefault(place, []).append(f"{tool.title}{missing}{many}")
    for place, titles in places.items():
        yield wording.sentence(place), ", ".join(titles)


def _licences(load: RoundLoad, t: Words) -> Iterator[str]:
    """Who must be aboard."""
    for row in load.licences:
        state = t("the van's file does not say who rides")
        if row.held is not None:
            state = t("aboard") if row.held else t("nobody aboard")
        yield f"{wording.sentence(row.person)}: {state} ({t.listed(list(row.jobs))})"
