"""The maintainability of an assembly as plain text for a terminal."""

from collections.abc import Iterator
from textwrap import wrap

from splitpin.sheets.press import wording
from splitpin.timing.maintainability import Maintainability, Repair
from splitpin.units import clock, counted

_CLASSES = {
    "reusable": "go back as they are",
    "n-times": "go back a limited number of times",
    "inspect": "are looked at, and renewed if worn",
    "renew": "are renewed every time",
}


def maintainability_text(figures: Maintainability, width: int = 80) -> str:
    """The figures in lines of at most `width` columns, without a line end after the last."""
    blocks = [
        _wrapped(f"{wording.sentence(figures.title)} ({figures.assembly})", width, "", "  "),
        list(_times(figures, width)),
        list(_repairs(figures, width)),
        list(_joints(figures, width)),
    ]
    return wording.visible("\n\n".join("\n".join(block) for block in blocks if block))


def _wrapped(text: str, width: int, indent: str, hanging: str) -> list[str]:
    return wrap(text, width, initial_indent=indent, subsequent_indent=hanging, break_on_hyphens=False)


def _times(figures: Maintainability, width: int) -> Iterator[str]:
    if figures.mean_repair_s is None or figures.within_90_s is None or figures.within_95_s is None:
        yield from _wrapped("No repair of it can be planned, so there are no times.", width, "", "")
        return
    assert figures.median_repair_s is not None
    for title, seconds in (
        ("Mean repair time", figures.mean_repair_s),
        ("Half of the repairs within", figures.median_repair_s),
        ("90 of 100 within", figures.within_90_s),
        ("95 of 100 within", figures.within_95_s),
    ):
        yield f"{title:<28}{clock(seconds):>11}"
    yield f"{'Steps to reach the part':<28}{figures.mean_steps:>11} on average, {figures.most_steps} at most"
    yield ""
    weight = (
        "Repairs weigh by the likelihoods of the symptoms' causes, each symptom alike."
        if figures.by_symptoms
        else "No symptom is named: every part that can be replaced weighs alike."
    )
    text = (
        f"{weight} Elapsed time from making safe to hand-over, waits included: one person, clean plant, no allowance, "
        "finding the fault left out. Log-normal, as MIL-HDBK-338B treats repair times."
    )
    if figures.planned_share < 0.9995:
        text += f" Counted are the {figures.planned_share:.0%} of repairs that one may do.".replace("%", " %")
    yield from _wrapped(text, width, "", "")


def _repairs(figures: Maintainability, width: int) -> Iterator[str]:
    if figures.repairs:
        yield "REPAIRS"
        yield f"{'share':>7}{'steps':>7}{'first':>7}{'tools':>7}{'elapsed':>12}"
    for row in figures.repairs:
        yield from _repair(row, width)
    if figures.repairs:
        yield from _wrapped(
            "Steps as the French repairability index counts them: a part off or another tool ends a step, unplugging "
            "is one. First: components that come out or aside before. ~: best plan found, not proved.",
            width,
            "  ",
            "  ",
        )


def _repair(row: Repair, width: int) -> list[str]:
    phrase = wording.sentence(row.phrase)
    share = f"{100 * row.share:.1f} %"
    if row.refused is not None:
        return _wrapped(f"{phrase}: {row.refused}.", width, f"{share:>7}{'':>33}  ", " " * 42)
    about = "" if row.proved else "~ "
    time = about + clock(row.elapsed_s)
    lead = f"{share:>7}{row.steps:>7}{row.moved_first:>7}{row.tools:>7}{time:>12}  "
    return _wrapped(phrase, width, lead, " " * len(lead))


def _joints(figures: Maintainability, width: int) -> Iterator[str]:
    whole = sum(row.joints for row in figures.joints)
    if not whole:
        return
    yield f"JOINTS: {whole}, {counted(sum(row.pieces for row in figures.joints), 'piece')}"
    for row in figures.joints:
        if row.joints:
            pieces = counted(row.pieces, "piece")
            share = f"{100 * row.share:.0f} %"
            yield from _wrapped(f"{_CLASSES[row.reuse]} ({row.joints} of them, {pieces})", width, f"{share:>7}  ", "  ")
    yield from _wrapped("By the re-use rule of their pieces; seals have rules of their own.", width, "  ", "  ")
