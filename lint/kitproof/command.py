"""The command line. Thin: it asks the desk for lists and rule books, calls the rooms in order, and chooses the exit.

Everything heavy is imported inside the command that needs it, so that `--help` is instant.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kitproof import __version__
from kitproof.changing import mend, neaten, pair, with_proved_fixes
from kitproof.from_sheet import from_sheet
from kitproof.options import (
    as_option,
    called_option,
    desk_for,
    house_options,
    on_option,
    output_option,
    paths_argument,
    print_out,
    proof_as_option,
    watched,
    write_out,
)
from kitproof.reviewing import compare

if TYPE_CHECKING:
    from kitproof.proofing.laps import Laps
    from kitproof.showing.text import Line

FIRST_WORDS = """\
Kitproof reads a camera-support gear list and finds what will not work before
it is built on the bench: a head that cannot hold the build at its height, a
slide that does not reach, parts that do not mate, a head packed wrongly.

  kitproof proof LIST.kitlist      what is wrong with it, why, and what to do
  kitproof numbers LIST.kitlist    the numbers behind that
  kitproof questions LIST.kitlist  what to weigh or ask for, to settle most
  kitproof why RULE                one rule in full; `kitproof rules` names all

Start with:  kitproof proof samples
"""


class Plain(click.Group):
    """Commands whose complaints name the option and say what is wrong with it, and no more."""

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except click.MissingParameter:
            raise
        except click.BadParameter as bad:
            name = bad.param.get_error_hint(bad.ctx or ctx).strip("'") if bad.param else "the command line"
            raise click.UsageError(f"{name}: {bad.message}", bad.ctx) from bad


@click.group(cls=Plain, invoke_without_command=True, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, "--version", message="kitproof %(version)s")
@click.pass_context
def main(context: click.Context) -> None:
    """Proofs camera-support gear lists: what will not work as listed, why, and what to do."""
    if context.invoked_subcommand is None:
        click.echo(FIRST_WORDS, nl=False)


@main.command()
@paths_argument
@proof_as_option
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
@click.option("--record", metavar="FILE", help="Writes what is found to a file, to be known from now on.")
@click.option("--known", metavar="FILE", help="What was recorded before is shown as known, and does not count.")
@click.option("--prove-fixes", "prove", is_flag=True, help="Tries each fix on the list and proofs it again: slower.")
@click.option("--show-time", is_flag=True, help="Says on standard error where the time went, by stage and by rule.")
@click.option("--changed-after", "revision", metavar="REV", help="Only lists that changed, or use what changed, since.")
@house_options
def proof(
    paths: tuple[str, ...],
    form: str,
    output: str | None,
    send_back_at: str,
    day: date | None,
    called: str | None,
    record: str | None,
    known: str | None,
    prove: bool,
    revision: str | None,
    show_time: bool,
    **options: Any,
) -> None:
    """Proofs lists: files, folders of them, or - for standard input.

    Exit status: 0 nothing to send back, 1 something to send back, 2 it could not run.
    """
    laps = _laps()
    from kitproof.proofing.findings import together
    from kitproof.proofing.proof import proof as proofed

    desk = desk_for(options)
    laps.lap("loading")
    lists = desk.lists(paths, called, lambda found: watched(found, "Reading"))
    laps.lap("rule book and reading")
    on = day or date.today()
    pairs = desk.beside(lists, changing=prove)  # beside all lists, of which some may then not be proofed
    if revision is not None:
        pairs = desk.changed_after(revision, pairs)
        lists = [each for each, _ in pairs]
    if prove:
        whole = together([with_proved_fixes(desk, each, others, on) for each, others in pairs])
    elif show_time:  # in one process, with nothing taken from the last time
        whole = together([proofed(each, desk.book(each), on, others, laps.lap) for each, others in pairs])
    else:
        from kitproof.cores import cores, each_of

        proofs = each_of(lambda one: desk.proofed(*one, on), pairs, cores())
        whole = together(list(watched(proofs, "Proofing", len(pairs))))
    if known is not None:
        whole = desk.against_known(whole, known, lists)
    if record is not None:
        from kitproof.proofing.known import record as recorded

        write_out(recorded(whole), record)
    if form != "text":
        from kitproof.showing.forms import proof_text

        text = proof_text(form, desk.shown(whole, lists, send_back_at))
    else:
        from kitproof.showing.output import printed
        from kitproof.showing.text import headings, proof_lines

        told = {each.path for each in whole.findings}
        named = headings({each.path: each.heading for each in lists}, told, "with nothing found")
        lines = proof_lines(whole, desk.said_in(lists), named, send_back_at)
        text = printed(lines, output)
    write_out(text, output)
    laps.lap("showing")
    if show_time:
        from kitproof.showing.time_text import time_lines

        click.echo("".join(time_lines(laps.spent)), nl=False, err=True)
    status = 1 if whole.sends_back(send_back_at) else 0
    words = click.get_current_context().obj  # None where it is called by other than the command line
    if words is not None and not (output or record or revision or show_time) and "-" not in paths:
        desk.keep_answer(words, text, status)
    if status:
        raise SystemExit(status)


def _laps() -> Laps:
    from time import perf_counter

    from kitproof.proofing.laps import Laps

    return Laps(perf_counter)


@main.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=str), metavar="PATH")
@click.option("--rig", "rig", metavar="NAME", help="One rig only.")
@click.option("--with", "names", metavar="NAME", multiple=True, help="Combinations with this part only.")
@click.option("--every", is_flag=True, help="Every combination, not only the one that loads the head most.")
@click.option("--worked", is_flag=True, help="How each number came about, and what widens it most.")
@as_option
@output_option
@on_option
@called_option
@house_options
def numbers(
    paths: tuple[str, ...],
    rig: str | None,
    names: tuple[str, ...],
    every: bool,
    worked: bool,
    form: str,
    output: str | None,
    day: date | None,
    called: str | None,
    **options: Any,
) -> None:
    """The numbers behind the findings: every fact of every rig of a list, and what is ordered from whom."""
    from kitproof.proofing import numbers as room
    from kitproof.proofing.ordered import FromSupplier, ordered
    from kitproof.proofing.proof import setting_of, units_of
    from kitproof.showing.json_output import numbers_json
    from kitproof.showing.numbers_text import numbers_lines

    desk = desk_for(options)
    found = []
    orders: list[FromSupplier] = []
    lines: list[Line] = []
    for kitlist, others in desk.beside(desk.lists(paths, called)):
        book = desk.book(kitlist)
        setting = setting_of(kitlist, book, day or date.today(), others)
        from_whom = [] if rig or names or worked else ordered(setting)
        orders += from_whom
        mine = [
            room.numbers(setting, each, work=worked, names=names) for each in kitlist.rigs if rig in (None, each.name)
        ]
        beyond = next((each for each in mine if each.of > room.MANY), None) if every else None
        if beyond is not None:
            desk.stop(
                f"rig {beyond.name} has {beyond.of} combinations, too many to print each. Leave --every out for the "
                "one that loads the head most, and name parts with --with for one that holds them."
            )
        mine = [room.narrowed(each, names, every=every or form == "json") for each in mine]
        mine = [each for each in mine if each.combinations]
        found += mine
        if mine or from_whom:
            units = units_of(kitlist, book)
            lines += [*([()] if lines else []), *numbers_lines(mine, units, kitlist.heading, from_whom)]
    if not found and not orders:
        which = f'rig "{rig}"' if rig else "rig"
        such = f" with {' and '.join(names)}" if names else ""
        desk.stop(f"There is no {which}{such} in it.")
    if form == "json":
        write_out(numbers_json(found, orders), output)
    else:
        print_out(lines, output)


@main.command()
@paths_argument
@as_option
@output_option
@on_option
@called_option
@house_options
def questions(
    paths: tuple[str, ...], form: str, output: str | None, day: date | None, called: str | None, **options: Any
) -> None:
    """What to weigh, measure or ask for: the answer that would settle the most verdicts first, ready to send.

    Several lists make one list of questions, by who has the part: what they share is asked once.
    """
    from kitproof.proofing.proof import setting_of
    from kitproof.proofing.questions import over
    from kitproof.proofing.questions import questions as asked
    from kitproof.showing.questions_text import questions_json, questions_lines
    from kitproof.showing.text import headings

    desk = desk_for(options)
    found = []
    for kitlist, others in desk.beside(desk.lists(paths, called)):
        book = desk.book(kitlist)
        found.append((kitlist, asked(setting_of(kitlist, book, day or date.today(), others), book)))
    if form == "json":
        write_out(questions_json([(kitlist.path, each) for kitlist, each in found]), output)
        return
    told = {kitlist.path for kitlist, each in found if each}
    named = headings({kitlist.path: kitlist.heading for kitlist, _ in found}, told, "with nothing to ask")
    print_out(questions_lines(named, over([each for _, each in found])), output)


def _rule_names(context: click.Context, parameter: click.Parameter, typed: str) -> list[str]:
    """Completion: the rules whose names start as typed."""
    from kitproof.books import shipped_rules

    names = (Path(each).stem for each in shipped_rules() if each.endswith(".rule"))
    return [name for name in names if name.startswith(typed)]


@main.command()
@click.argument("rule", shell_complete=_rule_names)
@as_option
@output_option
@house_options
def why(rule: str, form: str, output: str | None, **options: Any) -> None:
    """One rule in full: what it finds, why it matters, what to do, and where it is from."""
    from kitproof.showing.rules_text import rule_json, rule_lines
    from kitproof.words.nearest import nearest

    desk = desk_for(options)
    book = desk.book_here()
    found = book.named(rule)
    if found is None:
        near = nearest(rule, tuple(book.rules))
        hint = f" The nearest: {', '.join(near)}." if near else ""
        desk.stop(f'There is no rule "{rule}".{hint} `kitproof rules` names all.')
    elif form == "json":
        write_out(rule_json(found), output)
    else:
        print_out(rule_lines(found, book), output)


@main.command()
@click.argument("path", metavar="[LIST]", required=False, default="", type=click.Path(path_type=str))
@as_option
@output_option
@on_option
@house_options
def rules(path: str, form: str, output: str | None, day: date | None, **options: Any) -> None:
    """All rules in force for a list, or for any in this folder: grades, headlines, limits, and what the house has set.

    What to look at in a house's own rule files is said on standard error.
    """
    from kitproof.showing.rules_text import rules_json, rules_lines

    desk = desk_for(options)
    book = desk.book_here(path)
    desk.warn(book)
    if form == "json":
        write_out(rules_json(book, day or date.today()), output)
    else:
        print_out(rules_lines(book, day or date.today()), output)


main.add_command(compare)
main.add_command(from_sheet)
main.add_command(pair)
main.add_command(mend)
main.add_command(neaten)
