"""The arguments and options that several commands take, each described once."""

import datetime
from pathlib import Path
from typing import Annotated

import typer


def _day(text: str) -> datetime.date:
    try:
        return datetime.datetime.strptime(text, "%Y-%m-%d").date()
    except ValueError:
        raise typer.BadParameter(f"{text} is no day; write it like 2027-03-31") from None


JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="A job file.")]
AssemblyId = Annotated[str, typer.Argument(metavar="ASSEMBLY", help="An assembly's id.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON.")]
ActualFile = Annotated[Path, typer.Option("--actual", metavar="FILE", help="The visit as it was: JSON or TOML.")]
StoreFile = Annotated[
    Path | None,
    typer.Option(
        "--store", metavar="FILE", help="The record of visits. Default: records/visits.sqlite beside firm.toml."
    ),
]
VanFile = Annotated[Path | None, typer.Option("--van", metavar="FILE", help="A van's file: what lies in it.")]
Limit = Annotated[
    float | None,
    typer.Option(
        "--seconds", min=0.0, help="Stop searching after this long with the best plan found. Default: no limit."
    ),
]
QuoteDay = Annotated[
    datetime.date | None,
    typer.Option("--date", metavar="YYYY-MM-DD", parser=_day, help="The day of the quote; printed."),
]
LastDay = Annotated[
    datetime.date | None,
    typer.Option("--valid-until", metavar="YYYY-MM-DD", parser=_day, help="The last day on which it holds."),
]
LimitDay = Annotated[
    datetime.date | None,
    typer.Option("--date", metavar="YYYY-MM-DD", parser=_day, help="The day, for limits that change."),
]
