"""The load of a round in words that text and page share."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from splitpin.sheets.press import wording
from splitpin.sheets.press.language import ENGLISH, Words
from splitpin.supply.store import on_the_way as turn
from splitpin.units import number
from splitpin.units.currencies import Currency
from splitpin.units.money import printed

if TYPE_CHECKING:
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


def percent(share: float, t: Words = ENGLISH) -> str:
    """`90%`; a chance that is neither nought nor one never reads as one of them."""
    whole = round(share * 100)
    if whole in (0, 100) and 1e-9 < share < 1 - 1e-9:
        if whole:
            return t("over {share}", share=t.share(0.99))
        return t("under {share}", share=t.share(0.01))
    return t.share(whole / 100)


def jobs_of(count: float, t: Words = ENGLISH) -> str:
    """An expected number of jobs: `5.60`."""
    return t.number(f"{count:.2f}")


def summary(load: RoundLoad, t: Words = ENGLISH) -> Iterator[str]:
    """What comes of the load, and how it was found."""
    if len(load.jobs) == 1:
        yield t("The job is finished at the first visit with a chance of {share}.", share=percent(load.every, t))
    else:
        yield t(
            "{finished} of {n} jobs are finished at the first visit on average; all of them with a chance of {share}.",
            finished=jobs_of(load.finished, t),
            n=len(load.jobs),
            share=percent(load.every, t),
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
            gain=jobs_of(extra.gain, t),
        )


def compared(row: LoadCompared, currency: Currency | None, t: Words = ENGLISH) -> tuple[str, str, str, str, str]:
    """Name, jobs finished, chance of all, carrying cost, carrying and return visits together."""
    name = t(NAMES[row.name])
    if not row.fits:
        name += " (" + t("over the limits of the van") + ")"
    amounts = [t.money(printed(amount, currency)) if currency else "" for amount in (row.carrying, row.cost)]
    return name, jobs_of(row.finished, t), percent(row.every, t), amounts[0], amounts[1]


def suspect(row: LoadSuspect, job: LoadJob, t: Words = ENGLISH) -> str:
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
        fate = t("cured with a chance of {share}: an earlier job may take what it needs", share=percent(row.cured, t))
    return fate if job.certain else f"{percent(row.likelihood, t)} {row.title}: {fate}"


def limit(row: LoadLimit, unit: str, t: Words = ENGLISH) -> str:
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


def pieces(line: LoadLine, t: Words = ENGLISH) -> str:
    """What of a line is certain and what is extra."""
    extra = line.pieces - line.certain
    if not extra:
        return t("certain")
    if not line.certain:
        return t("extra")
    return t("{n} aboard in all: {certain} certain, {extra} extra", n=line.pieces, certain=line.certain, extra=extra)


def open_question(job: LoadJob) -> bool:
    """Whether there is anything to say of a job beyond its title and its chance."""
    return not job.certain or job.suspects[0].cured < 1


def remark(line: LoadLine, t: Words = ENGLISH) -> str:
    """What whoever picks a line should know."""
    instead = [t("instead of {part}", part=line.instead_of)] if line.instead_of else []
    people = [t("{people} to lift it", people=wording.people_words(line.people, t))] if line.people > 1 else []
    return ", ".join([pieces(line, t), *instead, *people])


def left(row: LoadLeft, t: Words = ENGLISH) -> str:
    """Why something stays behind, with its figures."""
    if row.gain == 0:
        return t(NO_USE)
    figures = {"wanted": row.wanted, "there": row.there, "gain": None if row.gain is None else round(row.gain, 3)}
    written = {name: t.number(number(figure)) for name, figure in figures.items() if figure is not None}
    return t(LEFT[row.why, row.unit], **written)


def bins(line: LoadLine) -> str:
    """Where the pieces from the van lie in it: `VAN-1, VAN-3`; nothing where the van's list does not say."""
    return ", ".join(place.location for place in line.bins if place.location)


def on_the_way(load: RoundLoad) -> list[tuple[LoadLine, PickPlace]]:
    """What is drawn, place by place on the way through the store."""
    rows = [(line, place) for line in load.lines for place in line.draw]
    return sorted(rows, key=lambda row: (turn(row[1].location), row[0].part))


def shared(load: RoundLoad, t: Words = ENGLISH) -> Iterator[str]:
    """Parts that jobs compete for."""
    for row in load.shared:
        yield t(
            "{title}: {aboard} aboard, up to {most} wanted by {jobs}",
            title=row.title,
            aboard=row.aboard,
            most=row.most,
            jobs=t.listed(list(row.jobs)),
        )


def tools(load: RoundLoad, t: Words = ENGLISH) -> Iterator[tuple[str, str]]:
    """The tools of each place, with the number of jobs that use them: these must come back to the van each time."""
    places: dict[str, list[str]] = {}
    for tool in load.tools:
        many = " (" + t("{n} jobs", n=len(tool.jobs)) + ")" if len(tool.jobs) > 1 else ""
        missing = "" if tool.owned else " (" + t("not owned") + ")"
        place = tool.place_kept.replace("-", " ") if tool.place_kept else t("elsewhere")
        places.setdefault(place, []).append(f"{tool.title}{missing}{many}")
    for place, titles in places.items():
        yield wording.sentence(place), ", ".join(titles)


def licences(load: RoundLoad, t: Words = ENGLISH) -> Iterator[str]:
    """Who must be aboard."""
    for row in load.licences:
        state = t("the van's file does not say who rides")
        if row.held is not None:
            state = t("aboard") if row.held else t("nobody aboard")
        yield f"{wording.sentence(row.person)}: {state} ({t.listed(list(row.jobs))})"
