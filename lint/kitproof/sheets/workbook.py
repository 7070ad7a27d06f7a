"""A workbook (XLSX, XLS, ODS): bytes to sheets. Only values are read; nothing in it is ever run.

What is handed to the reading library is packed anew from parts that were measured while they were unpacked, so that a
small file which unpacks to a huge one is refused before anything reads it.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Mapping, Sequence
from datetime import date, datetime, time, timedelta
from typing import Any

from msgspec.structs import replace

from kitproof.sheets.cells import EMPTY, Cell, Row, Sheet, SheetError, Workbook, letters
from kitproof.sheets.extents import MOST_CELLS, too_far
from kitproof.sheets.formulas import without_results
from kitproof.sheets.marks import NO_MARKS, Marks, marks_of

ZIP_MARK = b"PK"
OLD_MARK = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
"""How files of older office programs begin, and protected ones of newer programs."""
MOST_UNPACKED = 100_000_000
"""Bytes that a workbook's text may come to unpacked."""
MOST_PARTS = 5_000

_FIRST_RECORD = b"\x09\x08\x10\x00\x00\x06\x05\x00"
_PASSWORD_RECORD = b"\x2f\x00"
_FIRST_RECORDS = 8
_READ_PARTS = (".xml", ".rels")
_MACROS = "vbaProject.bin"
_PROTECTED = "It is protected with a password. Open it, save it without one, and try again."
_DAMAGED = "It is damaged, or no workbook at all. Open it in the program that made it, save it anew, and try again."
_TOO_LARGE = "It unpacks to more than {} million bytes, far more than an order comes to, and was not read."
_OTHER = "It is a workbook of a kind that is not read here. Save it as XLSX or CSV, and try again."


def is_workbook(data: bytes) -> bool:
    """Whether the bytes begin as a workbook does, and not as text."""
    return data.startswith((ZIP_MARK, OLD_MARK))


def read_workbook(data: bytes) -> Workbook:
    """All sheets of a workbook. Raises SheetError for one that is protected, damaged, or far too large."""
    said: tuple[str, ...] = ()
    marks: Mapping[str, Marks] = {}
    if data.startswith(ZIP_MARK):
        data, said, marks = _measured(data)
    elif "EncryptedPackage".encode("utf-16-le") in data or _has_password(data):
        raise SheetError(_PROTECTED)
    return Workbook(tuple(_marked(sheet, marks.get(sheet.name, NO_MARKS)) for sheet in _sheets(data)), said)


def _has_password(data: bytes) -> bool:
    """Whether a workbook of an older office program is protected: a record of that kind is among its first ones.

    A record is two bytes of its kind, two of its length, and so many more.
    """
    at = data.find(_FIRST_RECORD)
    for _ in range(_FIRST_RECORDS):
        kind, length = data[at : at + 2], int.from_bytes(data[at + 2 : at + 4], "little")
        if at < 0 or kind == _PASSWORD_RECORD:
            return at >= 0
        at += 4 + length
    return False


