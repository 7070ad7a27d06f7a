"""The columns of each stretch of a sheet: which row of headings holds for which rows."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from msgspec import Struct

from kitproof.sheets.cells import Row, Sheet, SheetError, Workbook, letters
from kitproof.sheets.column_words import ORDER, Role
from kitproof.sheets.headings import NOWHERE, Column, Headings, heading_rows, headings_of, key

_LETTERS = re.compile(r"[A-Za-z]{1,3}")
NEEDED = "name"


class Layout(Struct, frozen=True):
    """A sheet with its rows of headings, by row number; none where no columns are known."""

    sheet: Sheet
    headings: Mapping[int, Headings]

    @property
    def above(self) -> tuple[Row, ...]:
        """The rows above the first row of headings."""
        return self.sheet.rows[: max(0, min(self.headings, default=0) - 1)]


def layouts(workbook: Workbook, said: Mapping[str, str], roles: Sequence[Role] = ORDER) -> list[Layout]:
    """The columns of each sheet that is shown; `said` is as for `headings_of`, and holds wherever a row has it.

    Raises SheetError where no sheet has any columns that are known, and where what was said is in no row of headings.
    """
    shown = [sheet for sheet in workbook.sheets if not sheet.hidden]
    rows = [heading_rows(sheet, roles, NEEDED, said) for sheet in shown]
    every = [row for found in rows for row in found]
    if every:
        if any(not any(_has(row, heading) for row in every) for heading in said.values()):
            headings_of(every[0], (), roles, said)  # says which headings there are
        return [_layout(sheet, found, said, roles) for sheet, found in zip(shown, rows, strict=True)]
    lettered = _by_letters(said, roles)
    if lettered is not None:
        return [Layout(sheet, {0: lettered}) for sheet in shown]
    raise SheetError(_none_known(shown))


def _layout(sheet: Sheet, rows: Sequence[Row], said: Mapping[str, str], roles: Sequence[Role]) -> Layout:
    ends = [*(row.number - 1 for row in rows[1:]), len(sheet.rows)]
    found: dict[int, Headings] = {}
    for row, end in zip(rows, ends, strict=False):  # with no row of headings there is one end too many
        mine = {name: heading for name, heading in said.items() if _has(row, heading)}
        found[row.number] = headings_of(row, sheet.rows[row.number : end], roles, mine)
    return Layout(sheet, found)


def _has(row: Row, heading: str) -> bool:
    """Whether a row has a heading, by its words or its letters; that a thing is in no column holds of every row."""
    if heading.casefold() == NOWHERE:
        return True
    cells = [(at, cell) for at, cell in enumerate(row.cells) if cell.text]
    return any(key(cell.text) == key(heading) or letters(at) == heading.upper() for at, cell in cells)


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
