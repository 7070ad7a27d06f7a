"""The command that makes a list out of a sheet. Thin, like the others: it opens files and says what became of them."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from kitproof.options import desk_for, house_options, on_option, output_option, watched

if TYPE_CHECKING:
    from kitproof.desk import Desk
    from kitproof.model.kitlist import KitList
    from kitproof.sheets.cells import Workbook
    from kitproof.sheets.told import Taken


_OF_HOUSE = {"folders": "rules", "limits": "limit", "grades": "grade", "retired": "retire"}
"""How the options of a house are typed, where that is another word."""


class Said(click.ParamType[tuple[str, str]]):
    """What a column holds, as count=Qty."""

    name = "column"

    def convert(
        self, value: str | tuple[str, str], param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[str, str]:
        if isinstance(value, tuple):
            return value
        name, equals, heading = value.partition("=")
        if not (name.strip() and equals and heading.strip()):
            self.fail(f'"{value}" names no column. Write what it holds and its heading: count=Qty', param, ctx)
        return name.strip().casefold(), heading.strip()


@click.command("from-sheet")
@click.argument("sheet", type=click.Path(path_type=str), metavar="SHEET")
@click.option(
    "--books",
    metavar="FILE",
    multiple=True,
    help="A parts book to match by; else those beside the sheet or a folder below.",
)
@click.option(
    "--column",
    "columns",
    type=Said(),
    multiple=True,
    metavar="WHAT=HEADING",
    help="Which column holds what: count=Qty, name=C, rig=none.",
)
@click.option("--parts", is_flag=True, help="The sheet is an inventory: shows it as a parts book; -o writes that.")
@click.option("--overwrite", is_flag=True, help="With --parts: the sheet's figures over those that a book has already.")
@click.option("--show", is_flag=True, help="With --parts: shows what would change in the book, and changes nothing.")
@click.option("--return", "back", is_flag=True, help="Writes a copy of the sheet with the findings beside its rows.")
@click.option("--list", "made", metavar="LIST", help="With --return: the list that was made from it, as it is now.")
@on_option
@output_option
@house_options
def from_sheet(
    sheet: str,
    books: tuple[str, ...],
    columns: tuple[tuple[str, str], ...],
    parts: bool,
    overwrite: bool,
    show: bool,
    back: bool,
    made: str | None,
    day: date | None,
    output: str | None,
    **options: Any,
) -> None:
    """Makes a list out of an order in a sheet: CSV, XLSX, XLS or ODS.

    Each row is matched to the parts books by name. Sure ones are written as lines, others stand as comments with the
    nearest parts; none is left out. Nothing in the sheet is run. The same sheet again changes nothing, and a list
    that was changed by hand is not written over.

    With --return it writes a copy of the sender's XLSX or CSV instead, with what is found in the list beside its rows;
    with --parts a parts book, of which every reading is shown and nothing that it says is overwritten unless told.

    Exit status: 0 every row is settled, 1 some are in doubt or something is to be sent back, 2 it could not run.
    """
    house = {f"--{_OF_HOUSE.get(name, name)}": value for name, value in options.items()}
    _only_together(parts, back, {"--overwrite": overwrite, "--show": show}, {"--list": made, "--on": day, **house})
    if books and (parts or made):
        _stop("--books is for an order whose list is made now: leave it out.")
    path = Path(sheet)
    workbook = _opened(path)
    if parts:
        from kitproof.stocktaking import take_stock

        _done(path, lambda: take_stock(path, workbook, dict(columns), output, overwrite=overwrite, show=show))
    elif back:
        from kitproof.returning import send_back

        kitlist, desk = _list_of(path, workbook, books, columns, made, options)
        on = day or date.today()
        _done(path, lambda: send_back(path, workbook, dict(columns), kitlist, desk, on, output))
    else:
        _made(path, workbook, books, dict(columns), output)


def _only_together(parts: bool, back: bool, of_parts: Mapping[str, object], of_back: Mapping[str, object]) -> None:
    """Options that go with one way of using the command stop it where they are given without that."""
    if parts and back:
        _stop("--parts is for an inventory and --return for an order: give one of them.")
    for whole, given, name in ((parts, of_parts, "--parts"), (back, of_back, "--return")):
        alone = [option for option, value in given.items() if value]
        if alone and not whole:
            _stop(f"{alone[0]} goes with {name}.")


def _done(path: Path, work: Callable[[], tuple[list[str], bool]]) -> None:
    """What one way of using the command does: tells of it, and ends with 1 where something is not settled."""
    from kitproof.replacing import NotReplacedError
    from kitproof.sheets.cells import SheetError

    try:
        told, settled = work()
    except SheetError as trouble:
        _stop(f'"{path}": {trouble}')
    except NotReplacedError as trouble:
        _stop(str(trouble))
    _tell(told)
    if not settled:
        raise SystemExit(1)


def _list_of(
    path: Path,
    workbook: Workbook,
    books: tuple[str, ...],
    columns: tuple[tuple[str, str], ...],
    made: str | None,
    options: dict[str, Any],
) -> tuple[KitList, Desk]:
    """The list that was made from a sheet: as it is now, else made anew."""
    desk = desk_for(options)
    if made is not None:
        return desk.list_named(made), desk
    found = _books(path, books)
    text = _text(path, _taken(path, workbook, found, dict(columns)), found, None)
    return desk.list_typed(f"{path.stem}.kitlist", text.encode("utf-8", "surrogateescape")), desk


def _made(
    path: Path, workbook: Workbook, books: tuple[str, ...], columns: Mapping[str, str], output: str | None
) -> None:
    """A list, printed or written."""
    from kitproof.sheets.writing import in_doubt, tally

    if output and not Path(output).parent.is_dir():
        _stop(f'There is no folder "{Path(output).parent}" to write "{Path(output).name}" into. Make it first.')
    found = _books(path, books)
    what = _taken(path, workbook, found, columns)
    _put(_text(path, what, found, output), output)
    _tell([f"{path}: {tally(what)}", *in_doubt(what), *what.warnings])
    if what.number("doubt"):
        raise SystemExit(1)


def _taken(path: Path, workbook: Workbook, books: Sequence[Path], columns: Mapping[str, str]) -> Taken:
    """What becomes of every row of an order."""
    from kitproof.bookshelf import NoBooksError, parts_of
    from kitproof.sheets.cells import SheetError
    from kitproof.sheets.matching import Shelf
    from kitproof.sheets.taking import taken

    try:
        shelf = Shelf({name: part.kind for name, part in parts_of(books).items()})
        return taken(workbook, shelf, columns, lambda rows: watched(rows, "Matching"))
    except NoBooksError as trouble:
        _stop(str(trouble))
    except SheetError as trouble:
        _stop(f'"{path}": {trouble}')


def _text(path: Path, what: Taken, books: Sequence[Path], output: str | None) -> str:
    """The text of the list, as it uses the parts books from where it will lie."""
    from kitproof.bookshelf import used_from
    from kitproof.sheets.writing import Named, written

    used, said = used_from(Path(output).parent if output else Path.cwd(), books)
    _tell(said)
    return written(what, Named(path.name, path.stem, tuple(used)))


def _stop(says: str) -> NoReturn:
    """It could not run: says why on standard error, and exits 2."""
    _tell([says])
    raise SystemExit(2)


def _tell(says: Sequence[str]) -> None:
    for each in says:
        click.echo(textwrap.fill(each, 80, break_long_words=False, break_on_hyphens=False), err=True)


def _opened(path: Path) -> Workbook:
    """The sheets of a file; what cannot be read stops the command."""
    from kitproof.files import NoSuchPathError, lists_in, source
    from kitproof.sheets.cells import SheetError
    from kitproof.sheets.opening import LARGEST, TOO_LARGE, opened

    if path.is_dir():
        _stop(f'"{path}" is a folder. Name the sheet itself.')
    try:
        list(lists_in((str(path),)))  # says what is near where there is no such file
        if not path.is_file() or path.stat().st_size > LARGEST:
            _stop(f'"{path}": {TOO_LARGE if path.is_file() else "It is no file that can be read as a sheet."}')
        return opened(source(path).data)
    except SheetError as trouble:
        _stop(f'"{path}": {trouble}')
    except (NoSuchPathError, OSError) as trouble:
        _stop(str(trouble))


def _books(sheet: Path, named: Sequence[str]) -> list[Path]:
    """The parts books to match by; where there are none, that stops the command."""
    from kitproof.bookshelf import NoBooksError, books_for

    try:
        return books_for(sheet, named)
    except NoBooksError as trouble:
        _stop(str(trouble))


def _put(text: str, output: str | None) -> None:
    """Writes the list; one that is there already is replaced only if it is still as it was made from a sheet."""
    from kitproof.sheets.writing import made_from_a_sheet
    from kitproof.showing.output import encoded, write

    path = Path(output) if output else None
    if path is None or not path.exists():
        write(text, output)
        return
    try:
        was = path.read_bytes()
    except OSError as trouble:
        _stop(f'"{path}" cannot be read: {(trouble.strerror or "no reason given").lower()}.')
    made, now = made_from_a_sheet(was.decode("utf-8", "replace")), made_from_a_sheet(text)
    if was == encoded(text):
        _tell([f'"{path}" is already what the sheet gives; nothing was changed.'])
    elif made is None:
        _stop(f'"{path}" is there already and was not made from a sheet. Name another file with -o.')
    elif made.untouched:
        _replace(path, was, encoded(text))
    elif now is not None and made.mark == now.mark:
        _tell([f'"{path}" was made from the same sheet and then changed by hand. It was left as it is.'])
    else:
        _stop(
            f'"{path}" was changed by hand since it was made, and the sheet or a parts book has changed too. '
            "Name another file with -o, and bring your changes over: kitproof compare shows them."
        )


def _replace(path: Path, was: bytes, now: bytes) -> None:
    from kitproof.replacing import NotReplacedError, replace_file

    try:
        replace_file(path, was, now)
    except NotReplacedError as problem:
        _stop(str(problem))
