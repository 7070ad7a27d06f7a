"""Days, as people write them. One that can be read in two ways, as 03/04/2027, is taken only if its sheet shows how."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

from kitproof.sheets.cells import Cell

MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
)  # fmt: skip

_WEEKDAY = re.compile(r"^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+", re.IGNORECASE)
_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]00:00(?::00)?)?")
_FIGURES = re.compile(r"(\d{1,2})[-/.\s](\d{1,2})[-/.\s](\d{4})")
_FIGURES_IN = re.compile(r"(?<!\d)(\d{1,2})[-/.](\d{1,2})[-/.]\d{4}(?!\d)")
_DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?[-\s/.]*([a-z]{3,9})\.?[-\s/.,]*(\d{4}|\d{2})", re.IGNORECASE)
_MONTH_FIRST = re.compile(r"([a-z]{3,9})\.?\s*(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})", re.IGNORECASE)
_UNTIL = (
    re.compile(r"\s+(?:to|until|till|-|–|—)\s+|\s*(?:–|—|\.\.)\s*", re.IGNORECASE),
    re.compile(r"(?<=[-/.\s]\d{4})\s*-\s*(?=\d)"),
)
"""What stands between a first and a last day; the latter only where no other does, as it stands within a day too."""

Days = tuple[date, date]
"""The first and the last day, both included."""


class DayReader:
    """Reads days as one sheet writes them.

    Where some day of a sheet can only be read with the day first (25/6/2027), and none only with the month first, all
    of its days are read so; `shown_by` is that one, "" where none decides it.
    """

    def __init__(self, texts: Iterable[str] = ()) -> None:
        found = [each for text in texts for each in _FIGURES_IN.finditer(text)]
        day_first = [each[0] for each in found if int(each[1]) > 12 >= int(each[2])]
        month_first = [each[0] for each in found if int(each[2]) > 12 >= int(each[1])]
        self.shown_by = "" if day_first and month_first else next(iter((*day_first, *month_first)), "")
        self.day_first = bool(day_first)

    def day(self, cell: Cell) -> date | None:
        """The day that a cell says for certain; None where it says none, or one that can be read in two ways."""
        return cell.day or self._day_in(cell.words)

    def days(self, cell: Cell) -> Days | None:
        """The first and last day that a cell says for certain; one day alone is both."""
        one = self.day(cell)
        if one is not None:
            return one, one
        for until in _UNTIL:
            ends = until.split(cell.words)
            first, last = map(self._day_in, ends) if len(ends) == 2 else (None, None)
            if first is not None and last is not None:
                return (first, last) if first <= last else None
        return None

    def _day_in(self, text: str) -> date | None:
        if not any(letter.isdecimal() for letter in text):
            return None
        text = _WEEKDAY.sub("", text.strip())
        if found := _ISO.fullmatch(text):
            return _made(int(found[1]), int(found[2]), int(found[3]))
        if found := _FIGURES.fullmatch(text):
            return self._in_figures(int(found[1]), int(found[2]), int(found[3]))
        if found := _DAY_FIRST.fullmatch(text):
            return _worded(found[1], found[2], found[3])
        if found := _MONTH_FIRST.fullmatch(text):
            return _worded(found[2], found[1], found[3])
        return None

    def _in_figures(self, one: int, other: int, year: int) -> date | None:
        if one > 12 or other > 12 or one == other:
            return _made(year, other, one) if one > 12 else _made(year, one, other)
        if not self.shown_by:
            return None
        return _made(year, other, one) if self.day_first else _made(year, one, other)


def _worded(number: str, month: str, year: str) -> date | None:
    """A day whose month is written in letters, at least three of them."""
    at = next((at for at, name in enumerate(MONTHS, start=1) if name.startswith(month.casefold())), 0)
    return _made(int(year) + (2000 if len(year) == 2 else 0), at, int(number)) if at else None


def _made(year: int, month: int, number: int) -> date | None:
    try:
        return date(year, month, number)
    except ValueError:
        return None
