"""The command for reviewers: two lists compared. Thin, like the others."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kitproof.options import desk_for, house_options, on_option, output_option, print_out, write_out

if TYPE_CHECKING:
    from kitproof.comparing.compare import Side
    from kitproof.desk import Desk
    from kitproof.model.kitlist import KitList


@click.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=str), metavar="OLD NEW")
@click.option("--before", metavar="REV", help="Compares one list with itself as it was at a revision.")
@click.option("--after", metavar="REV", help="With --before: as it was at this revision, and not as it is now.")
@click.option(
    "--as",
    "form",
    type=click.Choice(["text", "json", "markdown"]),
    default="text",
    help="How it is printed.",
    show_default=True,
)
@output_option
@on_option
@house_options
def compare(
    paths: tuple[str, ...],
    before: str | None,
    after: str | None,
    form: str,
    output: str | None,
    day: date | None,
    **options: Any,
) -> None:
    """What changed in the build, what that did to its numbers, and which findings came and went.

    Two lists, or one with --before REV. The order of lines and the names of rigs are no part of the build. Both are
    proofed by the rules and settings in force now.
    """
    from kitproof.comparing.compare import compare as compared
    from kitproof.proofing.proof import units_of

    desk = desk_for(options)
    on = day or date.today()
    was, now = _two(desk, paths, before, after)
    found = compared(_side(desk, was, before, on), _side(desk, now, after, on), units_of(now, desk.book(now)))
    if form == "text":
        from kitproof.showing.compared_text import compared_lines

        print_out(compared_lines(found, units_of(now, desk.book(now))), output)
    elif form == "json":
        from kitproof.showing.compared_json import compared_json

        write_out(compared_json(found), output)
    else:
        from kitproof.showing.compared_markdown import compared_markdown

        write_out(compared_markdown(found, units_of(now, desk.book(now))), output)


def _two(desk: Desk, paths: tuple[str, ...], before: str | None, after: str | None) -> tuple[KitList, KitList]:
    """The two lists; what is asked for in another way stops the command."""
    if before is None and after is not None:
        desk.stop("--after says what to compare with; say --before REV as well.")
    wanted = 1 if before is not None else 2
    if len(paths) != wanted or any(Path(each).is_dir() or each == "-" for each in paths):
        desk.stop("Which lists? Name two, kitproof compare OLD NEW, or one and a revision: LIST --before REV")
    if before is None:
        return desk.list_named(paths[0]), desk.list_named(paths[1])
    return desk.list_at(paths[0], before), desk.list_named(paths[0]) if after is None else desk.list_at(paths[0], after)


def _side(desk: Desk, kitlist: KitList, revision: str | None, day: date) -> Side:
    """A list with what its numbers are worked out with, and its proof."""
    from kitproof.comparing.compare import Side
    from kitproof.proofing.proof import proof, setting_of

    book = desk.book(kitlist)
    called = f'{kitlist.heading}, at the revision "{revision}"' if revision is not None else kitlist.heading
    return Side(called, setting_of(kitlist, book, day), proof(kitlist, book, day))
