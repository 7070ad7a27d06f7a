"""A parts book made or updated from an inventory sheet: shown first, then written where that was asked for."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from kitproof.options import print_out

if TYPE_CHECKING:
    from kitproof.mending.filetext import FileText
    from kitproof.sheets.cells import Workbook
    from kitproof.sheets.inventory import Inventory


def take_stock(
    sheet: Path, workbook: Workbook, columns: Mapping[str, str], output: str | None, *, overwrite: bool, show: bool
) -> tuple[list[str], bool]:
    """Prints every reading of an inventory, and puts them into the book `output`, if there is one and `show` does not
    hold that back. What to tell of it, and whether all was taken.

    Raises SheetError for a sheet or a book that cannot be used, NotReplacedError for a book that cannot be written.
    """
    from kitproof.sheets.booking import booked, kinds_of, opening_of
    from kitproof.sheets.inventory import inventory
    from kitproof.sheets.matching import Shelf
    from kitproof.showing.inventory_text import inventory_lines

    book = None if output is None else Path(output)
    was = _read(sheet, book)
    text = _text(book, was)
    found = inventory(workbook, columns, Shelf(kinds_of(text.text)))
    done = booked(found, text.text, opening_of(sheet.name), overwrite=overwrite)
    print_out(inventory_lines(found, done, str(sheet), output or ""), None)
    told = ["Nothing was written. -o FILE writes a parts book, or updates one."]
    if book is not None and not show:
        told = [_written(book, was, text.with_text(done.text), found)]
    elif book is not None:
        told = ["Nothing was written, as --show asks."]
    return told, not found.not_taken and not done.number("kept")


def _read(sheet: Path, book: Path | None) -> bytes | None:
    """The bytes of the book as it is; None where there is none yet."""
    from kitproof.sheets.cells import SheetError

    if book is None or not book.exists():
        return None
    if book.samefile(sheet):
        raise SheetError("it cannot be its own parts book. Name another file with -o.")
    try:
        return book.read_bytes()
    except OSError as trouble:
        raise SheetError(f'"{book}" cannot be read: {(trouble.strerror or "no reason given").lower()}.') from trouble


def _text(book: Path | None, data: bytes | None) -> FileText:
    """The text of the book. Raises SheetError for a file that is none."""
    from kitproof.mending.filetext import opened
    from kitproof.reading.entries import read
    from kitproof.sheets.cells import SheetError

    text = opened(data or b"")
    if text is None:
        raise SheetError(f'"{book}" is UTF-16 text and was left as it is. Save it as UTF-8 text first.')
    document = read(text.text, "")
    if (document.slips or document.entries) and not any(entry.kind for entry in document.entries):
        raise SheetError(f'"{book}" is there already and is no parts book. Name another file with -o.')
    return text


def _written(book: Path, was: bytes | None, now: bytes, found: Inventory) -> str:
    from kitproof.replacing import replace_file
    from kitproof.showing.output import write_bytes

    if now == (was or b""):
        return f'"{book}" has all of it already; nothing was changed.' if found.parts else "Nothing was written."
    if was is None:
        write_bytes(now, str(book))
    else:
        replace_file(book, was, now)
    return f'"{book}" is {"written" if was is None else "updated"}.'
