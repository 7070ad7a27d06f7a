"""What becomes of each row: written where it is sure, in doubt where it is not, and never left out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

import pytest

from kitproof.sheets.cells import Row
from kitproof.sheets.opening import opened
from kitproof.sheets.taking import taken
from kitproof.sheets.told import Choice, Told
from tests.sheets.made import lines, only, shelf, take, workbook

HEAD = "Qty,Item,Notes\n"


def one(text: str) -> Told:
    """The one row under the headings."""
    found = [told for told in take(HEAD + text).rows if told.became != "heading"]
    assert len(found) == 1
    return found[0]


def test_a_sure_row_is_written_with_its_row_and_score() -> None:
    told = one("two,Bramble 12 fluid head,as before\n")
    assert told.line is not None
    assert (told.row, told.line.count, told.line.part, told.line.score) == (2, 2, "Bramble 12", 100)
    assert (told.line.typed, told.says) == ("Bramble 12 fluid head", ('note "as before"',))


@pytest.mark.parametrize(
    ("text", "said", "choices"),
    [
        ("2,Bramble head,", 'which part it is, is not sure', ["Bramble 12", "Bramble 18"]),
        ("2,gaffer tape,", "no part has a name like it", []),
        (",Vetch 7,", "no count is said", ["Vetch 7"]),
        ("tbc,Vetch 7,", '"tbc" is no count', ["Vetch 7"]),
        ("=2+1,Vetch 7,", "formulas are never run", ["Vetch 7"]),
        ("3,2 x Vetch 7,", "say different numbers", ["Vetch 7"]),
        ("a pair,Teasel 15 mm rods 450,", "is a pair itself: are 1 or 2 wanted", ["Teasel 15 mm rods 450"] * 2),
        ("2,=1+1,", "no part has a name like it", []),
        ("2,,the blue one", "what it is, is not said", []),
    ],
)  # fmt: skip
def test_a_doubtful_row_says_why_and_what_may_be_meant(text: str, said: str, choices: list[str]) -> None:
    told = one(f"{text}\n")
    assert (told.became, told.line) == ("doubt", None)
    assert said in told.says[0]
    assert [each.part for each in told.choices][: len(choices)] == choices


def test_choices_have_the_count_that_is_known_and_no_other() -> None:
    assert {each.count for each in one("4,Bramble head,\n").choices} == {4}
    assert {each.count for each in one("tbc,Vetch 7,\n").choices} == {0}
    assert one("a pair,Teasel 15 mm rods 450,\n").choices == (
        Choice("Teasel 15 mm rods 450", 1, 100),
        Choice("Teasel 15 mm rods 450", 2, 100),
    )


def test_a_pair_of_what_is_no_pair_is_two() -> None:
    assert lines(take(HEAD + "a pair,Sorrel 98,\n")) == [(2, "Sorrel 98")]


def test_a_count_may_stand_in_the_name() -> None:
    text = HEAD + ",2 x Vetch 7,\n2,2 x Vetch 7,\n,a pair of Sorrel 98,\n,3 Bramble 12,\n"
    assert lines(take(text)) == [(2, "Vetch 7"), (2, "Vetch 7"), (2, "Sorrel 98"), (3, "Bramble 12")]


def test_where_no_column_counts_a_name_is_one_as_in_a_list() -> None:
    assert lines(take("Item,Note\nVetch 7,\n2 x Vetch 5,\n")) == [(1, "Vetch 7"), (2, "Vetch 5")]


def test_what_is_not_wanted_is_told_and_not_written() -> None:
    found = take(HEAD + "0,Vetch 7,\nnil,gaffer tape,\n")
    assert (lines(found), [told.row for told in only(found, "not wanted")]) == ([], [2, 3])


def test_sections_stand_over_what_follows() -> None:
    found = take("Qty,Item,Supplier\n,LENSES,\n1,Dunlin 50,\n,A CAMERA,\n1,Tern S2,\n,Power:,\n2,Sorrel 98,\n")
    groups = [(told.group.section, told.line.rig) for told in found.rows if told.line is not None]
    assert groups == [("LENSES", ""), ("A CAMERA", "A"), ("Power:", "")]


def test_a_part_alone_on_a_row_is_no_section() -> None:
    found = take("Item,Qty\nVETCH SEVEN,\nTERN S2,\n")
    assert [told.became for told in found.rows] == ["heading", "section", "doubt"]


def test_totals_and_words_beside_the_list_are_told_and_are_no_doubt() -> None:
    found = take(HEAD + "7,Total,\n7,,Total\n,,please ring the bell\n")
    assert [told.says for told in only(found, "beside")] == [
        ('"7"', '"Total"'),
        ('"7"', '"Total"'),
        ('"please ring the bell"',),
    ]


def test_days_are_taken_where_they_are_certain() -> None:
    found = take("Qty,Item,From,To\n1,Vetch 7,2027-06-07,2027-06-25\n1,Vetch 5,7/6/2027,soon\n")
    first, second = only(found, "line")
    assert first.group.days == (date(2027, 6, 7), date(2027, 6, 25))
    assert (second.group.days, second.says) == (None, ('from "7/6/2027"', 'until "soon"'))


def test_a_number_of_days_is_kept_in_words() -> None:
    told = only(take("Qty,Item,Days\n1,Vetch 7,4\n"), "line")[0]
    assert (told.group.days, told.says) == (None, ('days "4"',))


def test_a_number_of_days_that_the_sheet_s_days_come_to_says_nothing_more() -> None:
    found = take("Dates:,2027-06-07 to 2027-06-10\nQty,Item,Days\n1,Vetch 7,4\n1,Vetch 5,3\n")
    assert [told.says for told in only(found, "line")] == [(), ('days "3"',)]


def test_the_maker_may_have_a_column() -> None:
    found = take("Qty,Make,Model\n1,Vetch,7\n1,Tern,Tern S2\n1,,Dunlin 50\n")
    assert lines(found) == [(1, "Vetch 7"), (1, "Tern S2"), (1, "Dunlin 50")]


def test_a_cell_for_the_rig_set_over_several_rows_holds_for_all_of_them() -> None:
    rows: list[list[Any]] = [["Rig", "Qty", "Item"], ["A", 1, "Tern S2"], [None, 1, "Bramble 12"], [None, 1, "Vetch 7"]]
    found = take(workbook({"Order": rows}, merged=["A2:A3"]))
    assert [told.line.rig for told in found.rows if told.line is not None] == ["A", "A", ""]


def test_a_cell_that_names_several_rigs_is_kept_in_words() -> None:
    told = only(take("Rig,Qty,Item\nA & B,2,Tern S2\n"), "line")[0]
    assert told.line is not None
    assert (told.line.rig, told.says) == ("", ('rig "A & B"',))


def test_several_sheets_are_read_and_rows_say_of_which_they_are() -> None:
    data = workbook(
        {"Camera": [["Item", "Qty"], ["Tern S2", 1]], "Terms": [["Sign here"]], "Prices": [["x"], ["y"]]},
        hidden=["Prices"],
    )
    found = take(data)
    assert [told.label for told in found.rows] == ['"Camera" row 1', '"Camera" row 2', '"Terms" row 1']
    assert found.warnings == ('The sheet "Prices" is hidden and was not read: 2 rows. Show it to have it read.',)


def test_which_columns_hold_what_is_said_and_which_are_not_read() -> None:
    assert take("Qty,Item,Price\n1,Vetch 7,40\n").said == (
        'Columns by row 1: how many in "Qty", what it is in "Item". Not read: "Price".',
    )


def test_how_days_in_figures_are_read_is_said() -> None:
    assert take("Qty,Item,From\n1,Vetch 7,25/6/2027\n").said[1] == (
        'Days in figures are read with the day first: "25/6/2027" can be nothing else.'
    )


def test_every_row_is_gone_through_where_it_can_be_seen_how_far_it_is() -> None:
    seen: list[Row] = []

    def watched(rows: Sequence[Row]) -> Iterator[Row]:
        for row in rows:
            seen.append(row)
            yield row

    found = taken(opened(b"Qty,Item\n1,Vetch 7\n"), shelf(), {}, watched)
    assert [row.number for row in seen] == [told.row for told in found.rows] == [1, 2]
