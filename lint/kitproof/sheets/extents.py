"""How far the cells of a zipped workbook reach, looked at before a library lays out room for all of them.

A file of a few bytes can name the last cell of a sheet, or one long text ten thousand times over.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from kitproof.sheets.cells import SheetError

MOST_CELLS = 5_000_000
"""Cells that one sheet may reach over, empty ones between others included: 20,000 rows of 250 columns."""
MOST_TEXT = 200_000_000
"""Characters that the texts of all cells may come to, each counted as often as it stands."""

_CELL_AT = re.compile(rb"""\sr\s*=\s*["']([A-Za-z]{1,4})(\d{1,9})["']""")
_SHARED = re.compile(rb"<(?:\w+:)?si\b.*?</(?:\w+:)?si\s*>", re.DOTALL)
_SHARED_CELL = re.compile(rb"""\st\s*=\s*["']s["']""")
_SHARED_TEXT = re.compile(rb"""\st\s*=\s*["']s["'][^>]*>\s*<(?:\w+:)?v[^>]*>\s*(\d+)""")
_REPEATING = re.compile(rb"<table:(table-row|table-cell|covered-table-cell|table)(?![-\w])([^>]*)>")
_ROWS = re.compile(rb"""number-rows-repeated\s*=\s*["'](\d+)["']""")
_COLUMNS = re.compile(rb"""number-columns-repeated\s*=\s*["'](\d+)["']""")
_FAR = (
    "Its cells reach over {} rows and {} columns, more than are read here. Take out what stands far out, and try again."
)
_LONG = "Its texts come to more than {} million characters, far more than an order has, and were not read."


def too_far(parts: Mapping[str, bytes]) -> None:
    """Raises SheetError where the cells of a workbook, by its parts, reach over more than is read."""
    sheets = [text for name, text in parts.items() if "worksheets/" in name]
    for rows, columns in (*map(_reach, sheets), *_reaches_of_ods(parts.get("content.xml", b""))):
        if rows * columns > MOST_CELLS:
            raise SheetError(_FAR.format(rows, columns))
    if _texts(parts.get("xl/sharedStrings.xml", b""), sheets) > MOST_TEXT:
        raise SheetError(_LONG.format(MOST_TEXT // 1_000_000))


def _reach(text: bytes) -> tuple[int, int]:
    """The last row and the last column that a sheet of an XLSX file names, each counted from 1."""
    rows = columns = 0
    for found in _CELL_AT.finditer(text):
        rows = max(rows, int(found[2]))
        columns = max(columns, _column(found[1]))
    return rows, columns


def _column(name: bytes) -> int:
    """A column by its letters, counted from 1."""
    number = 0
    for letter in name.upper():
        number = number * 26 + letter - ord("A") + 1
    return number


def _texts(shared: bytes, sheets: Sequence[bytes]) -> int:
    """No less than the characters of all cells whose text is kept once for all of them."""
    lengths = [len(each) for each in _SHARED.findall(shared)]
    longest = max(lengths, default=0)
    cells = sum(len(_SHARED_CELL.findall(sheet)) for sheet in sheets)
    if cells * longest <= MOST_TEXT:
        return cells * longest
    which = [int(number) for sheet in sheets for number in _SHARED_TEXT.findall(sheet)]
    known = sum(lengths[number] for number in which if number < len(lengths))
    return known + (cells - len(which)) * longest


def _reaches_of_ods(text: bytes) -> list[tuple[int, int]]:
    """For each sheet of an ODS file, the last row and column that hold something, repeated ones counted out."""
    reaches = [(0, 0)]
    row = column = 0
    for found in _REPEATING.finditer(text):
        if found[1] == b"table":
            reaches.append((0, 0))
            row = 0
        elif found[1] == b"table-row":
            row += _times(_ROWS, found[2])
            column = 0
        else:
            column += _times(_COLUMNS, found[2])
            if b"value-type" in found[2]:
                reaches[-1] = (row, max(reaches[-1][1], column))
    return reaches


def _times(pattern: re.Pattern[bytes], attributes: bytes) -> int:
    found = pattern.search(attributes)
    return int(found[1]) if found else 1
