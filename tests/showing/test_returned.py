"""The sender's sheet with remarks beside its rows, read back by a reader of another make: nothing is lost or run."""

from __future__ import annotations

import csv
import io
import re
import warnings
import zipfile
from collections.abc import Sequence
from typing import Any

import openpyxl
import pytest
import python_calamine
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill

from kitproof.sheets.cells import SheetError
from kitproof.sheets.delimited import records
from kitproof.sheets.row_marks import RowOf
from kitproof.showing.remarks import COLUMNS, Remark
from kitproof.showing.returned import (
    LONGEST_CELL,
    RESULTS,
    as_text,
    cells_of,
    csv_returned,
    in_rows,
    is_formula,
    workbook_returned,
)

SUMMARY = ["a.kitlist: Pier", "1 remarks: 1 WRONG."]


def order() -> Any:
    """A sender's workbook with all sorts of things in it."""
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Camera"
    for row in (["Pier, B unit"], [], ["Qty", "Item", "Sum"], [1, "Tolland 30", "=A4*2"], [2, "Tarn 7", None]):
        sheet.append(row)
    sheet.merge_cells("A1:D1")
    sheet["A1"].font = Font(bold=True, size=18)
    sheet["B4"].fill = PatternFill("solid", fgColor="FFCC00")
    sheet["B5"].comment = Comment("as last time", "them")
    sheet["B5"].number_format = "0.00"
    sheet.freeze_panes = "A4"
    sheet.column_dimensions["B"].width = 33
    book.create_sheet("Contacts")["A1"] = "the office"
    return book


def packed(book: Any) -> bytes:
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def remark(row: int | None, says: str = "It is too heavy.", tab: str = "Camera", grade: str = "WRONG") -> Remark:
    return Remark(None if row is None else RowOf(tab, row), grade, says, "Take another.")


def returned(*remarks: Remark, data: bytes | None = None) -> tuple[bytes, list[str]]:
    return workbook_returned(data or packed(order()), {"Camera": 3}, remarks, SUMMARY, macros=False)


def read_back(data: bytes) -> dict[str, list[list[Any]]]:
    book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
    return {name: book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names}


def every_text(sheets: dict[str, list[list[Any]]]) -> list[str]:
    return [str(cell) for rows in sheets.values() for row in rows for cell in row if cell != ""]


def formulas(data: bytes) -> list[str]:
    with zipfile.ZipFile(io.BytesIO(data)) as parts:
        sheets = [parts.read(name).decode() for name in parts.namelist() if "worksheets/sheet" in name]
    return [found for text in sheets for found in re.findall(r"<f[ >].*?</f>", text)]


# A workbook


def test_remarks_stand_beside_their_rows_and_others_on_a_sheet_of_their_own() -> None:
    copy, said = returned(remark(4), remark(4, "It tilts."), remark(None, "No slide."), remark(5, grade="WATCH"))
    sheets = read_back(copy)
    assert said == [RESULTS]
    assert list(sheets) == ["Camera", "Contacts", "Proof"]
    camera = sheets["Camera"]
    assert tuple(camera[2][4:]) == COLUMNS
    assert camera[3][4:] == [
        "WRONG",
        "1. WRONG: It is too heavy.\n2. WRONG: It tilts.",
        "1. Take another.\n2. Take another.",
    ]
    assert camera[4][4:] == ["WATCH", "WATCH: It is too heavy.", "Take another."]
    assert sheets["Proof"][0][0] == SUMMARY[0]
    assert sheets["Proof"][3][:3] == list(COLUMNS)
    assert sheets["Proof"][4][:3] == ["WRONG", "No slide.", "Take another."]


def test_all_of_the_sender_s_stands_as_it_was() -> None:
    data = packed(order())
    copy, _ = returned(remark(4), data=data)
    was, now = openpyxl.load_workbook(io.BytesIO(data)), openpyxl.load_workbook(io.BytesIO(copy))
    for sheet in was.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                same = now[sheet.title][cell.coordinate]
                assert (same.value, same.data_type, same.number_format) == (
                    cell.value,
                    cell.data_type,
                    cell.number_format,
                )
                assert repr((same.font, same.fill, same.alignment)) == repr((cell.font, cell.fill, cell.alignment))
    camera = now["Camera"]
    assert str(camera.merged_cells) == "A1:D1"
    assert camera["B5"].comment.text == "as last time"
    assert (camera.freeze_panes, camera.column_dimensions["B"].width) == ("A4", 33)
    assert formulas(copy) == formulas(data) == ["<f>A4*2</f>"]


