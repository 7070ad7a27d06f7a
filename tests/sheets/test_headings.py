"""Headings: on any row, in any words, and asked about where two columns could be one thing."""

from __future__ import annotations

import pytest

from kitproof.sheets.cells import SheetError
from kitproof.sheets.column_words import ORDER
from kitproof.sheets.headings import Headings, HeadingWords, heading_rows, headings_of, key
from tests.sheets.made import sheet


def rows(text: str, **said: str) -> list[int]:
    return [row.number for row in heading_rows(sheet(text), ORDER, "name", said)]


def columns(text: str, **said: str) -> dict[str, str]:
    found = headings(text, **said)
    return {name: column.heading for name, column in found.columns.items()}


def headings(text: str, **said: str) -> Headings:
    whole = sheet(text)
    row = heading_rows(whole, ORDER, "name", said)[0]
    return headings_of(row, whole.rows[row.number :], ORDER, said)


def test_headings_may_stand_on_any_row() -> None:
    assert rows("An order\n\nfor,somebody\nQty,Item\n2,Vetch 7\n") == [4]


def test_headings_said_again_further_down_count_again() -> None:
    assert rows("Qty,Item,Note\n2,Vetch 7,\n,,\nQty,Item,Note\n1,Vetch 5,\n") == [1, 4]


def test_a_line_that_lists_something_is_no_row_of_headings() -> None:
    assert rows("Qty,Item,Case\n2,Kit bag,Case 3\none,Part box,Box\n") == [1]


def test_one_heading_alone_is_enough_only_where_nothing_stands_beside_it() -> None:
    assert rows("Equipment\nVetch 7\n") == [1]
    assert rows("Equipment,blue\nVetch 7,red\n") == []


def test_a_row_with_a_figure_in_it_is_none_of_headings() -> None:
    assert rows("Item,Case,2\nItem,Qty\nVetch 7,1\n") == [2]


@pytest.mark.parametrize(
    "heading", ["Qty", "QTY.", "Quantity", "qty (pcs)", "Qty required", "How many?", "No. of", "Pcs"]
)
def test_how_many_is_known_by_many_words(heading: str) -> None:
    assert columns(f"{heading},Item\n2,Vetch 7\n") == {"count": heading, "name": "Item"}


def test_a_surer_word_goes_before_one_that_may_mean_it() -> None:
    assert columns("No.,Qty,Item\n1,2,Vetch 7\n2,2,Vetch 5\n")["count"] == "Qty"


def test_a_column_of_figures_is_not_what_it_is() -> None:
    assert columns("Item,Description,Qty\n1,Vetch 7,2\n2,Vetch 5,2\n")["name"] == "Description"


def test_two_columns_that_could_both_be_the_count_are_asked_about() -> None:
    text = "Item,Qty out,Qty back\nVetch 7,2,\n"
    with pytest.raises(SheetError) as trouble:
        headings(text)
    assert str(trouble.value) == (
        'Row 1 has headings that could both be how many: column B, "Qty out" and column C, "Qty back". '
        'Say which: --column count="Qty out"'
    )
    assert columns(text, count="qty OUT")["count"] == "Qty out"
    assert columns(text, count="C")["count"] == "Qty back"


def test_two_columns_of_one_heading_are_told_apart_by_their_letters() -> None:
    text = "Item,Qty,Qty\nVetch 7,2,\n"
    with pytest.raises(SheetError, match="or by its letter: --column count=B"):
        headings(text)
    with pytest.raises(SheetError, match="More than one column is headed"):
        headings(text, count="Qty")
    assert headings(text, count="C").at("count") == 2


def test_a_column_that_counts_up_is_asked_about() -> None:
    """It may number the lines, or these are the counts."""
    text = "No,Item\n1,Vetch 7\n2,Vetch 5\n3,Tern S2\n"
    with pytest.raises(SheetError, match="could be how many or only number the lines"):
        headings(text)
    assert "count" not in columns(text, count="none")
    assert columns(text, count="No")["count"] == "No"


def test_one_figure_alone_does_not_count_up() -> None:
    assert columns("No,Item\n4,Vetch 7\n")["count"] == "No"


def test_a_count_is_not_asked_about_because_it_happens_to_count_up() -> None:
    assert columns("Qty,Item\n1,Vetch 7\n2,Vetch 5\n")["count"] == "Qty"


def test_what_was_said_of_columns_must_be_there() -> None:
    text = "Item,Qty\nVetch 7,2\n"
    with pytest.raises(SheetError, match=r'headed "Number"\. The headings are "Item" \(A\), "Qty" \(B\)'):
        headings(text, count="Number")
    with pytest.raises(SheetError, match=r'No column holds "cuont": .* The nearest is "count"'):
        headings(text, cuont="Qty")


def test_what_a_person_says_makes_a_row_of_headings_known() -> None:
    text = "Menge,Ding\n2,Vetch 7\n"
    assert rows(text) == []
    assert rows(text, name="Ding", count="Menge") == [1]


def test_columns_that_hold_nothing_known_are_kept_by_their_headings() -> None:
    assert [each.heading for each in headings("Qty,Item,Price\n2,Vetch 7,40\n").others] == ["Price"]


def test_every_word_of_the_tables_is_written_as_it_is_compared() -> None:
    """Else it would never be found."""
    words = [word for role in ORDER for word in (*role.sure, *role.maybe)]
    assert [word for word in words if (key(word) or word) != word] == []


def test_a_word_of_the_tables_means_one_thing_for_sure() -> None:
    known = HeadingWords(ORDER)
    sure = {word: [name for sure, name in known.roles(word) if sure == 0] for role in ORDER for word in role.sure}
    assert {word: names for word, names in sure.items() if len(names) != 1} == {}
