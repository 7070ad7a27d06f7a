"""The sender's sheet with remarks beside its rows: a copy in which all of the sender's stands as it was.

What is written into cells is text and never a formula. Nothing in the sheet is run.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from kitproof.sheets.cells import SheetError
from kitproof.sheets.delimited import Record, Records
from kitproof.sheets.plain_text import on_one_line
from kitproof.sheets.row_marks import RowOf
from kitproof.showing.remarks import COLUMNS, Remark

OWN_SHEET = "Proof"
MOST_ROWS = 1_048_576
LONGEST_CELL = 30_000
"""So many characters stand in one cell at most; a cell takes 32,767."""
MOST_UNPACKED = 300_000_000
"""Bytes that all parts of a workbook may come to, pictures and macros included."""
WIDTHS = (9, 70, 50)
FILLS = {"STOP": "F4B6B6", "WRONG": "F8D7A8", "WATCH": "FBF0B5", "ASK": "D5E3F5"}
FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")
LEFT_OUT = {
    "xl/charts/chart": "some charts",
    "xl/media/": "some pictures",
    "xl/ctrlProps/": "buttons and boxes",
    "xl/embeddings/": "embedded files",
    "xl/threadedComments/": "threads of comments: they are plain comments in it",
}

EXTENSIONS = {
    "Data Validation": "some lists to choose from in cells",
    "Conditional Formatting": "some formatting that depends on what cells hold",
    "Sparkline Group": "small charts in cells",
    "Slicer List": "buttons that filter",
}
"""What newer office programs add to a sheet and is not kept, by the name that the reading library has for it."""
OTHERS = "something that newer office programs add"
RESULTS = "Its formulas stand in the copy without results: an office program works them out when it opens it."

_NOT_IN_CELLS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_NUMBER = re.compile(r"[+-]?[\d\s.,()%/-]*")
_OLD = "A copy with remarks is made of XLSX and CSV only. Save it as one of these, and try again."
_ODD = "It cannot be copied with its formatting. Open it in an office program, save it as XLSX anew, and try again."


def in_rows(remarks: Iterable[Remark], there: Mapping[str, int]) -> tuple[dict[RowOf, list[Remark]], list[Remark]]:
    """The remarks by their rows, and those to no row: to none that is there, or with no room left in its cell.

    `there` gives how many rows each sheet has, by its name.
    """
    rows: dict[RowOf, list[Remark]] = {}
    others: list[Remark] = []
    for each in remarks:
        if each.row is None or not 0 < each.row.row <= there.get(each.row.tab, 0):
            others.append(each)
            continue
        beside = rows.get(each.row, [])
        room = LONGEST_CELL - sum(len(one.says) + len(one.do) + len(one.grade) + 20 for one in beside)
        if len(each.says) + len(each.do) > room:
            others.append(each)
        else:
            rows.setdefault(each.row, []).append(each)
    return rows, others


def cells_of(beside: Sequence[Remark]) -> tuple[str, str, str]:
    """What stands beside one row: the grades, what was found, and what to do, one remark a line, in the same order."""
    numbers = [f"{number}. " for number in range(1, len(beside) + 1)] if len(beside) > 1 else [""]
    grades = list(dict.fromkeys(each.grade for each in beside))
    says = "\n".join(f"{number}{each.grade}: {each.says}" for number, each in zip(numbers, beside, strict=True))
    do = "\n".join(f"{number}{each.do}" for number, each in zip(numbers, beside, strict=True) if each.do)
    return ", ".join(grades), says, do


def as_text(text: str) -> str:
    """Text that no program takes for a formula, with nothing in it that no cell may hold."""
    kept = _NOT_IN_CELLS.sub(" ", text)
    return f"'{kept}" if kept.startswith(FORMULA_SIGNS) else kept


# A workbook


def workbook_returned(
    data: bytes,
    headings: Mapping[str, int],
    remarks: Sequence[Remark],
    summary: Sequence[str],
    *,
    macros: bool,
) -> tuple[bytes, list[str]]:
    """A copy of an XLSX or XLSM file with remarks beside its rows and a sheet of its own for the others, and what is to
    be said of the copy. `headings` gives the row of headings by the sheet's name, `macros` whether it may have any.

    Raises SheetError for a file of another kind, and for one that cannot be copied.
    """
    names = _parts(data)
    had_macros = any(each.endswith("vbaProject.bin") for each in names)
    book, said = _loaded(data, keep_macros=had_macros and macros)
    if any(cell.data_type == "f" for sheet in book.worksheets for cell in sheet._cells.values()):
        said.append(RESULTS)
    sheets = {on_one_line(each.title): each for each in book.worksheets}
    if len(sheets) == 1:
        sheets[""] = book.worksheets[0]
    rows, others = in_rows(remarks, dict.fromkeys(sheets, MOST_ROWS))
    for tab in dict.fromkeys(each.tab for each in rows):
        sheet = sheets[tab]
        _beside(sheet, headings.get(tab, 0), {row.row: each for row, each in rows.items() if row.tab == tab})
    _own_sheet(book, others, summary)
    packed = io.BytesIO()
    book.save(packed)
    if book.vba_archive is not None:
        book.vba_archive.close()  # the library leaves it open
    said += _left_out(names, _parts(packed.getvalue()))
    if had_macros:
        said.append("Its macros are kept, and none was run." if macros else "Its macros are left out of the copy.")
    return packed.getvalue(), said


def _left_out(was: Sequence[str], now: Sequence[str]) -> Iterator[str]:
    """What the sender's file has and the copy has less of."""
    for start, what in LEFT_OUT.items():
        if sum(each.startswith(start) for each in now) < sum(each.startswith(start) for each in was):
            yield f"The copy is without {what}."


