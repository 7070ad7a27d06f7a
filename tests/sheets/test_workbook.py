"""Workbooks: what is read of them, and which are refused before anything reads them."""

from __future__ import annotations

import io
import zipfile
from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.sheets.cells import SheetError
from kitproof.sheets.opening import opened
from kitproof.sheets.workbook import MOST_UNPACKED, OLD_MARK
from tests.sheets.made import of_texts, part_of, repacked, workbook

SHEET = "xl/worksheets/sheet1.xml"
PLAIN = workbook({"Order": [["Item", "Qty"], ["Vetch 7", 2]]})


def packed(parts: dict[str, bytes]) -> bytes:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as new:
        for name, text in parts.items():
            new.writestr(name, text)
    return file.getvalue()


def test_cells_are_read_as_a_person_sees_them() -> None:
    values = ["  Vetch 7 ", 2, 2.5, 0.1 + 0.2, True, date(2027, 3, 8), datetime(2027, 3, 8, 8, 30), time(8, 0)]
    cells = opened(workbook({"Order": [values]})).sheets[0].rows[0].cells
    assert [cell.text for cell in cells] == [
        "Vetch 7", "2", "2.5", "0.3", "yes", "2027-03-08", "2027-03-08 08:30", "08:00:00"
    ]  # fmt: skip
    assert [cell.number for cell in cells[1:4]] == [2, 2.5, pytest.approx(0.3)]
    assert [cell.day for cell in cells[5:7]] == [date(2027, 3, 8)] * 2


def test_a_length_of_time_is_told_in_hours() -> None:
    assert opened(workbook({"Order": [[timedelta(hours=11)]]})).sheets[0].rows[0].cells[0].text == "11 h"


def test_rows_and_columns_count_from_the_corner_and_not_from_the_first_cell() -> None:
    rows = opened(workbook({"Order": [[], [], [None, "Item"]]})).sheets[0].rows
    assert [(row.number, row.empty) for row in rows] == [(1, True), (2, True), (3, False)]
    assert rows[2].cells[1].text == "Item"


def test_sheets_have_their_names_and_hidden_ones_are_known() -> None:
    found = opened(workbook({"Order": [["a"]], "Prices": [["b"]]}, hidden=["Prices"]))
    assert [(sheet.name, sheet.hidden) for sheet in found.sheets] == [("Order", False), ("Prices", True)]


def test_cells_set_as_one_are_known() -> None:
    found = opened(workbook({"Order": [["A"], [], [], ["b"]]}, merged=["A1:A3"])).sheets[0]
    assert found.merged == ((1, 0, 3, 0),)


def test_a_formula_counts_by_its_saved_result_and_is_never_run() -> None:
    """openpyxl saves a formula with no result; office programs save one, which stands between <v> and </v>."""
    data = workbook({"Order": [["=1+1", "=2+2"]]})
    text = part_of(data, SHEET).replace(b"<f>1+1</f><v></v>", b"<f>1+1</f><v>2</v>")
    text = text.replace(b"<f>1+1</f><v />", b"<f>1+1</f><v>2</v>")
    found = opened(repacked(data, SHEET, text))
    assert [cell.text for cell in found.sheets[0].rows[0].cells] == ["2"]
    assert found.said == (
        "A formula has no result saved and read as empty: B1. Open it in an office program and save it again.",
    )


def test_macros_are_told_and_left_alone() -> None:
    found = opened(repacked(PLAIN, "xl/vbaProject.bin", b"Sub Auto_Open()"))
    assert found.said == ("It has macros; none of them was run.",)


# What is refused


def test_a_small_file_that_unpacks_to_a_huge_one_is_refused() -> None:
    data = packed({"xl/workbook.xml": b"x", SHEET: b"0" * (MOST_UNPACKED + 1)})
    assert len(data) < MOST_UNPACKED / 100
    with pytest.raises(SheetError, match="unpacks to more than 100 million bytes"):
        opened(data)


def test_sizes_that_a_file_gives_are_not_believed() -> None:
    """The true size of a part stands in two places of a zipped file; here both say that it is one byte."""
    data = bytearray(packed({"xl/workbook.xml": b"x", SHEET: b"0" * 100_000}))
    size = (100_000).to_bytes(4, "little")
    assert data.count(size) == 2
    data = bytearray(bytes(data).replace(size, (1).to_bytes(4, "little")))
    with pytest.raises(SheetError, match="damaged"):
        opened(bytes(data))


def test_cells_that_stand_far_out_are_refused_before_room_is_laid_out() -> None:
    text = part_of(PLAIN, SHEET).replace(b'r="B2"', b'r="XFD1048576"')
    with pytest.raises(SheetError, match="1048576 rows and 16384 columns"):
        opened(repacked(PLAIN, SHEET, text))


def test_one_long_text_in_very_many_cells_is_refused() -> None:
    data = of_texts([["long"] * 10] * 1000)
    long = part_of(data, "xl/sharedStrings.xml").replace(b"<t>long</t>", b"<t>" + b"x" * 30_000 + b"</t>")
    with pytest.raises(SheetError, match="more than 200 million characters"):
        opened(repacked(data, "xl/sharedStrings.xml", long))


