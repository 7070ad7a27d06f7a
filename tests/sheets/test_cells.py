"""Cells, rows and the names of columns."""

from __future__ import annotations

import pytest

from kitproof.sheets.cells import EMPTY, Cell, Row, letters


@pytest.mark.parametrize(
    ("column", "name"), [(0, "A"), (25, "Z"), (26, "AA"), (701, "ZZ"), (702, "AAA"), (16383, "XFD")]
)
def test_columns_have_the_letters_that_a_spreadsheet_program_shows(column: int, name: str) -> None:
    assert letters(column) == name


def test_a_row_ends_in_empty_cells() -> None:
    row = Row(4, (Cell("Vetch 7"),))
    assert [row.at(0).text, row.at(7), row.at(None)] == ["Vetch 7", EMPTY, EMPTY]
    assert not row.empty
    assert Row(5, (EMPTY, EMPTY)).empty
