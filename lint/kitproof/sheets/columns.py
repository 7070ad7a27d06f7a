"""The columns of each stretch of a sheet: which row of headings holds for which rows."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from msgspec import Struct

from kitproof.sheets.cells import Row, Sheet, SheetError, Workbook, letters
from kitproof.sheets.column_words import ORDER, Role
from kitproof.sheets.headings import Column, Headings, heading_rows, headings_of, key

_LETTERS = re.compile(r"[A-Za-z]{1,3}")
NEEDED = "name"


class Layout(Struct, frozen=True):
    """A sheet with its rows of headings, by row number; none where no columns are known."""

    sheet: Sheet
    headings: Mapping[int, Headings]

    @property
    def first(self) -> int:
        """The number of the first row under a row of headings."""
        return min(self.headings, default=0) + 1


def layouts(workbook: Workbook, said: Mapping[str, str], roles: Sequence[Role] = ORDER) -> list[Layout]:
    """The columns of each sheet that is shown. Raises SheetError where no sheet has any that are known."""
    shown = [sheet for sheet in workbook.sheets if not sheet.hidden]
    found = [_layout(sheet, said, roles) for sheet in shown]
    if any(each.headings for each in found):
        return found
    lettered = _by_letters(said, roles)
    if lettered is not None:
        return [Layout(sheet, {0: lettered}) for sheet in shown]
    raise SheetError(_none_known(shown))


def _layout(sheet: Sheet, said: Mapping[str, str], roles: Sequence[Role]) -> Layout:
    rows = heading_rows(sheet, roles, NEEDED, said)
    starts = [row.number for row in rows]
    found: dict[int, Headings] = {}
    for row, end in zip(rows, [*starts[1:], len(sheet.rows) + 1], strict=True):
        below = sheet.rows[row.number : end - 1]
        mine = said if not found else {name: heading for name, heading in said.items() if _has(row, heading)}
        found[row.number] = headings_of(row, below, roles, mine)
    return Layout(sheet, found)


def _has(row: Row, heading: str) -> bool:
    return any(cell.text and key(cell.text) == key(heading) for cell in row.cells)


def _by_letters(said: Mapping[str, str], roles: Sequence[Role]) -> Headings | None:
    """The columns of a sheet with no headings, where a person has named them all by their letters; else None."""
    known = {role.name for role in roles}
    if NEEDED not in said or not all(name in known and _LETTERS.fullmatch(each) for name, each in said.items()):
        return None
    columns = {name: Column(name, _at(each), each.upper()) for name, each in said.items()}
    return Headings(0, columns)


def _at(name: str) -> int:
    """A column by its letters, counted from 0."""
    number = 0
    for letter in name.upper():
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


def _none_known(shown: Sequence[Sheet]) -> str:
    """No row of headings was found: what there is instead, and how to say which column is which."""
    says = 'No row of it has headings that are known, such as "Item" and "Qty". '
    first = next((row for sheet in shown for row in sheet.rows if sum(bool(cell.text) for cell in row.cells) > 1), None)
    first = first or next((row for sheet in shown for row in sheet.rows if not row.empty), None)
    if first is None:
        return "Every sheet of it that is not hidden is empty."
    cells = [f'"{cell.words[:40]}" ({letters(at)})' for at, cell in enumerate(first.cells) if cell.text]
    has = ", ".join(cells[:6]) + (" …" if len(cells) > 6 else "")
    return f"{says}Row {first.number} has {has}. Say which columns they are: --column name=B --column count=A"
