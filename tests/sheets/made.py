"""Sheets and parts for the tests of this room: small ones in text, workbooks written by a general library."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence
from typing import Any

import openpyxl
import xlsxwriter

from kitproof.sheets.cells import Sheet
from kitproof.sheets.matching import Shelf
from kitproof.sheets.opening import opened
from kitproof.sheets.taking import taken
from kitproof.sheets.told import Taken, Told
from kitproof.sheets.writing import Named, written

PARTS = {
    "Alder tall 150": "sticks",
    "Alder low 150": "sticks",
    "Bramble 12": "head",
    "Bramble 18": "head",
    "Bramble long bar": "pan bar",
    "Bramble tie-down": "tie-down",
    "Tern S2": "camera",
    "Tern S6": "camera",
    "Dunlin 32": "lens",
    "Dunlin 50": "lens",
    "Dunlin 31-217": "lens",
    "Sorrel 98": "battery",
    "Sorrel 150": "battery",
    "Sorrel two-way": "charger",
    "Teasel 15 mm rods 450": "rods",
    "Vetch 7": "monitor",
    "Vetch 5": "monitor",
    "Yarrow sand bag 10": "ballast",
}
"""Parts of a house of our own invention, by their kinds."""
BOOK = "\n\n".join(f'part {kind} "{name}"\n  have      9' for name, kind in PARTS.items()) + "\n"


def shelf(parts: Mapping[str, str] = PARTS) -> Shelf:
    return Shelf(parts)


def sheet(text: str) -> Sheet:
    """The one sheet of a CSV text."""
    return opened(text.encode()).sheets[0]


def workbook(
    sheets: Mapping[str, Sequence[Sequence[Any]]], *, hidden: Sequence[str] = (), merged: Sequence[str] = ()
) -> bytes:
    """The bytes of an XLSX file; `merged` are stretches of its first sheet."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        page = book.create_sheet(name)
        page.sheet_state = "hidden" if name in hidden else "visible"
        for each in rows:
            page.append(list(each))
    for stretch in merged:
        book.worksheets[0].merge_cells(stretch)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def of_texts(rows: Sequence[Sequence[str]]) -> bytes:
    """The bytes of an XLSX file that keeps each text once for all its cells, and formulas with their results."""
    file = io.BytesIO()
    with xlsxwriter.Workbook(file) as book:
        page = book.add_worksheet("Order")
        for at, each in enumerate(rows):
            page.write_row(at, 0, each)
    return file.getvalue()


def repacked(data: bytes, name: str, text: bytes) -> bytes:
    """A zipped file with one part put in the place of another, or added."""
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.namelist():
            if part != name:
                new.writestr(part, old.read(part))
        new.writestr(name, text)
    return file.getvalue()


def part_of(data: bytes, name: str) -> bytes:
    """One part of a zipped file."""
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        return packed.read(name)


def take(data: str | bytes, **said: str) -> Taken:
    """What becomes of the rows of a sheet."""
    return taken(opened(data.encode() if isinstance(data, str) else data), shelf(), said)


def only(found: Taken, became: str) -> list[Told]:
    return [told for told in found.rows if told.became == became]


def lines(found: Taken) -> list[tuple[int, str]]:
    """How many of what are written."""
    return [(told.line.count, told.line.part) for told in found.rows if told.line is not None]


def listed(data: str | bytes, **said: str) -> str:
    """The list that is made of a sheet."""
    return written(take(data, **said), Named("order.csv", "order", ("stock/house.kitlist",)))
