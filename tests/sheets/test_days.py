"""Days as people write them; one that can be read in two ways is taken only where its sheet shows how."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitproof.sheets.cells import Cell
from kitproof.sheets.days import DayReader

FIRST, LAST = date(2027, 6, 7), date(2027, 6, 25)


@pytest.mark.parametrize(
    "text",
    ["2027-06-25", "2027/6/25", "25/6/2027", "25.06.2027", "6/25/2027", "25 June 2027", "25th Jun 27",
     "Fri 25 June 2027", "June 25, 2027", "25-Jun-2027", "2027-06-25 00:00"],
)  # fmt: skip
def test_a_day_that_can_be_read_in_one_way_is_read(text: str) -> None:
    assert DayReader().day(Cell(text)) == LAST


@pytest.mark.parametrize(
    "text", ["", "7/6/2027", "7/6/27", "31/2/2027", "June", "2027", "25 Foo 2027", "0/0/2027", "soon"]
)
def test_what_is_in_doubt_or_no_day_is_not_read(text: str) -> None:
    assert DayReader().day(Cell(text)) is None


@pytest.mark.parametrize(
    "text",
    ["2027-06-07 to 2027-06-25", "7 June 2027 - 25 June 2027", "2027-06-07–2027-06-25", "7 Jun 27 until 25 Jun 27"],
)
def test_a_first_and_a_last_day_are_read(text: str) -> None:
    assert DayReader().days(Cell(text)) == (FIRST, LAST)


def test_a_last_day_before_the_first_is_not_read() -> None:
    assert DayReader().days(Cell("2027-06-25 to 2027-06-07")) is None


def test_one_day_that_can_only_be_read_day_first_shows_how_the_others_are() -> None:
    reader = DayReader(["7/6/2027", "25/6/2027"])
    assert (reader.day(Cell("7/6/2027")), reader.shown_by) == (FIRST, "25/6/2027")
    assert reader.days(Cell("7/6/2027 - 25/6/2027")) == (FIRST, LAST)
    other = DayReader(["6/7/2027", "6/25/2027"])
    assert (other.day(Cell("6/7/2027")), other.day_first) == (FIRST, False)


def test_a_sheet_that_shows_both_ways_shows_neither() -> None:
    reader = DayReader(["25/6/2027", "6/25/2027"])
    assert (reader.shown_by, reader.day(Cell("7/6/2027"))) == ("", None)


@given(st.dates(date(2000, 1, 1), date(2099, 12, 31)), st.integers(0, 400))
def test_every_day_is_read_as_it_is_written(day: date, lasts: int) -> None:
    last = day + timedelta(days=lasts)
    reader = DayReader()
    for form in ("%Y-%m-%d", "%d %B %Y", "%B %d, %Y", "%d-%b-%Y"):
        assert reader.day(Cell(day.strftime(form))) == day
        assert reader.days(Cell(f"{day:{form}} to {last:{form}}")) == (day, last)


@given(st.text(max_size=40))
def test_any_text_is_a_day_or_none(text: str) -> None:
    found = DayReader([text]).days(Cell(text))
    assert found is None or found[0] <= found[1]
