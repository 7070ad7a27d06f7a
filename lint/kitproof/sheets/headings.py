"""The row of headings, wherever it stands, and what each column holds.

Where two columns could both be one thing, neither is taken: it is said, with how to say which.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from msgspec import Struct

from kitproof.sheets.cells import Cell, Row, Sheet, SheetError, letters
from kitproof.sheets.column_words import Role
from kitproof.words.nearest import nearest

LOOKED_AT = 50
"""So many rows under the headings are looked at to see whether a column holds figures."""
LONGEST_HEADING = 60

_APART = re.compile(r"[^\w#/&]+")
_BRACKETS = re.compile(r"[(\[{].*?[)\]}]")


class Column(Struct, frozen=True):
    """One column that is known: what it holds, where it stands (from 0), and its heading as written."""

    role: str
    at: int
    heading: str

    @property
    def label(self) -> str:
        """As people speak of it: column C, "Qty"."""
        return f'column {letters(self.at)}, "{self.heading}"'


class Headings(Struct, frozen=True):
    """A row of headings: its number, the columns that are known by what they hold, and the others that have one."""

    row: int
    columns: Mapping[str, Column]
    others: tuple[Column, ...] = ()

    def at(self, role: str) -> int | None:
        """Where the column stands that holds something; None where there is none."""
        return self.columns[role].at if role in self.columns else None


def key(text: str) -> str:
    """A heading as it is compared: small letters, no stops, nothing in brackets."""
    return " ".join(_APART.sub(" ", _BRACKETS.sub(" ", text)).casefold().split())


def likely_roles(text: str, roles: Sequence[Role], said: Mapping[str, str]) -> list[tuple[int, str]]:
    """What a heading may stand for, the surest first: 0 a sure word, 1 one with more words behind it, 2 a maybe."""
    words = key(text) or text.strip()
    if not words or len(words) > LONGEST_HEADING:
        return []
    found = []
    for role in roles:
        if words in role.sure or (role.name in said and words == key(said[role.name])):
            found.append((0, role.name))
        elif any(words.startswith(f"{each} ") for each in role.sure if len(each) > 2):
            found.append((1, role.name))
        elif words in role.maybe:
            found.append((2, role.name))
    return sorted(found, key=lambda each: each[0])


def heading_rows(sheet: Sheet, roles: Sequence[Role], needed: str, said: Mapping[str, str] | None = None) -> list[Row]:
    """The rows of headings: the one with most columns known, and those below it that have as much of a heading.

    `needed` is what one of the columns must hold, `said` what a person has said, as for `headings_of`. A row counts
    only if half of it is known, and two columns of it or its only one; of two equal ones the first counts.
    """
    scores = {row.number: score for row in sheet.rows if (score := _score(row, roles, needed, said or {}))}
    if not scores:
        return []
    best = max(scores, key=lambda number: (scores[number], -number))
    return [row for row in sheet.rows if row.number >= best and scores.get(row.number, 0) >= min(2, scores[best])]


def _score(row: Row, roles: Sequence[Role], needed: str, said: Mapping[str, str]) -> int:
    """How many different things the cells of a row are headings of; 0 for a row that is none of headings."""
    texts = [cell for cell in row.cells if cell.text]
    if not texts or any(cell.number is not None or cell.day is not None for cell in texts):
        return 0
    likely = [{name for _, name in likely_roles(cell.text, roles, said)} for cell in texts]
    known = {name for names in likely for name in names}
    enough = needed in known and (len(known) > 1 or len(texts) == 1)
    return len(known) if enough and sum(map(bool, likely)) * 2 >= len(texts) else 0


def headings_of(
    row: Row, below: Sequence[Row], roles: Sequence[Role], said: Mapping[str, str] | None = None
) -> Headings:
    """What the columns under a row of headings hold; `below` are the rows under it.

    `said` is what a person has said: from the name of what a column holds to its heading or its letters. Raises
    SheetError where two columns could be the same thing, and where what was said names no column.
    """
    cells = [(at, cell) for at, cell in enumerate(row.cells) if cell.text]
    columns = {name: _named(name, heading, cells, roles) for name, heading in (said or {}).items()}
    taken = {column.at for column in columns.values()}
    candidates: dict[str, list[tuple[int, Column]]] = {}
    for at, cell in cells:
        if at in taken:
            continue
        for sure, name in likely_roles(cell.text, roles, {}):
            candidates.setdefault(name, []).append((sure, Column(name, at, cell.words)))
    for role in roles:
        if role.name not in columns and role.name in candidates:
            left = [
                each for each in candidates[role.name] if each[1].at not in taken and _fits(role, each[1].at, below)
            ]
            found = _one(role, left, row)
            if found is not None:
                columns[role.name] = found
                taken.add(found.at)
    others = tuple(Column("", at, cell.words) for at, cell in cells if at not in taken)
    return Headings(row.number, columns, others)


def _one(role: Role, candidates: Sequence[tuple[int, Column]], row: Row) -> Column | None:
    """The one column of the surest kind. Raises SheetError where there are two."""
    surest = min((sure for sure, _ in candidates), default=0)
    found = [column for sure, column in candidates if sure == surest]
    if len(found) > 1:
        which = " and ".join(column.label for column in found)
        raise SheetError(
            f"Row {row.number} has headings that could both be {role.says}: {which}. "
            f'Say which: --column {role.name}="{found[0].heading}"'
            + (f", or by its letter: --column {role.name}={letters(found[0].at)}" if _alike(found) else "")
        )
    return found[0] if found else None


def _alike(columns: Sequence[Column]) -> bool:
    return len({key(column.heading) for column in columns}) < len(columns)


def _named(name: str, heading: str, cells: Sequence[tuple[int, Cell]], roles: Sequence[Role]) -> Column:
    """The column that a person has named, by its heading or its letters. Raises SheetError where there is none."""
    known = [role.name for role in roles]
    if name not in known:
        near = nearest(name, known)
        hint = f' The nearest is "{near[0]}".' if near else ""
        raise SheetError(f'No column holds "{name}": it is one of {", ".join(known)}.{hint}')
    by_heading = [(at, cell) for at, cell in cells if key(cell.text) == key(heading)]
    found = by_heading or [(at, cell) for at, cell in cells if letters(at) == heading.upper()]
    if len(found) == 1:
        return Column(name, found[0][0], found[0][1].words)
    headings = ", ".join(f'"{cell.words}" ({letters(at)})' for at, cell in cells)
    trouble = "No column is" if not found else "More than one column is"
    raise SheetError(
        f'{trouble} headed "{heading}". The headings are {headings}; name one by its letter where two are alike.'
    )


def _fits(role: Role, at: int, below: Sequence[Row]) -> bool:
    """Whether what stands under a heading is what it should be, as far as figures and words tell.

    Figures that only number the rows (1, 2, 3 …) are no count of anything.
    """
    if role.figures is None:
        return True
    texts = [text for row in below[:LOOKED_AT] if (text := row.at(at).text)]
    figures = [int(text) for text in texts if text.isdecimal() and text.isascii()]
    if not role.figures:
        return len(figures) * 2 <= len(texts)
    return not (len(figures) >= 3 and figures == list(range(figures[0], figures[0] + len(figures))))
