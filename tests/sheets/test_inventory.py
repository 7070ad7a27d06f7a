"""An inventory sheet to readings: what is taken, what is not and why, and that no row goes missing in silence."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.sheets.cells import SheetError
from kitproof.sheets.inventory import Inventory, Stocked, inventory
from kitproof.sheets.matching import Shelf
from kitproof.sheets.opening import opened

HEADINGS = ("Item", "Kind", "Qty", "Weight (kg)", "Payload (kg)", "At height (mm)", "C/B (Nm)", "Steps", "Bowl (mm)")
NOTHING: dict[str, str] = {}


def sheet(*rows: Sequence[str], headings: Sequence[str] = HEADINGS) -> bytes:
    text = io.StringIO()
    csv.writer(text).writerows([headings, *rows])
    return text.getvalue().encode()


def taken(*rows: Sequence[str], headings: Sequence[str] = HEADINGS, book: dict[str, str] = NOTHING) -> Inventory:
    return inventory(opened(sheet(*rows, headings=headings)), {}, Shelf(book))


def said(part: Stocked) -> dict[str, str]:
    return {each.word: each.value for each in part.readings}


def whys(found: Inventory) -> list[str]:
    return [f"{each.row}, {each.column.partition(',')[0]}: {each.why}" for each in found.not_taken]


def test_every_column_that_is_known_is_read_with_its_unit() -> None:
    found = taken(("Tolland 30", "head", "2", "6.4", "30", "150", "4-38", "10", "100"))
    assert found.not_taken == ()
    (part,) = found.parts
    assert (part.label, part.kind_by, part.rows) == ('head "Tolland 30"', 'column B, "Kind"', ("row 2",))
    assert said(part) == {
        "have": "2",
        "mass": "6.4 kg",
        "rated": "30 kg at 150 mm",
        "counterbalance": "4 to 38 N·m, 10 steps",
        "sits on": "bowl 100 mm",
    }
    by_word = {each.word: each.column for each in part.readings}
    assert by_word["rated"] == 'column E, "Payload (kg)", and column F, "At height (mm)"'


def test_what_is_not_taken_says_why() -> None:
    found = taken(
        ("Tolland 30", "head", "some", "6,4", "", "150", "", "10", "tbc"),
        ("Tarn 7", "monitor", "1", "0.8", "", "", "4-38", "", ""),
        ("", "head", "1", "2", "", "", "", "", ""),
        ("grey thing", "", "1", "2", "", "", "", "", ""),
        ("=A1", "head", "1", "2", "", "", "", "", ""),
        ("a \"b' c", "head", "1", "2", "", "", "", "", ""),
    )
    assert whys(found) == [
        "row 2, column C: it should be a whole number, such as 4",
        "row 2, column D: it should be one decimal number, with a point and no comma",
        "row 2, column F: it goes with a load, and none is said",
        "row 2, column H: it goes with a counterbalance, and none is said",
        "row 2, column I: it is not known",
        "row 3, column G: a monitor has no counterbalance",
        "row 4, : it names no part",
        "row 5, : which kind of part it is, is not said: give its kind in a column headed Kind",
        "row 6, : its name is a formula, and formulas are never run",
        "row 7, : a parts book cannot have this name: leave out its quotes and signs",
    ]
    assert [part.name for part in found.parts] == ["Tolland 30", "Tarn 7"]


def test_an_empty_cell_and_a_dash_say_nothing() -> None:
    found = taken(("Tolland 30", "head", "1", "-", "n/a", "", "–", "", ""))
    assert found.not_taken == ()
    assert said(found.parts[0]) == {"have": "1"}


def test_a_kind_comes_from_its_column_else_its_section_or_the_end_of_its_name() -> None:
    found = taken(
        ("HEADS", *[""] * 8),
        ("Tolland 30", "", "1", *[""] * 6),
        ("Mire 9 fluid head", "", "1", *[""] * 6),
        ("Tarn 7", "monitor", "1", *[""] * 6),
        ("Kelby charger", "", "1", *[""] * 6),
        ("Odds and ends", *[""] * 8),
        ("Kelby slow charger", "", "1", *[""] * 6),
        ("Stile 100", "", "1", *[""] * 6),
    )
    assert [(part.name, part.kind, part.kind_by) for part in found.parts] == [
        ("Tolland 30", "head", 'the section "HEADS"'),
        ("Mire 9 fluid head", "head", 'the section "HEADS"'),
        ("Tarn 7", "monitor", 'column B, "Kind"'),
        ("Kelby slow charger", "charger", "the end of its name"),
    ]
    assert [(each.row, each.part) for each in found.not_taken] == [
        ("row 6", "Kelby charger"),
        ("row 7", "Odds and ends"),
        ("row 9", "Stile 100"),
    ]
    assert 'the section "HEADS" says head, and its name charger' in found.not_taken[0].why


def test_a_kind_that_is_not_known_is_said_with_the_nearest() -> None:
    found = taken(("Tarn 7", "montor", "1", *[""] * 6), ("Tarn 5", "stuff", "1", *[""] * 6))
    assert [each.why for each in found.not_taken] == [
        '"montor" is no kind of part that is known, the nearest is monitor: give its kind in a column headed Kind',
        '"stuff" is no kind of part that is known: give its kind in a column headed Kind',
    ]


def test_rows_of_one_part_are_one_part() -> None:
    found = taken(
        ("Tolland 30", "head", "2", "6.4", *[""] * 5),
        ("Tarn 7", "monitor", "1", "0.8", *[""] * 5),
        ("tolland  30", "head", "1", "6.4", *[""] * 5),
        ("Tarn 7", "monitor", "1", "0.9", *[""] * 5),
    )
    first, second = found.parts
    assert said(first) == {"have": "3", "mass": "6.4 kg"}
    assert first.rows == ("row 2", "row 4")
    assert said(second) == {"have": "2"}
    assert whys(found) == [
        "row 3, column D: the rows of this part contradict each other: 0.8 kg, 0.9 kg",
        "row 5, column D: the rows of this part contradict each other: 0.8 kg, 0.9 kg",
    ]


def test_rows_are_counted_where_no_column_counts_them() -> None:
    found = taken(("Tarn 7", "monitor", "A1"), ("Tarn 7", "monitor", "A2"), headings=("Item", "Kind", "Barcode"))
    assert said(found.parts[0]) == {"have": "2"}
    assert found.said == ('Not read, since its heading is not known: column C, "Barcode".',)


def test_one_name_with_two_kinds_is_asked_about() -> None:
    found = taken(("Tarn 7", "monitor", "1", *[""] * 6), ("Tarn 7", "light", "1", *[""] * 6))
    assert [part.kind for part in found.parts] == ["monitor"]
    assert "one of them needs another name" in found.not_taken[0].why


def test_a_part_of_the_book_is_known_by_its_name_also_misspelt() -> None:
    book = {"Tolland 30": "head", "Stile tall 100": "sticks"}
    found = taken(
        ("Toland 30", "", "1", *[""] * 6),
        ("Stile tall 100", "monitor", "1", *[""] * 6),
        ("Tolland 31", "head", "1", *[""] * 6),
        book=book,
    )
    assert [(part.name, part.kind, part.rows) for part in found.parts] == [
        ("Tolland 30", "head", ('row 2, "Toland 30"',)),
        ("Stile tall 100", "sticks", ("row 3",)),
        ("Tolland 31", "head", ("row 4",)),
    ]
    assert whys(found) == ["row 3, column B: the parts book has it as sticks, and that stays"]


def test_three_sides_in_columns_of_their_own_are_a_size() -> None:
    headings = ("Item", "Kind", "Length (cm)", "Width (cm)", "Height (mm)")
    found = taken(("Tarn 7", "monitor", "18", "3", "120"), ("Tarn 5", "monitor", "18", "", "120"), headings=headings)
    assert [said(part) for part in found.parts] == [{"size": "18 cm x 3 cm x 120 mm"}, {"height": "120 mm"}]
    assert whys(found) == ["row 3, column C: a monitor has no length"]


def test_the_ends_of_the_legs_in_columns_of_their_own() -> None:
    headings = ("Item", "Kind", "Min height (mm)", "Max height (mm)")
    found = taken(("Stile", "sticks", "600", "1500"), ("Stile low", "sticks", "", "700"), headings=headings)
    assert said(found.parts[0]) == {"legs": "600 mm to 1500 mm"}
    assert [each.typed for each in found.not_taken] == [", 700"]


def test_columns_that_are_in_doubt_stop_it() -> None:
    with pytest.raises(SheetError, match="could both be how many"):
        taken(("Tarn 7", "1", "2"), headings=("Item", "Qty", "Quantity"))
    with pytest.raises(SheetError, match="headings that are known"):
        taken(("Tarn 7", "1"), headings=("aaa", "bbb"))


WORDS = st.text(st.characters(exclude_categories=("C", "Zl", "Zp")), max_size=6)
CELLS = st.one_of(st.sampled_from(["", "1", "2.5", "head", "30 kg", "tbc", "HEADS", "x", "4-38", '"', "=1"]), WORDS)
ROWS = st.lists(st.lists(CELLS, min_size=9, max_size=9), max_size=8)


@given(ROWS)
def test_no_row_goes_missing_in_silence(rows: list[list[str]]) -> None:
    data = sheet(*rows, ("Tarn 7", "monitor", *[""] * 7))
    workbook = opened(data)
    found = inventory(workbook, {}, Shelf({}))
    told = {row for part in found.parts for row in part.rows} | {each.row for each in found.not_taken}
    for row in workbook.sheets[0].rows[1:]:
        filled = sum(bool(cell.text) for cell in row.cells)
        if filled > 1 and not _is_headings(row.cells[0].text):
            assert f"row {row.number}" in told, row


def _is_headings(text: str) -> bool:
    return text == HEADINGS[0]
