"""What stands above the headings of an order: what it is called, and its days."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from kitproof.sheets.cells import Cell, Row
from kitproof.sheets.column_words import DATES, DAYS, FIRST, LAST
from kitproof.sheets.days import DayReader, Days
from kitproof.sheets.headings import HeadingWords

_WORDS = HeadingWords((DATES, DAYS, FIRST, LAST))


def title(above: Sequence[Row]) -> str:
    """The first words above the headings; "" where nothing stands there but labels and figures."""
    return next((cell.words for row in above for cell in row.cells if cell.text and not _is_label(cell)), "")


def _is_label(cell: Cell) -> bool:
    return cell.number is not None or cell.day is not None or cell.text.endswith(":") or cell.text.isdecimal()


def days_above(above: Sequence[Row], reader: DayReader) -> Days | None:
    """The days that stand beside words for days, where a first and a last one are said once and for certain.

    One day alone is not taken: it may be the day on which the order was written.
    """
    spans = {span for row in above for span in _spans(row, reader)}
    first = {day for row in above for day in _beside(row, FIRST.name, reader)}
    last = {day for row in above for day in _beside(row, LAST.name, reader)}
    if not spans and len(first) == len(last) == 1:
        spans = {(first.pop(), last.pop())}
    found = {(one, other) for one, other in spans if one < other}
    return found.pop() if len(found) == len(spans) == 1 else None


def _labelled(row: Row) -> Iterator[tuple[set[str], list[Cell]]]:
    """What each cell of a row may be a label of, and what stands behind it."""
    cells = [cell for cell in row.cells if cell.text]
    for at, cell in enumerate(cells):
        label, _, rest = cell.words.partition(":")
        behind = [Cell(rest.strip())] if rest.strip() else cells[at + 1 :]
        yield {name for _, name in _WORDS.roles(label)}, behind


def _spans(row: Row, reader: DayReader) -> Iterator[Days]:
    for roles, behind in _labelled(row):
        if roles & {DATES.name, DAYS.name} and behind:
            span = reader.days(behind[0])
            if span is not None and span[0] == span[1] and len(behind) > 1:
                other = reader.day(behind[1])
                span = (span[0], other) if other is not None else span
            if span is not None:
                yield span


def _beside(row: Row, role: str, reader: DayReader) -> Iterator[date]:
    for roles, behind in _labelled(row):
        if role in roles and behind and (day := reader.day(behind[0])) is not None:
            yield day
