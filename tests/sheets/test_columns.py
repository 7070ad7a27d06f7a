"""Which columns hold for which rows, over several sheets and with no headings at all."""

from __future__ import annotations

import pytest

from kitproof.sheets.cells import SheetError
from kitproof.sheets.columns import Layout, layouts
from kitproof.sheets.opening import opened
from tests.sheets.made import workbook


def found(data: bytes, **said: str) -> list[Layout]:
    return layouts(opened(data), said)


def test_each_sheet_has_its_own_headings_and_hidden_ones_none() -> None:
    data = workbook(
        {"Camera": [["Item", "Qty"], ["a", 1]], "Lenses": [["Qty", "Description"], [1, "b"]], "Prices": [["Item"]]},
        hidden=["Prices"],
    )
    assert [each.headings[1].at("name") for each in found(data)] == [0, 1]


def test_a_sheet_with_no_headings_beside_one_that_has_them_has_no_columns() -> None:
    data = workbook({"Order": [["Item", "Qty"], ["a", 1]], "Terms": [["Sign here"]]})
    assert [dict(each.headings) == {} for each in found(data)] == [False, True]


def test_what_is_said_holds_wherever_the_heading_stands() -> None:
    data = workbook({"One": [["Item", "Out", "Back"], ["a", 1]], "Two": [["Item", "Qty"], ["b", 1]]})
    assert [each.headings[1].at("count") for each in found(data, count="Out")] == [1, 1]
    with pytest.raises(SheetError, match='headed "Nowhere"'):
        found(data, count="Nowhere")


def test_no_heading_that_is_known_is_told_with_what_stands_there() -> None:
    with pytest.raises(SheetError) as trouble:
        found(b"\nVetch 7,2\n")
    assert str(trouble.value) == (
        'No row of it has headings that are known, such as "Item" and "Qty". Row 2 has "Vetch 7" (A), "2" (B). '
        "Say which columns they are: --column name=B --column count=A"
    )


def test_columns_without_headings_may_be_named_by_their_letters() -> None:
    layout = found(b"2,Vetch 7\n1,Vetch 5\n", name="b", count="A")[0]
    assert {name: column.at for name, column in layout.headings[0].columns.items()} == {"name": 1, "count": 0}
    assert layout.above == ()


def test_what_stands_above_the_headings_is_known() -> None:
    assert [row.number for row in found(b"a,b\n\nItem,Qty\nc,1\n")[0].above] == [1, 2]