NASTY = ["=1+1", "+A1", "-A1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("x")', "'=1", "=cmd|' /C calc'!A0"]


@pytest.mark.parametrize("text", NASTY)
def test_what_is_written_is_never_a_formula(text: str) -> None:
    data = packed(order())
    copy, _ = workbook_returned(data, {"Camera": 3}, [Remark(None, text, text, text)], [text, *SUMMARY], macros=False)
    assert formulas(copy) == formulas(data)
    own = openpyxl.load_workbook(io.BytesIO(copy))["Proof"]
    written = [cell for row in own.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in written} == {"s"}
    assert all(cell.quotePrefix for cell in written)
    assert not any(is_formula(cell.value) for cell in written)


TEXTS = st.text(max_size=20).map(lambda each: f"{each}.")
REMARKS = st.lists(
    st.builds(
        Remark,
        st.one_of(st.none(), st.builds(RowOf, st.sampled_from(["Camera", "Contacts", "gone", ""]), st.integers(0, 9))),
        st.sampled_from(["STOP", "ASK"]),
        TEXTS,
        TEXTS,
    ),
    max_size=6,
)


def _told(text: str) -> str:
    """A text as a reader gives it: controls are spaces, and line ends are all alike."""
    return " ".join(re.sub("[\x00-\x1f\x7f\ud800-\udfff\ufffe\uffff]", " ", text).split())


@settings(max_examples=40)
@given(REMARKS)
def test_no_remark_is_dropped_whatever_it_says_and_wherever_it_belongs(found: list[Remark]) -> None:
    copy, _ = returned(*found)
    told = [_told(each) for each in every_text(read_back(copy))]
    whole = "\n".join(told)
    assert all(_told(each.says) in whole and _told(each.do) in whole for each in found)
    rows, others = in_rows(found, {"Camera": 9, "Contacts": 9})
    assert sum(map(len, rows.values())) + len(others) == len(found)


def test_more_than_a_cell_takes_goes_to_the_end() -> None:
    long = [remark(4, f"{number} {'x' * (LONGEST_CELL // 3)}") for number in range(5)]
    copy, _ = returned(*long)
    sheets = read_back(copy)
    assert max(len(each) for each in every_text(sheets)) <= 32_767
    assert all(any(each.says in text for text in every_text(sheets)) for each in long)
    assert len(sheets["Proof"]) > len(SUMMARY) + 2


def test_a_sheet_of_the_sender_s_keeps_its_name() -> None:
    book = order()
    book.create_sheet("Proof")["A1"] = "of the title"
    sheets = read_back(returned(remark(None), data=packed(book))[0])
    assert sheets["Proof"] == [["of the title"]]
    assert sheets["Proof1"][0][0] == SUMMARY[0]


def test_a_row_coloured_to_its_end_does_not_put_remarks_out_of_sight() -> None:
    book = order()
    book["Camera"].cell(4, 16_384).fill = PatternFill("solid", fgColor="FFCC00")
    assert read_back(returned(remark(4), data=packed(book))[0])["Camera"][3][4] == "WRONG"


MACROS = b'<Override PartName="/xl/vbaProject.bin" ContentType="application/vnd.ms-office.vbaProject"/>'


def with_macros() -> bytes:
    """A workbook with macros: the part that holds them, and what says so."""
    was = io.BytesIO(packed(order()))
    made = io.BytesIO()
    with zipfile.ZipFile(was) as old, zipfile.ZipFile(made, "w") as new:
        for name in old.namelist():
            text = old.read(name)
            if name == "[Content_Types].xml":
                text = (
                    text.replace(b"spreadsheetml.sheet.main+xml", b"ms-excel.sheet.macroEnabled.main+xml")
                    .replace(b"openxmlformats-officedocument.ms-excel", b"ms-excel")
                    .replace(
                        b"</Types>",
                        MACROS + b"</Types>",
                    )
                )
            new.writestr(name, text)
        new.writestr("xl/vbaProject.bin", b"\xd0\xcf\x11\xe0 what macros there are")
    return made.getvalue()


@pytest.mark.parametrize("kept", [True, False])
def test_macros_are_kept_as_they_are_or_left_out_and_it_is_said(kept: bool) -> None:
    data = with_macros()
    copy, said = workbook_returned(data, {"Camera": 3}, [remark(4)], SUMMARY, macros=kept)
    with zipfile.ZipFile(io.BytesIO(copy)) as parts:
        macros = [parts.read(name) for name in parts.namelist() if name.endswith("vbaProject.bin")]
    assert macros == ([b"\xd0\xcf\x11\xe0 what macros there are"] if kept else [])
    words = "Its macros are kept, and none was run." if kept else "Its macros are left out of the copy."
    assert words in said


def test_what_the_copy_has_less_of_is_said() -> None:
    data = io.BytesIO(packed(order()))
    with zipfile.ZipFile(data, "a") as parts:
        parts.writestr("xl/ctrlProps/ctrlProp1.xml", "<x/>")
    assert returned(remark(4), data=data.getvalue())[1] == [RESULTS, "The copy is without buttons and boxes."]


EXTENSION = (
    b'<extLst><ext uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}"'
    b' xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:dataValidations/></ext></extLst>'
)


def test_what_the_reading_of_it_leaves_out_is_said_and_not_warned_of() -> None:
    data = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(packed(order()))) as was, zipfile.ZipFile(data, "w") as now:
        for name in was.namelist():
            end = b"</worksheet>"
            now.writestr(
                name, was.read(name).replace(end, EXTENSION + end) if name.endswith("sheet1.xml") else was.read(name)
            )
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        said = returned(remark(4), data=data.getvalue())[1]
    assert said == ["The copy is without some lists to choose from in cells.", RESULTS]


