"""The command line: collects the commands, each of which is imported when it is named."""

from importlib import import_module
from typing import Any

import typer
import typer.main
from typer.core import TyperGroup

from splitpin.notices.own_check import OwnCheckError

COMMANDS = (  # in the order of the help; each is the function `run` of the module of that name
    "check",
    "list",
    "show",
    "new",
    "plan",
    "sheet",
    "time",
    "maintainability",
    "diagnose",
    "quote",
    "pack",
    "record",
    "history",
    "report",
    "pick",
    "load",
    "schema",
    "reading",
    "hardware",
)


def _command(name: str) -> Any:
    one = typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, add_completion=False)
    one.command(name)(import_module(f"splitpin.cli.{name}").run)
    return typer.main.get_command(one)


class _Commands(TyperGroup):
    """The commands by name, each imported when it is asked for.

    Whichever comes upon an answer that its own check refuses prints that notice and nothing else.
    """

    def list_commands(self, ctx: Any) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        for name in (cmd_name,) if cmd_name in COMMANDS else COMMANDS:  # an unknown name is held against all of them
            if name not in self.commands:
                self.add_command(_command(name))
        return super().get_command(ctx, cmd_name)

    def invoke(self, ctx: Any) -> Any:
        try:
            return super().invoke(ctx)
        except OwnCheckError as refused:
            from splitpin.cli.saying import say, stop_on_errors

            say([refused.notice])
            stop_on_errors([refused.notice])
            raise AssertionError("what a check refuses is an error") from refused


app = typer.Typer(
    cls=_Commands,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
)


@app.callback()
def splitpin() -> None:
    """Plans repairs: what comes off, in which order, with which tools, seals and proofs."""
