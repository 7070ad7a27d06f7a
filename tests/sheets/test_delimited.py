"""CSV files as programs write them, in any encoding and with anything between the cells."""

from __future__ import annotations

import codecs
import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.sheets.cells import SheetError
from kitproof.sheets.delimited import DELIMITERS, read_delimited

ROWS = [["Qty", "Item", "Note"], ["2", "Vetch 7, black", 'has a "cap"'], [], ["1", "Dunlin 50; used", "a|b"]]


def texts(data: bytes) -> list[list[str]]:
    return [[cell.text for cell in row.cells] for row in read_delimited(data).sheets[0].rows]


def as_csv(rows: list[list[str]], delimiter: str, end: str = "\n") -> str:
    file = io.StringIO()
    csv.writer(file, delimiter=delimiter, lineterminator=end).writerows(rows)
    return file.getvalue()


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("delimiter", DELIMITERS)
def test_whatever_parts_the_cells_is_found_out(delimiter: str, end: str) -> None:
    assert texts(as_csv(ROWS, delimiter, end).encode()) == ROWS


def test_a_comma_inside_numbers_is_not_what_parts_the_cells() -> None:
    assert texts(b"Item;Price;Qty\nVetch 7;1,5;2\nVetch 5;1,25;1\n")[1] == ["Vetch 7", "1,5", "2"]


def test_a_first_line_may_say_what_parts_the_cells() -> None:
    assert texts(b"sep=|\na,b|c,d\ne,f|g,h\n")[1] == ["a,b", "c,d"]


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (codecs.BOM_UTF8 + "Größe,2\n".encode(), 0),
        (codecs.BOM_UTF16_LE + "Größe,2\n".encode("utf-16-le"), 0),
        (codecs.BOM_UTF16_BE + "Größe,2\n".encode("utf-16-be"), 0),
        ("Größe,2\n".encode(), 0),
        ("Größe,2\n".encode("cp1252"), 1),
    ],
    ids=["mark", "utf-16-le", "utf-16-be", "utf-8", "cp1252"],
)
def test_the_encoding_is_found_out_and_an_old_one_is_said(data: bytes, said: int) -> None:
    found = read_delimited(data)
    assert found.sheets[0].rows[0].cells[0].text == "Größe"
    assert [("cp1252" in each) for each in found.said] == [True] * said


def test_rows_are_numbered_as_a_spreadsheet_program_shows_them() -> None:
    rows = read_delimited(b'a,"two\nlines"\n\nb,c\n').sheets[0].rows
    assert [(row.number, row.empty) for row in rows] == [(1, False), (2, True), (3, False)]
    assert rows[0].cells[1].words == "two lines"


def test_a_quote_that_is_never_closed_is_told_with_its_row() -> None:
    for text in (b'Item,Qty\nVetch 7,1\n"Vetch 5,2\nx,3\n', b'a,1\n"Vetch" 7,2\n"Vetch 5,2\nx,3\n'):
        with pytest.raises(SheetError, match=r"in row 3 and never closed|in row 3"):
            read_delimited(text)


def test_inch_marks_and_quotes_within_a_cell_are_no_fault() -> None:
    assert texts(b'5" monitor,2\n7" monitor,1\n') == [['5" monitor', "2"], ['7" monitor', "1"]]
    found = read_delimited(b'"Vetch" 7,2\nVetch 5,1\n')
    assert [row.cells[1].text for row in found.sheets[0].rows] == ["2", "1"]
    assert "quotes" in found.said[0]


def test_what_is_no_text_is_refused() -> None:
    with pytest.raises(SheetError, match="neither a text of cells nor a workbook"):
        read_delimited(b"\x00\x01\x02\x03")


@given(
    st.lists(st.lists(st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=8), min_size=2), min_size=1),
    st.sampled_from(sorted(DELIMITERS)),
)
def test_what_a_general_library_writes_is_read_again(rows: list[list[str]], delimiter: str) -> None:
    text = f"sep={delimiter}\n" + as_csv(rows, delimiter)
    assert texts(text.encode())[1:] == [[cell.strip() for cell in row] for row in rows]
