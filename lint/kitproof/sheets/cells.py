"""What a sheet is made of: cells in rows, as a person sees them, with the numbers that the person's program shows.

Only values are read. A formula counts by the result that was saved with it; neither it nor a macro is ever run.
"""

from __future__ import annotations

from datetime import date

from msgspec import Struct


class SheetError(Exception):
    """A sheet that cannot be used as it is; the text says why and what to do, in a person's words."""


class Cell(Struct, frozen=True):
    """One cell: its text as a person sees it, with no space around it; its number or its day where it is stored as one;
    and whether it is struck out, wholly or in part (known of XLSX files only).

    The cells of a CSV file have text alone.
    """

    text: str = ""
    number: float | None = None
    day: date | None = None
    struck: bool = False

    @property
    def words(self) -> str:
        """The text on one line, one space between words."""
        return " ".join(self.text.split())


EMPTY = Cell()


class Row(Struct, frozen=True):
    """One row: its number counted from 1 as a spreadsheet program shows it, and its cells from column A on; whether it
    is hidden (known of XLSX files only)."""

    number: int
    cells: tuple[Cell, ...]
    hidden: bool = False

    def at(self, column: int | None) -> Cell:
        """The cell in a column, counted from 0; an empty one beyond the row's end or where there is no column."""
        return self.cells[column] if column is not None and column < len(self.cells) else EMPTY

    @property
    def empty(self) -> bool:
        return not any(cell.text for cell in self.cells)


class Sheet(Struct, frozen=True):
    """One sheet of a workbook, or a whole CSV file (which has no name): all of its rows, empty ones too.

    `merged` are stretches of cells shown as one: first row's number, first column, last row's number, last column;
    columns count from 0.
    """

    name: str
    rows: tuple[Row, ...]
    hidden: bool = False
    merged: tuple[tuple[int, int, int, int], ...] = ()


class Workbook(Struct, frozen=True):
    """All sheets of a file in their order, and what is to be said of how it was read (whole sentences)."""

    sheets: tuple[Sheet, ...]
    said: tuple[str, ...] = ()


def letters(column: int) -> str:
    """A column, counted from 0, by its letters: A, Z, AA."""
    name = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        name = chr(ord("A") + rest) + name
    return name