def _measured(data: bytes) -> tuple[bytes, tuple[str, ...], Mapping[str, Marks]]:
    """The parts of a zipped workbook that hold text, packed anew; what is to be said of macros and formulas; the marks
    of its sheets."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            parts = packed.infolist()
            names = [part.filename for part in parts]
            _known(names, parts)
            texts = _unpacked(packed, [part for part in parts if _is_read(part.filename)])
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, OverflowError) as trouble:
        raise SheetError(_DAMAGED) from trouble
    except RuntimeError as trouble:  # a way of packing that office programs do not use
        raise SheetError(_OTHER) from trouble
    if b"encryption-data" in texts.get("META-INF/manifest.xml", b""):
        raise SheetError(_PROTECTED)
    too_far(texts)
    anew = io.BytesIO()
    with zipfile.ZipFile(anew, "w", zipfile.ZIP_STORED) as packing:
        for name, text in texts.items():
            packing.writestr(name, text)
    macros = any(name.endswith(_MACROS) for name in names)
    said = ("It has macros; none of them was run." if macros else "", without_results(texts))
    return anew.getvalue(), tuple(each for each in said if each), marks_of(texts)


def _is_read(name: str) -> bool:
    return name.endswith(_READ_PARTS) or name == "mimetype"


def _known(names: Sequence[str], parts: Sequence[zipfile.ZipInfo]) -> None:
    """Raises SheetError for a zipped file that is no workbook known here, and for parts packed under a password."""
    if any(part.flag_bits & 1 for part in parts):
        raise SheetError(_PROTECTED)
    if "content.xml" not in names and "xl/workbook.xml" not in names:
        raise SheetError(_OTHER)
    if len(parts) > MOST_PARTS:
        raise SheetError(f"It is packed of more than {MOST_PARTS} parts and was not read.")


def _unpacked(packed: zipfile.ZipFile, parts: Sequence[zipfile.ZipInfo]) -> dict[str, bytes]:
    """The bytes of each part. No more is unpacked than may be, whatever sizes the file gives."""
    texts: dict[str, bytes] = {}
    left = MOST_UNPACKED
    for part in parts:
        with packed.open(part) as reading:
            text = reading.read(left + 1)
        left -= len(text)
        if left < 0:
            raise SheetError(_TOO_LARGE.format(MOST_UNPACKED // 1_000_000))
        texts[part.filename] = text
    return texts


def _sheets(data: bytes) -> tuple[Sheet, ...]:
    """The sheets, by the reading library; whatever it stumbles over is told as a damaged file."""
    import python_calamine as calamine  # only where a workbook is read

    try:
        workbook = calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
        return tuple(
            _sheet(workbook, about.name, about.visible != calamine.SheetVisibleEnum.Visible)
            for about in workbook.sheets_metadata
            if about.typ == calamine.SheetTypeEnum.WorkSheet
        )
    except calamine.PasswordError as trouble:
        raise SheetError(_PROTECTED) from trouble
    except (SheetError, KeyboardInterrupt, MemoryError):
        raise
    except BaseException as trouble:  # the library's own panics are no Exceptions
        raise SheetError(_DAMAGED) from trouble


def _sheet(workbook: Any, name: str, hidden: bool) -> Sheet:
    found = workbook.get_sheet_by_name(name)
    if found.total_height * found.total_width > MOST_CELLS:
        raise SheetError(
            f'The sheet "{name}" reaches over more cells than are read here. Take out what stands far out.'
        )
    cells = found.to_python(skip_empty_area=False) if found.start is not None else []
    rows = tuple(Row(number, tuple(map(_cell, each))) for number, each in enumerate(cells, start=1))
    merged = tuple(
        (top + 1, left, bottom + 1, right) for (top, left), (bottom, right) in found.merged_cell_ranges or ()
    )
    return Sheet(name, rows, hidden, merged)


def _marked(sheet: Sheet, marks: Marks) -> Sheet:
    """A sheet with its rows and cells marked as hidden and struck out."""
    if marks == NO_MARKS:
        return sheet
    touched = {number for number, _ in marks.struck} | marks.hidden
    rows = (_marked_row(row, marks) if row.number in touched else row for row in sheet.rows)
    return replace(sheet, rows=tuple(rows))


def _marked_row(row: Row, marks: Marks) -> Row:
    cells = (
        replace(cell, struck=True) if cell.text and (row.number, letters(at)) in marks.struck else cell
        for at, cell in enumerate(row.cells)
    )
    return Row(row.number, tuple(cells), row.number in marks.hidden)


def _cell(value: Any) -> Cell:
    """A value as the library gives it, as a cell: what a person sees, and the number or the day that it is."""
    match value:
        case "":
            return EMPTY
        case str():
            text = value.strip()
            return Cell(text) if text else EMPTY
        case bool():
            return Cell("yes" if value else "no")
        case int() | float():
            return Cell(f"{value:.15g}", number=float(value))
        case datetime():
            midnight = value.time() == time()
            return Cell(value.date().isoformat() if midnight else value.isoformat(" ", "minutes"), day=value.date())
        case date():
            return Cell(value.isoformat(), day=value)
        case timedelta():
            return Cell(f"{value.total_seconds() / 3600:.15g} h")
        case _:
            return Cell(str(value))
