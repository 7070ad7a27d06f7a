"""The bytes of a sheet as rows, whichever kind of file it is."""

from __future__ import annotations

from kitproof.sheets.cells import SheetError, Workbook
from kitproof.sheets.delimited import read_delimited
from kitproof.sheets.workbook import is_workbook, read_workbook

LARGEST = 50_000_000
"""Bytes that a file may have."""
TOO_LARGE = f"It has more than {LARGEST // 1_000_000} million bytes, far more than an order has, and was not read."


def opened(data: bytes) -> Workbook:
    """All sheets of a CSV file or a workbook (XLSX, XLS, ODS), by what the bytes are and not by the file's name.

    Raises SheetError, in a person's words, for what cannot be read.
    """
    if len(data) > LARGEST:
        raise SheetError(TOO_LARGE)
    workbook = read_workbook(data) if is_workbook(data) else read_delimited(data)
    if all(row.empty for sheet in workbook.sheets for row in sheet.rows):
        raise SheetError("It is empty: no cell of it holds anything.")
    return workbook
