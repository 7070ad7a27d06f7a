"""What several commands ask for: how to print, for which day, and what goes over a house's settings."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, TypeVar

import click

from kitproof.showing.forms import FOR_MACHINES

if TYPE_CHECKING:
    from kitproof.desk import Desk
    from kitproof.showing.text import Line


class Day(click.ParamType[date]):
    """A day as 2027-03-08."""

    name = "day"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        try:
            return value if isinstance(value, date) else date.fromisoformat(str(value))
        except ValueError:
            self.fail(f'"{value}" is not a day. Write it as 2027-03-08.', param, ctx)


Command = Callable[..., None]
T = TypeVar("T")
MANY = 20
"""From so many lists on it is said how far it is."""

paths_argument = click.argument("paths", nargs=-1, type=click.Path(path_type=str))
as_option = click.option(
    "--as", "form", type=click.Choice(["text", "json"]), default="text", help="How it is printed.", show_default=True
)
proof_as_option = click.option(
    "--as",
    "form",
    type=click.Choice(["text", *FOR_MACHINES]),
    default="text",
    help="How it is printed: for people, or for the services that show findings.",
    show_default=True,
)
output_option = click.option("-o", "output", type=click.Path(dir_okay=False), help="Writes to a file instead.")
on_option = click.option("--on", "day", type=Day(), help="The day it is proofed for; today unless said.")
called_option = click.option("--called", metavar="NAME", help="The name of the list on standard input.")


def house_options(command: Command) -> Command:
    """What goes over a house's settings file."""
    for option in (
        click.option("--house", metavar="FILE", help="The house's settings file; else the nearest kitproof.toml."),
        click.option("--rules", "folders", metavar="FOLDER", multiple=True, help="One more folder of rules."),
        click.option("--limit", "limits", metavar="NAME VALUE", nargs=2, multiple=True, help="Sets a limit."),
        click.option("--grade", "grades", metavar="RULE GRADE", nargs=2, multiple=True, help="Sets a rule's grade."),
        click.option("--retire", "retired", metavar="RULE", multiple=True, help="Leaves a rule out."),
    ):
        command = option(command)
    return command


def desk_for(options: dict[str, Any]) -> Desk:
    """The desk for what the house options say."""
    from kitproof.desk import Desk

    return Desk(
        options["house"] or "",
        options["folders"],
        dict(options["limits"]),
        dict(options["grades"]),
        options["retired"],
    )


def watched(things: Iterable[T], doing: str, count: int | None = None) -> Iterator[T]:
    """Things one by one, with how far it is on a terminal where there are many; nothing is shown anywhere else.

    `count` says how many they are where they come one by one themselves.
    """
    if count is None:
        things = tuple(things)
        count = len(things)
    if count < MANY or not sys.stderr.isatty():
        yield from things
        return
    with click.progressbar(things, length=count, label=doing, file=sys.stderr) as bar:
        yield from bar


def print_out(lines: list[Line], output: str | None) -> None:
    """Lines for people, to a terminal or a file."""
    from kitproof.showing.output import printed, write

    write(printed(lines, output), output)


def write_out(text: str, output: str | None) -> None:
    """Text as it is, to standard output or a file."""
    from kitproof.showing.output import write

    write(text, output)
