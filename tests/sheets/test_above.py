"""What stands above the headings: what the order is called, and its days where they are said for certain."""

from __future__ import annotations

from datetime import date

import pytest

from kitproof.sheets.above import days_above, title
from kitproof.sheets.days import DayReader
from tests.sheets.made import sheet

DAYS = (date(2027, 6, 7), date(2027, 6, 25))


def test_the_first_words_are_the_title() -> None:
    assert title(sheet('2027,Date:\n"The Long Tide, camera",x\n').rows) == "The Long Tide, camera"
    assert title(()) == ""


@pytest.mark.parametrize(
    "text",
    [
        "Dates:,7 June 2027 to 25 June 2027",
        "Shoot dates: 7 June 2027 to 25 June 2027,x",
        "Hire dates,7 June 2027,25 June 2027",
        "From,7 June 2027,To,25 June 2027",
        "Out:,7 June 2027\nReturn:,25 June 2027",
    ],
)
def test_days_are_known_by_the_words_beside_them(text: str) -> None:
    assert days_above(sheet(text).rows, DayReader()) == DAYS


@pytest.mark.parametrize(
    "text",
    [
        "Date:,7 June 2027",
        "7 June 2027,25 June 2027",
        "Dates:,7 June 2027 to 25 June 2027\nDates:,7 June 2027 to 26 June 2027",
        "From,25 June 2027,To,7 June 2027",
        "Out:,7 June 2027",
    ],
)
def test_days_that_are_not_certain_are_not_taken(text: str) -> None:
    assert days_above(sheet(text).rows, DayReader()) is None
