"""Days, as people write them. One that can be read in two ways, as 03/04/2027, is not taken."""

from __future__ import annotations

import re
from datetime import date

from kitproof.sheets.cells import Cell

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")

_WEEKDAY = re.compile(r"^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+", re.IGNORECASE)
_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]00:00(?::00)?)?")
_FIGURES = re.compile(r"(\d{1,2})[-/.\s](\d{1,2})[-/.\s](\d{4})")
_DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?[-\s/.]*([a-z]{3,9})\.?[-\s/.,]*(\d{4}|\d{2})", re.IGNORECASE)
_MONTH_FIRST = re.compile(r"([a-z]{3,9})\.?\s*(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})", re.IGNORECASE)
_UNTIL = re.compile(r"\s+(?:to|until|till|-|–|—)\s+|\s*(?:–|—|\.\.)\s*|(?<=[-/.\s]\d{4})\s*-\s*(?=\d)", re.IGNORECASE)

Days = tuple[date, date]
"""The first and the last day, both included."""


def day(cell: Cell) -> date | None:
    """The day that a cell says for certain; None where it says none, or one that can be read in two ways."""
    return cell.day or day_in(cell.words)


def day_in(text: str) -> date | None:
    """The same for a text."""
    text = _WEEKDAY.sub("", text.strip())
    if found := _ISO.fullmatch(text):
        return _made(int(found[1]), int(found[2]), int(found[3]))
    if found := _FIGURES.fullmatch(text):
        one, two, year = (int(each) for each in found.groups())
        if one == two or two > 12:
            return _made(year, one, two)
        return _made(year, two, one) if one > 12 else None
    if found := _DAY_FIRST.fullmatch(text):
        return _worded(found[1], found[2], found[3])
    if found := _MONTH_FIRST.fullmatch(text):
        return _worded(found[2], found[1], found[3])
    return None


def days(cell: Cell) -> Days | None:
    """The first and last day that a cell says for certain; one day alone is both."""
    one = day(cell)
    if one is not None:
        return one, one
    ends = _UNTIL.split(cell.words)
    if len(ends) != 2:
        return None
    first, last = (day_in(each) for each in ends)
    return (first, last) if first is not None and last is not None and first <= last else None


def _worded(number: str, month: str, year: str) -> date | None:
    at = next((at for at, name in enumerate(MONTHS, start=1) if _is_month(month.casefold(), name)), 0)
    return _made(int(year) + (2000 if len(year) == 2 else 0), at, int(number)) if at else None


def _is_month(word: str, name: str) -> bool:
    full = {"jan": "january", "feb": "february", "mar": "march", "apr": "april", "may": "may", "jun": "june",
            "jul": "july", "aug": "august", "sep": "september", "oct": "october", "nov": "november",
            "dec": "december"}[name]  # fmt: skip
    return full.startswith(word) or (name == "sep" and word == "sept")


def _made(year: int, month: int, number: int) -> date | None:
    try:
        return date(year, month, number)
    except ValueError:
        return None
