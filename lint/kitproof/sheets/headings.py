"""The row of headings, wherever it stands, and what each column holds.

Where two columns could both be one thing, neither is taken: it is said, with how to say which.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec import Struct

from kitproof.sheets.cells import Cell, Row, Sheet, SheetError, letters
from kitproof.sheets.column_words import Role
from kitproof.words.nearest import nearest

LOOKED_AT = 50
"""So many rows under the headings are looked at to see whether a column holds figures."""
SURE, BEHIND, MAYBE = 0, 1, 2
NOWHERE = "none"
"""What a person says of what no column holds."""
LONGEST_HEADING = 60
SHORTEST_START = 2
"""A word of no more letters is a heading only by itself: "pc" is one, "no smoking" is none."""

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


class HeadingWords:
    """What headings may stand for, by the words of some roles and by what a person has said of columns."""

    def __init__(self, roles: Sequence[Role], said: Mapping[str, str] | None = None) -> None:
        self._sure: dict[str, list[str]] = {}
        self._maybe: dict[str, list[str]] = {}
        self._known: dict[str, list[tuple[int, str]]] = {}
        for role in roles:
            for words in (*role.sure, *(key(heading) for name, heading in (said or {}).items() if name == role.name)):
                self._sure.setdefault(words, []).append(role.name)
            for words in role.maybe:
                self._maybe.setdefault(words, []).append(role.name)

    def roles(self, text: str) -> list[tuple[int, str]]:
        """What a heading may stand for, the surest first: `SURE`, `BEHIND` where more words follow, or `MAYBE`."""
        if len(text) > LONGEST_HEADING:
            return []
        if text not in self._known:
            words = key(text) or text.strip()
            first = words.split(" ")
            behind = {
                name
                for number in range(1, len(first))
                if len(start := " ".join(first[:number])) > SHORTEST_START
                for name in self._sure.get(start, ())
            }
            found = dict.fromkeys(self._maybe.get(words, ()), 2)
            found |= dict.fromkeys(sorted(behind), 1) | dict.fromkeys(self._sure.get(words, ()), 0)
            self._known[text] = sorted((sure, name) for name, sure in found.items())
        return self._known[text]


def heading_rows(sheet: Sheet, roles: Sequence[Role], needed: str, said: Mapping[str, str] | None = None) -> list[Row]:
    """The rows of headings: the one with most columns known, the first of equal ones, and others below it.

    `needed` is what one of the columns must hold, `said` what a person has said, as for `headings_of`. One below counts
    only if it has nothing but headings, so that a line which lists something is not taken for one.
    """
    words = HeadingWords(roles, said)
    scores = {row.number: score for row in sheet.rows if (score := _score(row, words, needed)) is not None}
    if not scores:
        return []
    best = max(scores, key=lambda number: (scores[number].known, -number))
    below = (row for row in sheet.rows if row.number > best and row.number in scores)
    return [sheet.rows[best - 1], *(row for row in below if scores[row.number].nothing_else)]


class _Score(NamedTuple):
    """How many different things a row has headings of, and whether every cell of it is a heading to the letter."""

    known: int
    nothing_else: bool


def _score(row: Row, words: HeadingWords, needed: str) -> _Score | None:
    """What speaks for a row of headings; None for a row that is none.

    It has no figures, half of its cells are headings, one of them to the letter, and there are two of them unless it
    has one cell only.
    """
    texts = [cell for cell in row.cells if cell.text]
    if any(cell.number is not None or cell.day is not None or cell.text.isdecimal() for cell in texts):
        return None
    likely = [words.roles(cell.text) for cell in texts]
    known = {name for found in likely for _, name in found}
    exact = sum(any(sure != BEHIND for sure, _ in found) for found in likely)
    enough = needed in known and exact and (len(known) > 1 or len(texts) == 1)
    if not enough or sum(map(bool, likely)) * 2 < len(texts):
        return None
    return _Score(len(known), exact == len(texts) > 1)


def headings_of(
    row: Row, below: Sequence[Row], roles: Sequence[Role], said: Mapping[str, str] | None = None
) -> Headings:
    """What the columns under a row of headings hold; `below` are the rows under it.

    `said` is what a person has said: from the name of what a column holds to its heading, its letters, or `none` where
    no column holds it. Raises SheetError where two columns could be the same thing, where one could be a count or only
    number the lines, and where what was said names no column.
    """
    cells = [(at, cell) for at, cell in enumerate(row.cells) if cell.text]
    columns = {name: _named(name, heading, cells) for name, heading in _said(said, roles)}
    taken = {column.at for column in columns.values()}
    words = HeadingWords(roles)
    candidates: dict[str, list[tuple[int, Column]]] = {}
    for at, cell in cells:
        for sure, name in words.roles(cell.text):
            candidates.setdefault(name, []).append((sure, Column(name, at, cell.words)))
    for role in roles:
        if role.name not in (said or {}):
            free = [each for each in candidates.get(role.name, ()) if each[1].at not in taken]
            found = _one(role, free, row, below)
            if found is not None:
                columns[role.name] = found
                taken.add(found.at)
    others = tuple(Column("", at, cell.words) for at, cell in cells if at not in taken)
    return Headings(row.number, columns, others)


def _said(said: Mapping[str, str] | None, roles: Sequence[Role]) -> Iterator[tuple[str, str]]:
    """What a person has said of columns, without what no column holds. Raises SheetError for what nothing is called."""
    known = [role.name for role in roles]
    for name, heading in (said or {}).items():
        if name not in known:
            near = nearest(name, known)
            hint = f' The nearest is "{near[0]}".' if near else ""
            raise SheetError(f'No column holds "{name}": it is one of {", ".join(known)}.{hint}')
        if heading.casefold() != NOWHERE:
            yield name, heading


def _one(role: Role, candidates: Sequence[tuple[int, Column]], row: Row, below: Sequence[Row]) -> Column | None:
    """The one column of the surest kind. Raises SheetError where it cannot be told."""
    fitting = [
        (sure, column)
        for sure, column in candidates
        if role.figures is not False or not _mostly_figures(column.at, below)
    ]
    surest = min((sure for sure, _ in fitting), default=0)
    found = [column for sure, column in fitting if sure == surest]
    if len(found) > 1:
        which = " and ".join(column.label for column in found)
        by_letter = f", or by its letter: --column {role.name}={letters(found[0].at)}" if _alike(found) else ""
        raise SheetError(
            f"Row {row.number} has headings that could both be {role.says}: {which}. "
            f'Say which: --column {role.name}="{found[0].heading}"{by_letter}'
        )
    if found and role.figures and surest == MAYBE and _numbers_the_lines(found[0].at, below):
        raise SheetError(
            f"In row {row.number}, {found[0].label} could be {role.says} or only number the lines: 1, 2, 3 and so on. "
            f'Say which: --column {role.name}="{found[0].heading}" or --column {role.name}={NOWHERE}'
        )
    return found[0] if found else None


def _alike(columns: Sequence[Column]) -> bool:
    return len({key(column.heading) for column in columns}) < len(columns)


def _named(name: str, heading: str, cells: Sequence[tuple[int, Cell]]) -> Column:
    """The column that a person has named, by its heading or its letters. Raises SheetError where there is none."""
    by_heading = [(at, cell) for at, cell in cells if key(cell.text) == key(heading)]
    found = by_heading or [(at, cell) for at, cell in cells if letters(at) == heading.upper()]
    if len(found) == 1:
        return Column(name, found[0][0], found[0][1].words)
    headings = ", ".join(f'"{cell.words}" ({letters(at)})' for at, cell in cells)
    trouble = "No column is" if not found else "More than one column is"
    raise SheetError(
        f'{trouble} headed "{heading}". The headings are {headings}; name one by its letter where two are alike.'
    )


def _mostly_figures(at: int, below: Sequence[Row]) -> bool:
    """Whether a column of words has figures instead, as one of item numbers has."""
    texts = [text for row in below[:LOOKED_AT] if (text := row.at(at).text)]
    return sum(text.isdecimal() for text in texts) * 2 > len(texts)


def _numbers_the_lines(at: int, below: Sequence[Row]) -> bool:
    """Whether all figures of a column count up by one."""
    figures = [int(text) for row in below[:LOOKED_AT] if (text := row.at(at).text).isdecimal()]
    return len(figures) > 1 and figures == list(range(figures[0], figures[0] + len(figures)))