def test_remarks_are_not_put_out_of_sight() -> None:
    book = order()
    book["Camera"].column_dimensions.group("E", "XFD", hidden=True)
    book["Camera"].row_dimensions[4].hidden = True
    copy = openpyxl.load_workbook(io.BytesIO(returned(remark(4), data=packed(book))[0]))["Camera"]
    assert not copy.row_dimensions[4].hidden
    assert not any(each.hidden and each.min <= 7 and each.max >= 5 for each in copy.column_dimensions.values())


@pytest.mark.parametrize("data", [b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 old", b"PK\x03\x04 broken", b""])
def test_what_no_copy_can_be_made_of_says_so(data: bytes) -> None:
    with pytest.raises(SheetError, match="made of XLSX and CSV only"):
        workbook_returned(data, {}, [], SUMMARY, macros=False)


def test_a_workbook_that_cannot_be_read_says_so() -> None:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as parts:
        parts.writestr("xl/workbook.xml", "<x/>")
    with pytest.raises(SheetError, match="cannot be copied with its formatting"):
        workbook_returned(data.getvalue(), {}, [], SUMMARY, macros=False)


# A CSV file


def cells(data: bytes, delimiter: str, encoding: str = "utf-8") -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode(encoding), newline=""), delimiter=delimiter))


CSV = 'Pier;;\r\nQty;Item;Note\r\n1;"Tolland; 30"\r\n2;Tarn 7;"two\r\nlines"'


def test_a_csv_gets_three_columns_more_and_is_else_as_it_was() -> None:
    found = [remark(3, tab=""), remark(None, "No slide."), remark(99, "Gone.", tab="")]
    copy = csv_returned(records(CSV.encode()), 2, found, SUMMARY)
    assert [row[:3] for row in cells(copy, ";")[:4]] == [
        *cells(CSV.encode(), ";")[:2],
        ["1", "Tolland; 30", ""],
        ["2", "Tarn 7", "two\r\nlines"],
    ]
    rows = cells(copy, ";")
    assert tuple(rows[1][3:]) == COLUMNS
    assert rows[2][3:] == ["WRONG", "WRONG: It is too heavy.", "Take another."]
    assert [row[0] for row in rows[5:7]] == SUMMARY
    assert [row[1] for row in rows[8:]] == ["No slide.", "Gone."]
    for line in CSV.split("\r\n"):
        assert line.encode() in copy


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_csv_comes_back_in_its_own_letters(encoding: str) -> None:
    copy = csv_returned(records("Qty,Item\n1,Café \n".encode(encoding)), 1, [remark(2, "30°", "")], [])
    rows = list(csv.reader(io.StringIO(copy.decode(encoding), newline="")))
    assert rows[1] == ["1", "Café ", "WRONG", "WRONG: 30°", "Take another."]


ODD = st.text(st.sampled_from('a" \n1é'), max_size=4)


@given(
    st.lists(st.lists(ODD, min_size=2, max_size=4), min_size=2, max_size=5),
    st.lists(st.tuples(st.one_of(st.none(), st.integers(0, 7)), TEXTS), max_size=4),
)
def test_no_remark_is_dropped_from_a_csv_and_no_cell_of_the_sender_s(
    rows: list[list[str]], says: Sequence[tuple[int | None, str]]
) -> None:
    written = io.StringIO()
    csv.writer(written).writerows(rows)
    found = [remark(row, text, "") for row, text in says]
    made = records(written.getvalue().encode())
    copy = csv_returned(made, 1, found, SUMMARY)
    back = cells(copy, made.delimiter)
    for was, now in zip(made.rows, back, strict=False):
        assert tuple(now[: len(was.cells)]) == was.cells
    whole = "\n".join(_told(cell) for row in back for cell in row)
    assert all(_told(text) in whole for _, text in says)


@pytest.mark.parametrize("cell", ["=1+1", "@SUM(A1)", "+A1", "-2+3+cmd|' /C calc'!A0", "- 2 x Tarn 7", "\t=1"])
def test_a_cell_that_would_be_a_formula_stops_it(cell: str) -> None:
    text = io.StringIO()
    csv.writer(text).writerows([["Qty", "Item"], ["1", cell]])
    with pytest.raises(SheetError, match=r"take cells for formulas and run them: B2 \("):
        csv_returned(records(text.getvalue().encode()), 1, [], SUMMARY)


@pytest.mark.parametrize("cell", ["-5", "+44 20 555", "-", "--", "-5 %", "5-3", "a=b"])
def test_a_number_with_a_sign_is_no_formula(cell: str) -> None:
    assert not is_formula(cell)


@given(st.text())
def test_no_text_that_is_written_is_a_formula(text: str) -> None:
    assert not is_formula(as_text(text))
    assert not as_text(text).startswith(("=", "+", "-", "@", "\t", "\r"))


def test_one_remark_has_no_number() -> None:
    assert cells_of([remark(4)]) == ("WRONG", "WRONG: It is too heavy.", "Take another.")