def _parts(data: bytes) -> list[str]:
    """The names of a workbook's parts. Raises SheetError for what is no XLSX file, or unpacks to too much."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            names = packed.namelist()
            size = sum(each.file_size for each in packed.infolist())
    except zipfile.BadZipFile as trouble:
        raise SheetError(_OLD) from trouble
    if "xl/workbook.xml" not in names:
        raise SheetError(_OLD)
    if size > MOST_UNPACKED:
        raise SheetError(f"It unpacks to more than {MOST_UNPACKED // 1_000_000} million bytes and was not copied.")
    return names


def _loaded(data: bytes, *, keep_macros: bool) -> tuple[Any, list[str]]:
    """A workbook, and what is to be said of what the reading of it leaves out."""
    import warnings

    import openpyxl  # only where a workbook is returned

    try:
        with warnings.catch_warnings(record=True) as warned:
            warnings.simplefilter("always")
            book = openpyxl.load_workbook(io.BytesIO(data), keep_vba=keep_macros, rich_text=True)
    except MemoryError:
        raise
    except Exception as trouble:  # whatever it stumbles over: it names no kinds of its own
        raise SheetError(_ODD) from trouble
    lost = [str(each.message).partition(" extension")[0] for each in warned if " extension" in str(each.message)]
    return book, [f"The copy is without {EXTENSIONS.get(each, OTHERS)}." for each in dict.fromkeys(lost)]


def _beside(sheet: Any, heading: int, rows: Mapping[int, Sequence[Remark]]) -> None:
    """Three columns to the right of all that stands in a sheet."""
    # Not max_column: a row that is coloured to its very end would put them out there.
    filled = [at for (_, at), cell in sheet._cells.items() if cell.value is not None]
    column = 1 + max((0, *filled, *(each.max_col for each in sheet.merged_cells.ranges)))
    if heading:
        _put(sheet, heading, column, COLUMNS)
    for number, beside in rows.items():
        _put(sheet, number, column, cells_of(beside), FILLS.get(beside[0].grade, ""))
        sheet.row_dimensions[number].hidden = False
    _widen(sheet, column)


def _own_sheet(book: Any, others: Sequence[Remark], summary: Sequence[str]) -> None:
    sheet = book.create_sheet(OWN_SHEET)  # under another name where the sender has a sheet of this one
    for number, line in enumerate(summary, start=1):
        _put(sheet, number, 1, (line,), wrapped=False)
    top = len(summary) + 2
    if others:
        _put(sheet, top, 1, COLUMNS)
    for number, each in enumerate(others, start=top + 1):
        _put(sheet, number, 1, (each.grade, each.says, each.do), FILLS.get(each.grade, ""))
    _widen(sheet, 1)


def _put(sheet: Any, row: int, column: int, texts: Sequence[str], fill: str = "", *, wrapped: bool = True) -> None:
    """Texts into cells, as text whatever they begin with."""
    from openpyxl.styles import Alignment, PatternFill

    for at, text in enumerate(texts):
        cell = sheet.cell(row, column + at)
        cell.value = as_text(text)
        cell.data_type = "s"
        cell.quotePrefix = True
        cell.alignment = Alignment(wrap_text=wrapped, vertical="top")
        if fill and not at:
            cell.fill = PatternFill("solid", fgColor=fill)


def _widen(sheet: Any, column: int) -> None:
    from openpyxl.utils import get_column_letter

    for each in sheet.column_dimensions.values():
        if each.hidden and each.min <= column + len(WIDTHS) - 1 and each.max >= column:
            each.hidden = False  # all that is empty may have been put out of sight
    for at, width in enumerate(WIDTHS):
        sheet.column_dimensions[get_column_letter(column + at)].width = width


# A text of cells


def csv_returned(records: Records, heading: int, remarks: Sequence[Remark], summary: Sequence[str]) -> bytes:
    """A copy of a CSV file with remarks in three columns more, and those that are to no row below.

    Each row of the sender's is as it was to the letter. Raises SheetError where a cell of it would be a formula.
    """
    _no_formulas(records.rows)
    rows, others = in_rows(remarks, {"": len(records.rows)})
    by_number = {row.row: cells_of(each) for row, each in rows.items()}
    if heading:
        by_number.setdefault(heading, COLUMNS)
    width = max((len(each.cells) for each in records.rows), default=0)
    lines = [
        records.with_more(each, width, by_number[number]) if number in by_number else each.text
        for number, each in enumerate(records.rows, start=1)
    ]
    if lines and not lines[-1].endswith(("\n", "\r")):
        lines[-1] += records.end
    below = [(each, "", "") for each in summary]
    below += [COLUMNS, *((each.grade, each.says, each.do) for each in others)] if others else []
    whole = [*lines, records.end, *(records.line([as_text(cell) for cell in each]) for each in below)]
    return records.encoded("".join(whole))


def _no_formulas(rows: Sequence[Record]) -> None:
    """Raises SheetError where cells of the sender's begin as formulas do: whoever opened the copy would run them."""
    from kitproof.sheets.cells import letters

    found = [
        f'{letters(at)}{number} ("{cell[:30]}")'
        for number, row in enumerate(rows, start=1)
        for at, cell in enumerate(row.cells)
        if is_formula(cell)
    ]
    if found:
        more = f" and {len(found) - 3} more" if len(found) > 3 else ""
        raise SheetError(
            f"A program that opens the copy would take cells for formulas and run them: {', '.join(found[:3])}{more}. "
            "Put an apostrophe before each, or save the sheet as XLSX, and try again."
        )


def is_formula(text: str) -> bool:
    """Whether a program that opens a CSV file would take a cell for a formula: a sign before what is no number."""
    return text.startswith(FORMULA_SIGNS) and not _NUMBER.fullmatch(text)
