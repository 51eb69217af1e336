"""The command line. Every command imports what it needs when it runs, so that each starts quickly."""

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from splitpin.cli.hardware import hardware

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
    help="Plans repairs: what comes off, in which order, with which tools, seals and proofs.",
)

JobPath = Annotated[Path, typer.Argument(metavar="JOB", help="A job file.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON.")]
Out = Annotated[Path, typer.Option("--out", metavar="FILE", help="Where to write it: FILE.html or FILE.pdf.")]
MaybeOut = Annotated[
    Path | None, typer.Option("--out", metavar="FILE", help="Write the printed page: FILE.html or FILE.pdf.")
]
PaperSize = Annotated[str, typer.Option("--paper", help="A4 or Letter.")]
InLanguage = Annotated[str, typer.Option("--language", help="Of the fixed words: en, de or es.")]
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


@app.command()
def check(
    paths: Annotated[list[Path] | None, typer.Argument(metavar="PATHS", help="Files or folders.")] = None,
    as_json: AsJson = False,
) -> None:
    """Check files: all errors at once. Without paths: the catalogue and the procedures."""
    from splitpin.cli.check import run

    run(paths or [], as_json=as_json)


@app.command("list")
def list_(as_json: AsJson = False) -> None:
    """List the assemblies of the catalogue and the job templates."""
    from splitpin.cli.list import run

    run(as_json=as_json)


@app.command()
def show(
    assembly: Annotated[str, typer.Argument(metavar="ASSEMBLY", help="An assembly's id.")], as_json: AsJson = False
) -> None:
    """Show an assembly: circuits, components, joints, tasks, symptoms."""
    from splitpin.cli.show import run

    run(assembly, as_json=as_json)


@app.command()
def new(
    assembly: Annotated[str, typer.Argument(metavar="ASSEMBLY", help="An assembly's id.")],
    reference: Annotated[str, typer.Option("--reference", help="The job's reference.")],
    title: Annotated[str, typer.Option("--title", help="What the job is.")],
    out: Annotated[Path | None, typer.Option("--out", metavar="FILE.toml", help="Default: print it.")] = None,
) -> None:
    """Start a job file: its head, and every task and symptom of the assembly to choose from."""
    from splitpin.cli.new import run

    run(assembly, reference, title, out)


@app.command()
def plan(
    job: JobPath,
    as_json: AsJson = False,
    why: Annotated[bool, typer.Option("--why", help="Say why each step is there.")] = False,
    seconds: Limit = None,
) -> None:
    """Plan a job: the steps, what they need, and how the plan was proved."""
    from splitpin.cli.plan import run

    run(job, as_json=as_json, why=why, seconds=seconds)


@app.command()
def sheet(
    job: JobPath,
    out: Out,
    paper: PaperSize = "A4",
    pocket: Annotated[bool, typer.Option("--pocket", help="The sheet for a phone: tick, time, take readings.")] = False,
    language: InLanguage = "en",
    seconds: Limit = None,
) -> None:
    """Write the step sheet of a job: one file, ready to print."""
    from splitpin.cli.sheet import run

    run(job, out, paper=paper, pocket=pocket, language=language, seconds=seconds)


@app.command("time")
def time_(
    job: JobPath,
    at: Annotated[float, typer.Option("--at", help="Book so that this many of 100 visits end in time.")] = 80.0,
    while_there: Annotated[
        bool, typer.Option("--while-there", help="Plan every other task of the plant too: what it would add.")
    ] = False,
    units: Annotated[
        int | None, typer.Option("--units", min=1, max=10_000, help="The job on this many like units.")
    ] = None,
    rate: Annotated[
        float | None, typer.Option("--rate", help="Time of a unit at every doubling, in per cent. Default: 90.")
    ] = None,
    store: StoreFile = None,
    as_json: AsJson = False,
    seconds: Limit = None,
) -> None:
    """Tell how long a job takes and how sure that is, where the time goes, and what would change it."""
    from splitpin.cli.time import run

    run(job, at=at, while_there=while_there, units=units, rate=rate, store=store, as_json=as_json, seconds=seconds)


@app.command()
def maintainability(
    assembly: Annotated[str, typer.Argument(metavar="ASSEMBLY", help="An assembly's id.")], as_json: AsJson = False
) -> None:
    """Tell what an assembly takes to maintain: depth of its repairs, repair times, joints that go back."""
    from splitpin.cli.maintainability import run

    run(assembly, as_json=as_json)


