"""What holds of every sheet: no row is left out, no cell becomes a word of the format, and it is the same again."""

from __future__ import annotations

import csv
import io
import re

from hypothesis import given, settings
from hypothesis import strategies as st

from kitproof.mending.layout import neatened
from kitproof.reading.document import Ordered
from kitproof.reading.entries import read
from kitproof.sheets.cells import SheetError
from kitproof.sheets.opening import opened
from kitproof.sheets.taking import taken
from kitproof.sheets.told import Taken
from kitproof.sheets.writing import Named, written
from tests.sheets.made import PARTS, lines, shelf

SHELF = shelf()
NASTY = (
    '"', "'", "#", "# order", '"\norder\n  9 x "Tern S2', "\r\n  1 x Tern", "rig A", "”", "“x", "\u2028use", "=1+1",
    "x" * 300, "\x08", "A & B", "LENSES", "A CAMERA", "Total", "list", "Qty", "Item", "2 x Vetch 7", "7/6/2027",
    "2027-06-07", "\x0b", "\ufeff",
)  # fmt: skip
WORDS = (*PARTS, *NASTY, "", "", "2", "two", "a pair", "tbc", "A", "B", "Bramble head", "Bramble 12 head")
CELLS = st.one_of(
    st.sampled_from(WORDS), st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=12)
)
HEADINGS = ["Qty", "Item", "Notes", "Rig", "Supplier", "Dept", "From", "To"]
COUNTS = st.sampled_from(("1", "2", "two", "x3", "a pair", "4 + 2 spare", "", "tbc", "0"))
NAMES = st.one_of(
    st.sampled_from(sorted(PARTS)), st.sampled_from(("Bramble 12 fluid head", "Bramble head", "2 x Vetch 7"))
)
LIKELY = st.tuples(COUNTS, NAMES, CELLS, st.sampled_from(("A", "B", "", "A & B")), CELLS).map(list)
RIGGED = CELLS.map(lambda rig: [["1", "Tern S2", "", rig], ["1", "Dunlin 50", "", rig]])
"""Two rows that make a rig, whatever it is called."""
FREE = st.lists(st.one_of(LIKELY, st.lists(CELLS, max_size=8)), max_size=12)
ROWS = st.one_of(FREE, st.tuples(RIGGED, FREE).map(lambda both: [*both[0], *both[1]]))


def made(rows: list[list[str]]) -> tuple[Taken, int]:
    """What becomes of rows under these headings, and how many rows there are."""
    file = io.StringIO()
    csv.writer(file, lineterminator="\n").writerows([HEADINGS, *rows])
    workbook = opened(("sep=,\n" + file.getvalue()).encode())
    return taken(workbook, SHELF, {}), len(workbook.sheets[0].rows)


def text_of(found: Taken) -> str:
    return written(found, Named('odd "name".csv', "order", ("stock/house.kitlist",)))


@given(ROWS)
def test_every_row_of_the_sheet_is_told_of(rows: list[list[str]]) -> None:
    found, number = made(rows)
    assert [told.row for told in found.rows] == list(range(1, number + 1))
    text = text_of(found)
    told = {int(each) for each in re.findall(r"# row (\d+)\b", text)}
    assert told == {each.row for each in found.rows if each.became != "empty"}


@given(ROWS)
def test_no_cell_becomes_a_word_of_the_format(rows: list[list[str]]) -> None:
    """The list is read with no slip, and orders just what was taken to be sure."""
    found, _ = made(rows)
    document = read(text_of(found), "order.kitlist")
    assert not document.slips
    assert [slip for entry in document.entries for slip in entry.slips] == []
    ordered = [
        (field.value.count, field.value.name.text)
        for entry in document.entries
        for field in entry.fields
        if isinstance(field.value, Ordered)
    ]
    assert ordered == lines(found)
    assert {entry.kind for entry in document.entries} <= {"list", "use", "order", "rig"}


@given(ROWS)
def test_the_list_is_in_the_canonical_layout(rows: list[list[str]]) -> None:
    text = text_of(made(rows)[0])
    assert neatened(text) == text


@given(ROWS)
def test_the_same_sheet_gives_the_same_list(rows: list[list[str]]) -> None:
    assert text_of(made(rows)[0]) == text_of(made(rows)[0])


@given(st.lists(st.lists(CELLS, min_size=1, max_size=5), min_size=1, max_size=6))
@settings(max_examples=60)
def test_any_sheet_is_taken_or_told_why_not(rows: list[list[str]]) -> None:
    """Whatever stands where the headings should."""
    file = io.StringIO()
    csv.writer(file, lineterminator="\n").writerows(rows)
    try:
        found = taken(opened(file.getvalue().encode()), SHELF, {})
    except SheetError as trouble:
        said = str(trouble)
    else:
        said = text_of(found)
    assert said


@given(st.sampled_from(sorted(PARTS)), st.integers(1, 99), st.sampled_from(["{n}", "x{n}", "{n} no", "{n} x"]))
def test_a_row_that_is_plain_is_written_as_it_says(part: str, number: int, how: str) -> None:
    assert lines(made([[how.format(n=number), part]])[0]) == [(number, part)]
