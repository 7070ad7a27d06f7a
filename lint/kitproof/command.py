"""The command line. Thin: it finds files, calls the rooms in order, prints, and chooses the exit status.

Everything heavy is imported inside the command that needs it, so that `--help` is instant.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from kitproof import __version__

if TYPE_CHECKING:
    from kitproof.files import Source
    from kitproof.model.kitlist import KitList
    from kitproof.proofing.findings import Proof
    from kitproof.reading.document import Where
    from kitproof.rulebook.rules import RuleBook
    from kitproof.showing.text import Line, Said

FIRST_WORDS = """\
Kitproof reads a camera-support gear list and finds what will not work before
it is built on the bench: a head that cannot hold the build at its height, a
slide that does not reach, parts that do not mate, a head packed wrongly.

  kitproof proof LIST.kitlist      what is wrong with it, why, and what to do
  kitproof numbers LIST.kitlist    the numbers behind that
  kitproof why RULE                one rule in full; `kitproof rules` names all

Start with:  kitproof proof samples
"""


@click.group(invoke_without_command=True, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, "--version", message="kitproof %(version)s")
@click.pass_context
def main(context: click.Context) -> None:
    """Proofs camera-support gear lists: what will not work as listed, why, and what to do."""
    if context.invoked_subcommand is None:
        click.echo(FIRST_WORDS, nl=False)


class Day(click.ParamType[date]):
    """A day as 2027-03-08."""

    name = "day"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        try:
            return value if isinstance(value, date) else date.fromisoformat(str(value))
        except ValueError:
            self.fail(f'"{value}" is not a day. Write it as 2027-03-08.', param, ctx)


def _stop(says: str) -> NoReturn:
    """It could not run: says why on standard error, and exits 2."""
    click.echo(says, err=True)
    raise SystemExit(2)


as_option = click.option(
    "--as", "form", type=click.Choice(["text", "json"]), default="text", help="How it is printed.", show_default=True
)
output_option = click.option("-o", "output", type=click.Path(dir_okay=False), help="Writes to a file instead.")
on_option = click.option("--on", "day", type=Day(), help="The day it is proofed for; today unless said.")
called_option = click.option("--called", metavar="NAME", help="The name of the list on standard input.")


@main.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=str))
@as_option
@output_option
@click.option(
    "--send-back-at",
    type=click.Choice(["stop", "wrong", "watch", "note"]),
    default="wrong",
    show_default=True,
    help="The least grade of finding that sends a list back (exit status 1).",
)
@on_option
@called_option
def proof(
    paths: tuple[str, ...], form: str, output: str | None, send_back_at: str, day: date | None, called: str | None
) -> None:
    """Proofs lists: files, folders of them, or - for standard input.

    Exit status: 0 nothing to send back, 1 something to send back, 2 it could not run.
    """
    from kitproof.proofing.findings import together
    from kitproof.proofing.proof import proof as proofed

    book = _rule_book()
    lists = [_read(each) for each in _sources(paths, called)]
    whole = together([proofed(each, book, day or date.today()) for each in lists])
    _print_proof(whole, lists, send_back_at, form, output)
    if whole.sends_back(send_back_at):
        raise SystemExit(1)


@main.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=str), metavar="PATH")
@click.option("--rig", "rig", metavar="NAME", help="One rig only.")
@as_option
@output_option
@on_option
@called_option
def numbers(
    paths: tuple[str, ...], rig: str | None, form: str, output: str | None, day: date | None, called: str | None
) -> None:
    """The numbers behind the findings: every fact of every rig of a list."""
    from kitproof.proofing import numbers as room
    from kitproof.proofing.proof import setting_of, units_of
    from kitproof.showing.json_output import numbers_json
    from kitproof.showing.numbers_text import numbers_lines

    book = _rule_book()
    found = []
    lines: list[Line] = []
    for kitlist in (_read(each) for each in _sources(paths, called)):
        wanted = [each for each in kitlist.rigs if rig in (None, each.name)]
        setting = setting_of(kitlist, book, day or date.today())
        mine = [room.numbers(setting, each) for each in wanted]
        found += mine
        if mine:
            lines += [*([()] if lines else []), *numbers_lines(mine, units_of(kitlist), _heading(kitlist))]
    if not found:
        _stop(f'There is no rig "{rig}" in it.' if rig else "There is no rig in it.")
    if form == "json":
        _write(numbers_json(found), output)
    else:
        _print(lines, output)


def _rule_names(context: click.Context, parameter: click.Parameter, typed: str) -> list[str]:
    """Completion: the rules whose names start as typed."""
    from kitproof.files import shipped_rules

    names = (Path(each).stem for each in shipped_rules() if each.endswith(".rule"))
    return [name for name in names if name.startswith(typed)]


@main.command()
@click.argument("rule", shell_complete=_rule_names)
@as_option
@output_option
def why(rule: str, form: str, output: str | None) -> None:
    """One rule in full: what it finds, why it matters, what to do, and where it is from."""
    from kitproof.showing.rules_text import rule_json, rule_lines
    from kitproof.words.nearest import nearest

    book = _rule_book()
    found = book.named(rule)
    if found is None:
        near = nearest(rule, tuple(book.rules))
        hint = f" The nearest: {', '.join(near)}." if near else ""
        _stop(f'There is no rule "{rule}".{hint} `kitproof rules` names all.')
    if form == "json":
        _write(rule_json(found), output)
    else:
        _print(rule_lines(found), output)


@main.command()
@as_option
@output_option
def rules(form: str, output: str | None) -> None:
    """All rules, by group, with the grade and the headline of each."""
    from kitproof.showing.rules_text import rules_json, rules_lines

    book = _rule_book()
    if form == "json":
        _write(rules_json(book), output)
    else:
        _print(rules_lines(book), output)


def _rule_book() -> RuleBook:
    """The shipped rule book; a rule file that has mistakes stops everything, with every mistake at its place."""
    from kitproof.facts.fields import knows
    from kitproof.facts.registry import FACTS, HOUSE_NUMBERS
    from kitproof.files import shipped_rules
    from kitproof.rulebook import BadRules, load

    try:
        return load(shipped_rules(), FACTS, knows=knows, numbers=HOUSE_NUMBERS)
    except BadRules as bad:
        for error in bad.errors:
            click.echo(f"{error.path}, line {error.line}, column {error.column}: {error.says}", err=True)
        _stop("Nothing was proofed: the rule book is used whole or not at all.")


def _sources(paths: tuple[str, ...], called: str | None) -> list[Source]:
    """The lists asked for; with no path there is nothing to do, and it says what could be typed."""
    from kitproof.files import NoSuchPathError, Source, lists_in, source

    if not paths:
        _stop("Which list? Name a file, a folder, or - for standard input: kitproof proof order.kitlist")
    if called and "-" not in paths:
        _stop("--called names what comes on standard input; give - as the path with it.")
    found = []
    try:
        for path in paths:
            if path == "-":
                name = called or "standard input"
                found.append(Source(name, Path.cwd() / name, sys.stdin.buffer.read()))
            else:
                found += [source(each) for each in lists_in((path,))]
    except NoSuchPathError as problem:
        _stop(str(problem))
    return found


def _read(found: Source) -> KitList:
    from kitproof.files import fetcher
    from kitproof.model.making import make_list
    from kitproof.model.sources import gather

    return make_list(gather(found.path, str(found.real), found.data, fetcher(found.real.parent)))


def _print_proof(whole: Proof, lists: Sequence[KitList], send_back_at: str, form: str, output: str | None) -> None:
    if form == "json":
        from kitproof.showing.json_output import findings_json

        _write(findings_json(whole), output)
        return
    from kitproof.showing.text import proof_lines

    headings = [_heading(each) for each in lists]
    _print(proof_lines(whole, _said_in(lists), headings, send_back_at), output)


def _heading(kitlist: KitList) -> str:
    title = f": {kitlist.title}" if kitlist.title else ""
    issue = f", issue {kitlist.issue}" if kitlist.issue is not None else ""
    return f"{kitlist.path}{issue}{title}"


def _said_in(lists: Sequence[KitList]) -> Said:
    """The text at a place, where it is short enough to show."""
    texts = {document.path: document.lines for each in lists for document in each.documents}

    def said(where: Where) -> str:
        lines = texts.get(where.path, ())
        if where.line != where.to_line or not 0 < where.line <= len(lines):
            return ""
        text = " ".join(lines[where.line - 1][where.column - 1 : where.to_column - 1].split())
        return text if len(text) <= 60 else f"{text[:58]} …"

    return said


def _print(lines: Sequence[Line], output: str | None) -> None:
    """To a terminal with colour, anywhere else plain."""
    from kitproof.showing.text import plain

    if output is None and sys.stdout.isatty():
        from kitproof.showing.terminal import print_lines

        print_lines(lines)
    else:
        _write(plain(lines), output)


def _write(text: str, output: str | None) -> None:
    if output is None:
        sys.stdout.buffer.write(text.encode("utf-8"))
        return
    try:
        Path(output).write_text(text, "utf-8")
    except OSError as error:
        _stop(f'"{output}" cannot be written: {(error.strerror or "no reason given").lower()}.')
