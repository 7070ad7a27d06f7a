"""What the sender struck out or hid in an XLSX file: such a row is in doubt, never an order."""

from __future__ import annotations

import io

import openpyxl
import xlsxwriter
from openpyxl.styles import Font

from kitproof.sheets.cells import Sheet
from kitproof.sheets.opening import opened
from tests.sheets.made import lines, only, take, workbook


def marked() -> bytes:
    """A workbook by one library: a row struck out, a note struck out, a row hidden, and one that is neither."""
    book = openpyxl.load_workbook(
        io.BytesIO(
            workbook(
                {
                    "Kit & cases": [
                        ["Qty", "Item", "Notes"],
                        [1, "Vetch 7"],
                        [1, "Vetch 5", "old"],
                        [1, "Tern S2"],
                        [1, "Tern S6"],
                    ]
                }
            )
        )
    )
    page = book.worksheets[0]
    page["B2"].font = page["C3"].font = Font(strike=True)
    page.row_dimensions[4].hidden = True
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def struck(sheet: Sheet) -> list[tuple[int, str]]:
    return [(row.number, cell.text) for row in sheet.rows for cell in row.cells if cell.struck]


def test_what_is_struck_out_or_hidden_is_known() -> None:
    sheet = opened(marked()).sheets[0]
    assert struck(sheet) == [(2, "Vetch 7"), (3, "old")]
    assert [row.number for row in sheet.rows if row.hidden] == [4]


def test_the_same_as_another_library_writes_it_and_words_of_a_cell_struck_out() -> None:
    file = io.BytesIO()
    with xlsxwriter.Workbook(file) as book:
        page, out, bold = (
            book.add_worksheet("A"),
            book.add_format({"font_strikeout": True}),
            book.add_format({"bold": True}),
        )
        page.write_row(0, 0, ["Qty", "Item"], bold)
        page.write(1, 1, "Vetch 7", out)
        page.write_rich_string(2, 1, "Vetch ", out, "5", bold, " 7")
        page.write_blank(3, 1, None, out)
        page.write(4, 1, "Tern S2", bold)
        page.set_row(4, None, None, {"hidden": True})
    sheet = opened(file.getvalue()).sheets[0]
    assert struck(sheet) == [(2, "Vetch 7"), (3, "Vetch 5 7")]
    assert [row.number for row in sheet.rows if row.hidden] == [5]


def test_such_a_row_is_in_doubt_and_a_note_struck_out_is_no_matter() -> None:
    found = take(marked())
    assert lines(found) == [(1, "Vetch 5"), (1, "Tern S6")]
    assert [(told.row, told.says[0].rpartition(": ")[2]) for told in only(found, "doubt")] == [
        (2, "it is struck out in the sheet"),
        (4, "the row is hidden in the sheet"),
    ]
    assert [[each.part for each in told.choices] for told in only(found, "doubt")] == [["Vetch 7"], ["Tern S2"]]


def test_a_workbook_with_no_marks_has_none() -> None:
    sheet = opened(workbook({"Order": [["Item", "Qty"], ["Vetch 7", 1]]})).sheets[0]
    assert (struck(sheet), [row for row in sheet.rows if row.hidden]) == ([], [])
