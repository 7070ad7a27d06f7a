"""The commands that change lists, or say which parts to change: thin, like the others.

Files are replaced whole or not at all.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kitproof.options import (
    as_option,
    called_option,
    desk_for,
    house_options,
    on_option,
    output_option,
    paths_argument,
    print_out,
    write_out,
)
from kitproof.replacing import NotReplacedError, replace_file

if TYPE_CHECKING:
    from kitproof.desk import Desk
    from kitproof.files import Source
    from kitproof.mending.ground import Given, Ground
    from kitproof.mending.mend import Mended
    from kitproof.mending.pairing.results import Paired
    from kitproof.model.kitlist import KitList
    from kitproof.model.promises import Promised
    from kitproof.proofing.findings import Proof
    from kitproof.rulebook.rules import RuleBook
    from kitproof.showing.text import Line

_WIDE = '"{}" is UTF-16 text and was left as it is. Save it as UTF-8 text first.'


@click.command()
@paths_argument
@click.option("--only-say", is_flag=True, help="Changes nothing; exits 1 where a list would change, and says which.")
@called_option
def neaten(paths: tuple[str, ...], only_say: bool, called: str | None) -> None:
    """Writes lists in one layout: values aligned, a space before units, a blank line between entries.

    What is read stays the same, and so do comments; a line that cannot be read stays as it is. - takes a list from
    standard input and prints it.

    Exit status: 0 done, 1 with --only-say where a list would change, 2 it could not run or a file could not be changed.
    """
    from kitproof.desk import Desk
    from kitproof.showing.output import write_bytes

    desk = Desk("", (), {}, {}, ())
    changed = failed = 0
    for source in desk.sources(paths, called, "neaten"):
        now = _neat(source)
        if now is None:
            failed += _complain(_WIDE.format(source.path))
        elif source.typed and not only_say:
            write_bytes(now, None)
        elif now == source.data:
            continue
        elif only_say:
            changed += 1
            click.echo(f"{source.path} would change, first at line {_first_difference(source.data, now)}.")
        else:
            try:
                replace_file(Path(source.path), source.data, now)
                click.echo(f"{source.path} is neatened.")
            except NotReplacedError as problem:
                failed += _complain(str(problem))
    if failed or changed:
        raise SystemExit(2 if failed else 1)


def _neat(source: Source) -> bytes | None:
    """The bytes of a list in the canonical layout; None where it is not to be changed as it stands."""
    from kitproof.mending.filetext import opened
    from kitproof.mending.layout import neatened

    text = opened(source.data)
    return None if text is None else text.with_text(neatened(text.text))


def _first_difference(was: bytes, now: bytes) -> int:
    """The first line, from 1, at which two files differ."""
    lines = zip(was.splitlines(keepends=True), now.splitlines(keepends=True), strict=False)
    return next((number for number, (a, b) in enumerate(lines, start=1) if a != b), len(was.splitlines()))


@click.command()
@paths_argument
@click.option("--show", is_flag=True, help="Prints what would change as a diff, and changes nothing.")
@on_option
@called_option
@house_options
def mend(paths: tuple[str, ...], show: bool, day: date | None, called: str | None, **options: Any) -> None:
    """Changes lists where that is proved to help: the changed list is proofed again, and the finding is gone.

    Only the words that need it change, and comments stay. The file is replaced whole or not at all, and the old one is
    kept beside it unless version control holds it just as it was. - takes a list from standard input and prints it
    mended.

    Exit status: 0 done, 2 it could not run or a file could not be changed.
    """
    from kitproof.mending.mend import mended
    from kitproof.showing.mending_text import unified
    from kitproof.showing.output import write_bytes

    desk = desk_for(options)
    failed = 0
    for source, ground in _grounds(desk, desk.sources(paths, called, "mend"), day or date.today()):
        if ground is None:
            failed += _complain(_WIDE.format(source.path))
            continue
        done = mended(ground)
        if show:
            diff = unified(source.path, ground.file.text, done.ground.file.text)
            write_bytes(diff.encode("utf-8", "surrogateescape"), None)
        else:
            failed += not put_in_place(source, done)
    if failed:
        raise SystemExit(2)


@click.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=str), metavar="LIST")
@click.option("--rig", "rig", metavar="NAME", help="One rig only.")
@click.option("--most", type=click.IntRange(min=1), default=3, show_default=True, help="How many pairings to look for.")
@click.option("--every", is_flag=True, help="Looks at every pairing there is: slower.")
@as_option
@output_option
@on_option
@called_option
@house_options
def pair(
    paths: tuple[str, ...],
    rig: str | None,
    most: int,
    every: bool,
    form: str,
    output: str | None,
    day: date | None,
    called: str | None,
    **options: Any,
) -> None:
    """Which sticks, head, slide and adapters of the parts books in use carry a rig in every combination of it.

    The smallest that will do first, those in stock on the dates before others; each with its margins at the worst
    combination, and for each that is turned down the one reason. Nothing is changed.

    Exit status: 0 something carries each rig, 1 nothing does for one of them, 2 it could not run.
    """
    from kitproof.mending.pairing.search import paired, too_many
    from kitproof.showing.pairing_text import pairing_lines, pairings_json

    desk = desk_for(options)
    found: list[tuple[str, list[Paired]]] = []
    lines: list[Line] = []
    for source, ground in _grounds(desk, desk.sources(paths, called, "pair"), day or date.today()):
        if ground is None:
            desk.stop(_WIDE.format(source.path))
        rigs = [each for each in ground.kitlist.rigs if rig in (None, each.name)]
        beyond = next(filter(None, map(too_many, rigs)), "")
        if beyond:
            desk.stop(beyond)
        mine = [paired(ground, each, None if every else most) for each in rigs]
        if mine:
            found.append((source.path, mine))
            lines += [*([()] if lines else []), *pairing_lines(mine, ground.units, ground.kitlist.heading)]
    if not found:
        which = f'rig "{rig}"' if rig else "rig"
        desk.stop(f"There is no {which} in it.")
    if form == "json":
        write_out(pairings_json(found), output)
    else:
        print_out(lines, output)
    if not all(each.carries for _, mine in found for each in mine):
        raise SystemExit(1)


def with_proved_fixes(desk: Desk, kitlist: KitList, others: tuple[Promised, ...], day: date) -> Proof:
    """The proof of a list that the desk has read, its fixes proved where they can be."""
    from kitproof.mending.filetext import FileText
    from kitproof.mending.ground import Ground
    from kitproof.mending.proving import with_proved_fixes as proved

    real = desk.real[kitlist.path]
    given = _given(desk, kitlist.path, real, kitlist.key, desk.book(kitlist), day)
    return proved(Ground(given, FileText(kitlist.documents[0].text)).beside(others))


def _given(desk: Desk, path: str, real: Path, key: str, book: RuleBook, day: date) -> Given:
    """What stays as it is while a list is changed; the files that it uses are looked at as the desk looks at them."""
    from kitproof.files import fetcher
    from kitproof.mending.ground import Given
    from kitproof.model.sources import once

    return Given(path, str(real), key, once(fetcher(real.parent, desk.looks)), book, day)


def _grounds(desk: Desk, sources: Sequence[Source], day: date) -> Iterator[tuple[Source, Ground | None]]:
    """Each list as it stands, with what the others promise of the same stock; None for one not to be changed."""
    from kitproof.mending.filetext import opened
    from kitproof.mending.ground import Ground

    made: list[tuple[Source, Ground | None]] = []
    for source in sources:
        book, file = desk.book_here(source.path), opened(source.data)
        given = _given(desk, source.path, source.real, source.key, book, day)
        made.append((source, None if file is None else Ground(given, file)))
    lists = [ground.kitlist for _, ground in made if ground is not None]
    others = iter(desk.beside(lists, changing=True))
    for source, ground in made:
        yield source, None if ground is None else ground.beside(next(others)[1])


def put_in_place(source: Source, done: Mended) -> bool:
    """Writes a mended list where it came from, and says what was done to it; False where that cannot be."""
    from kitproof.showing.mending_text import mending_lines
    from kitproof.showing.output import write_bytes

    now = done.ground.file.with_text(done.ground.file.text)
    kept: Path | None = None
    if source.typed:
        write_bytes(now, None)
    elif now != source.data:
        try:
            kept = replace_file(Path(source.path), source.data, now, keep=not _can_be_had_again(source))
        except NotReplacedError as problem:
            return not _complain(str(problem))
    for line in mending_lines(done, source.path, kept.name if kept else ""):
        click.echo(line, err=source.typed)
    return True


def _can_be_had_again(source: Source) -> bool:
    """Whether version control holds the file just as it is: what is not yet committed would be lost for good."""
    from kitproof.history import History, NoHistoryError

    try:
        return History(source.real.parent).file("HEAD", source.real) == source.data
    except NoHistoryError:
        return False


def _complain(says: str) -> bool:
    click.echo(says, err=True)
    return True