@app.command()
def diagnose(
    job: JobPath,
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Tell in which sequence to check the suspects of a job's symptoms, and what each answer leads to."""
    from splitpin.cli.diagnose import run

    run(job, as_json=as_json, out=out, paper=paper, language=language, store=store, seconds=seconds)


@app.command()
def quote(
    job: JobPath,
    at: Annotated[
        int | None,
        typer.Option(
            "--at", min=50, max=99, help="Of 100 such jobs, how many keep to the time sold. Default: the firm's."
        ),
    ] = None,
    date: Annotated[
        datetime | None, typer.Option("--date", formats=["%Y-%m-%d"], help="The day of the quote; printed.")
    ] = None,
    valid_until: Annotated[
        datetime | None, typer.Option("--valid-until", formats=["%Y-%m-%d"], help="The last day on which it holds.")
    ] = None,
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Give a job a fixed price, line by line, with the risk that it carries."""
    from splitpin.cli.quote import run

    run(
        job,
        at=at,
        date=None if date is None else date.date(),
        valid_until=None if valid_until is None else valid_until.date(),
        as_json=as_json,
        out=out,
        paper=paper,
        language=language,
        store=store,
        seconds=seconds,
    )


@app.command()
def pack(
    job: JobPath,
    out: Out,
    van: VanFile = None,
    date: Annotated[
        datetime | None, typer.Option("--date", formats=["%Y-%m-%d"], help="The day of the quote; printed.")
    ] = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Write everything about a job as one document: diagnosis card, step sheet, pick list, quote."""
    from splitpin.cli.pack import run

    day = None if date is None else date.date()
    run(job, out, van=van, date=day, paper=paper, language=language, store=store, seconds=seconds)


@app.command()
def record(
    job: JobPath,
    actual: Annotated[Path, typer.Option("--actual", metavar="FILE", help="The visit as it was: JSON or TOML.")],
    store: StoreFile = None,
    replace: Annotated[bool, typer.Option("--replace", help="In place of this job's visit of that day.")] = False,
) -> None:
    """Keep what a visit really took: later estimates and diagnoses learn from it."""
    from splitpin.cli.record import run

    run(job, actual, store=store, replace=replace)


@app.command()
def history(
    store: Annotated[Path, typer.Argument(metavar="STORE", help="The file that `record` keeps.")],
    export: Annotated[Path | None, typer.Option("--export", metavar="FILE.csv", help="Write the visits.")] = None,
    take: Annotated[Path | None, typer.Option("--import", metavar="FILE.csv", help="Take visits in.")] = None,
    spares: Annotated[
        str | None, typer.Option("--spares", metavar="SUM", help="Which spares to keep in the van for this much money.")
    ] = None,
    ahead: Annotated[int, typer.Option("--visits", min=1, max=1000, help="Visits to look ahead.")] = 10,
    as_json: AsJson = False,
) -> None:
    """Show the visits on record and what they teach: pace, causes, parts and spares."""
    from splitpin.cli.history import run

    run(store, export=export, take=take, spares=spares, ahead=ahead, as_json=as_json)


@app.command()
def report(
    job: JobPath,
    actual: Annotated[Path, typer.Option("--actual", metavar="FILE", help="The visit as it was: JSON or TOML.")],
    out: Out,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
) -> None:
    """Write the service record of a visit: readings against limits, times, parts, signatures."""
    from splitpin.cli.report import run

    run(job, actual, out, paper=paper, language=language)


@app.command()
def pick(
    jobs: Annotated[list[Path], typer.Argument(metavar="JOB…", help="Job files.")],
    van: VanFile = None,
    table: Annotated[Path | None, typer.Option("--csv", metavar="FILE", help="Write it as CSV.")] = None,
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    seconds: Limit = None,
) -> None:
    """List what jobs need aboard: from the van, from the store, to order; merged, with reasons."""
    from splitpin.cli.pick import run

    run(jobs, van=van, table=table, as_json=as_json, out=out, paper=paper, language=language, seconds=seconds)


@app.command()
def load(
    round_file: Annotated[Path, typer.Argument(metavar="ROUND", help="A round file.")],
    as_json: AsJson = False,
    out: MaybeOut = None,
    paper: PaperSize = "A4",
    language: InLanguage = "en",
    store: StoreFile = None,
    seconds: Limit = None,
) -> None:
    """Say what a van carries for a round, and how likely each job is then finished at the first visit."""
    from splitpin.cli.load import run

    run(round_file, as_json=as_json, out=out, paper=paper, language=language, store=store, seconds=seconds)


@app.command()
def schema(
    what: Annotated[str, typer.Argument(metavar="WHAT", help="plan, diagnosis, quote, job, assembly or visit.")],
) -> None:
    """Print the JSON Schema of a file or of a command's JSON."""
    from splitpin.cli.schema import run

    run(what)


@app.command()
def reading(
    name: Annotated[str | None, typer.Argument(metavar="NAME", help="A reading; left out: list them.")] = None,
    pairs: Annotated[list[str] | None, typer.Argument(metavar="KEY=VALUE", help="Its inputs.")] = None,
    jurisdiction: Annotated[
        str | None, typer.Option("--jurisdiction", help="Whose limits. Default: general, then gb.")
    ] = None,
    date: Annotated[
        datetime | None, typer.Option("--date", formats=["%Y-%m-%d"], help="The day, for limits that change.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Compute a reading, with its formula, source and limit; without a name, list them."""
    from splitpin.cli.reading import run

    day = None if date is None else date.date()
    run(name, pairs or [], as_json=as_json, jurisdiction=jurisdiction, date=day)


app.command()(hardware)
