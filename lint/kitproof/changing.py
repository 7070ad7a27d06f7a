"""The commands that change lists: thin, like the others. Files are replaced whole or not at all."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from kitproof.options import called_option, paths_argument

if TYPE_CHECKING:
    from kitproof.files import Source


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
            failed += _complain(f'"{source.path}" is UTF-16 text and was left as it is. Save it as UTF-8 text first.')
        elif source.typed and not only_say:
            write_bytes(now, None)
        elif now == source.data:
            continue
        elif only_say:
            changed += 1
            click.echo(f"{source.path} would change, first at line {_first_difference(source.data, now)}.")
        elif replaced(source, now):
            click.echo(f"{source.path} is neatened.")
        else:
            failed += 1
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


def replaced(source: Source, now: bytes) -> bool:
    """Whether a list's file was replaced; why not is said on standard error."""
    from kitproof.replacing import NotReplacedError, replace_file

    try:
        replace_file(Path(source.path), source.data, now)
    except NotReplacedError as problem:
        return not _complain(str(problem))
    return True


def _complain(says: str) -> bool:
    click.echo(says, err=True)
    return True