def test_one_long_text_in_one_cell_among_many_is_read() -> None:
    data = of_texts([["long", *["short"] * 9], *([["short"] * 10] * 1000)])
    long = part_of(data, "xl/sharedStrings.xml").replace(b"<t>long</t>", b"<t>" + b"x" * 30_000 + b"</t>")
    assert len(opened(repacked(data, "xl/sharedStrings.xml", long)).sheets[0].rows[0].cells[0].text) == 30_000


def ods(rows: str) -> bytes:
    space = "urn:oasis:names:tc:opendocument:xmlns:"
    names = f'xmlns:office="{space}office:1.0" xmlns:table="{space}table:1.0" xmlns:text="{space}text:1.0"'
    sheet = f'<table:table table:name="Order">{rows}</table:table>'
    content = f"<office:document-content {names}><office:body><office:spreadsheet>{sheet}</office:spreadsheet>"
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    manifest = '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>'
    whole = f"{content}</office:body></office:document-content>"
    return packed(
        {"mimetype": kind.encode(), "content.xml": whole.encode(), "META-INF/manifest.xml": manifest.encode()}
    )


def ods_row(*texts: str, repeated: int = 1) -> str:
    cells = "".join(
        f'<table:table-cell office:value-type="string"><text:p>{text}</text:p></table:table-cell>' for text in texts
    )
    return f'<table:table-row table:number-rows-repeated="{repeated}">{cells}</table:table-row>'


def test_an_ods_file_is_read_and_empty_rows_to_the_end_of_the_sheet_do_no_harm() -> None:
    empty = '<table:table-row table:number-rows-repeated="1048000"><table:table-cell/></table:table-row>'
    rows = opened(ods(ods_row("Item", "Qty") + ods_row("Vetch 7", "2") + empty)).sheets[0].rows
    assert [[cell.text for cell in row.cells] for row in rows] == [["Item", "Qty"], ["Vetch 7", "2"]]


def test_an_ods_row_repeated_a_million_times_is_refused() -> None:
    with pytest.raises(SheetError, match="reach over 1000000 rows and 8 columns"):
        opened(ods(ods_row(*["x"] * 8, repeated=1_000_000)))


def test_a_protected_workbook_is_told_as_such() -> None:
    """Office programs wrap a protected workbook in a file of the older kind, with a stream of this name."""
    data = OLD_MARK + bytes(504) + "EncryptedPackage".encode("utf-16-le") + bytes(512)
    with pytest.raises(SheetError, match="protected with a password"):
        opened(data)


def test_a_zipped_workbook_with_a_password_is_told_as_such() -> None:
    data = bytearray(PLAIN)
    at = data.find(b"PK\x01\x02")
    while at >= 0:
        data[at + 8] |= 1
        at = data.find(b"PK\x01\x02", at + 4)
    with pytest.raises(SheetError, match="protected with a password"):
        opened(bytes(data))


def test_a_protected_workbook_of_an_older_program_is_told_as_such() -> None:
    """Its first records say what it is, then that what follows is scrambled (kind 2F)."""
    first = b"\x09\x08\x10\x00\x00\x06\x05\x00" + bytes(12)
    data = OLD_MARK + bytes(504) + first + b"\x2f\x00\x02\x00" + bytes(1024)
    with pytest.raises(SheetError, match="protected with a password"):
        opened(data)
    with pytest.raises(SheetError, match="damaged"):
        opened(data.replace(b"\x2f\x00\x02\x00", b"\xe1\x00\x02\x00"))


@pytest.mark.parametrize("data", [PLAIN[:-40], PLAIN[:200], b"PK\x03\x04 and no more", OLD_MARK + b"x" * 2000])
def test_a_damaged_workbook_is_told_as_such(data: bytes) -> None:
    with pytest.raises(SheetError, match="damaged"):
        opened(data)


def test_a_zipped_file_of_another_kind_is_told_as_such() -> None:
    with pytest.raises(SheetError, match="not read here"):
        opened(packed({"word/document.xml": b"<x/>"}))


def test_a_sheet_with_nothing_in_it_is_told_as_such() -> None:
    for data in (b"", b"\n\n,,\n", workbook({"Order": []})):
        with pytest.raises(SheetError, match="It is empty"):
            opened(data)


def told(data: bytes) -> str:
    """What is said of bytes that cannot be read; "" where they can."""
    try:
        return "" if opened(data).sheets else "no sheets"
    except SheetError as trouble:
        return str(trouble)


@given(st.binary(max_size=300), st.sampled_from([b"", b"PK\x03\x04", OLD_MARK]))
def test_any_bytes_are_read_or_told_as_what_they_are(data: bytes, mark: bytes) -> None:
    said = told(mark + data)
    assert not said or said.endswith(".")


@given(st.data())
def test_any_damage_to_a_workbook_is_read_or_told(data: st.DataObject) -> None:
    spoilt = bytearray(PLAIN)
    for _ in range(data.draw(st.integers(1, 4))):
        spoilt[data.draw(st.integers(0, len(spoilt) - 1))] = data.draw(st.integers(0, 255))
    said = told(bytes(spoilt))
    assert not said or said.endswith(".")
