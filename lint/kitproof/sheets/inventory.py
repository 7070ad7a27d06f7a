"""An inventory sheet to readings: for each part that it names, what its columns say. Nothing is left out in silence.

What stands in a cell is taken only where the reading of lists takes it. What is not taken is kept with the reason.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from kitproof.mending.edits import quoted
from kitproof.reading.entries import read
from kitproof.sheets.cells import EMPTY, Cell, Row, Workbook
from kitproof.sheets.columns import Layout, layouts
from kitproof.sheets.headings import Headings
from kitproof.sheets.matching import NO_MATCH, SURE, Match, Shelf
from kitproof.sheets.part_columns import COUNT, KIND, NAME, PARTS
from kitproof.sheets.part_kinds import kind_at_the_end, kind_said
from kitproof.sheets.readings import NotTaken, Reading, readings_of
from kitproof.sheets.sections import heads_a_section
from kitproof.words.kinds import KINDS
from kitproof.words.nearest import nearest

LONGEST_NAME = 120
NO_KIND = "which kind of part it is, is not said"
ALONE = "it says no more than a name, and was taken for the heading of a section"


class Stocked(Struct, frozen=True):
    """A part that a sheet names: its kind and what says so, its rows, and what they say of it."""

    name: str
    kind: str
    kind_by: str
    rows: tuple[str, ...]
    readings: tuple[Reading, ...]

    @property
    def label(self) -> str:
        return f"{self.kind} {quoted(self.name)}"


class Inventory(Struct, frozen=True):
    """All parts of a sheet, in its order; what was not taken; and what is to be said of it as a whole."""

    parts: tuple[Stocked, ...]
    not_taken: tuple[NotTaken, ...]
    said: tuple[str, ...] = ()


class _Listed(Struct):
    """One row that names a part."""

    name: str
    kind: str
    kind_by: str
    row: str
    readings: list[Reading]


def folded(name: str) -> str:
    """A name as it is compared: capitals and spaces do not matter."""
    return " ".join(name.split()).casefold()


def inventory(workbook: Workbook, said: Mapping[str, str], shelf: Shelf) -> Inventory:
    """What a file says of the parts that it names. `said` is what a person has said of columns, `shelf` has the parts
    of the book that it is for.

    Raises SheetError where no columns are known, or two could be the same.
    """
    found = layouts(workbook, said, PARTS)
    several = len(workbook.sheets) > 1
    listed: list[_Listed] = []
    not_taken: list[NotTaken] = []
    for layout in found:
        _Stock(layout, layout.sheet.name if several else "", shelf, listed, not_taken).read()
    counted = any(COUNT.name in each.columns for layout in found for each in layout.headings.values())
    together = list(_together(listed, counted, not_taken))
    return Inventory(tuple(together), tuple(not_taken), tuple(_said(workbook, found)))


class _Stock:
    """Reads one sheet, row after row; it lives no longer than that."""

    def __init__(
        self,
        layout: Layout,
        tab: str,
        shelf: Shelf,
        listed: list[_Listed],
        not_taken: list[NotTaken],
    ) -> None:
        self.layout, self.tab, self.shelf, self.listed, self.not_taken = layout, tab, shelf, listed, not_taken
        self.headings: Headings | None = layout.headings.get(0)
        self.section = ""

    def read(self) -> None:
        for row in self.layout.sheet.rows:
            if row.number in self.layout.headings:
                self.headings, self.section = self.layout.headings[row.number], ""
            elif self.headings is not None and not row.empty:
                self._row(self.headings, row)

    def _row(self, headings: Headings, row: Row) -> None:
        if heads_a_section(row, self.layout.sheet):
            text = next(cell.words for cell in row.cells if cell.text)
            if not self.shelf.match(text).sure:
                self.section = text
                return
        name = _cell(headings, row, NAME.name).words
        if name and sum(bool(cell.text) for cell in row.cells) == 1 and len(headings.columns) > 1:
            self.section = name  # whatever it heads, it is not what the section above it headed
            self.not_taken.append(NotTaken(self._label(row), name, "", name, ALONE))
            return
        make = _cell(headings, row, "make").words
        if name and make and make.casefold() not in name.casefold():
            name = f"{make} {name}"
        where = self._label(row)
        typed = ", ".join(f'"{cell.words}"' for cell in row.cells if cell.text)
        match = self.shelf.match(name) if name else NO_MATCH
        kind, kind_by = self._kind(headings, row, match.part or name, where)
        problem = _name_problem(name) or _in_doubt(match) or ("" if kind else _no_kind(kind_by))
        if problem:
            self.not_taken.append(NotTaken(where, name, "", typed, problem))
            return
        if match.sure and match.part != name:
            name, where = match.part, f'{where}, "{name}"'
        taken, left = readings_of(kind, name, where, headings, row)
        self.listed.append(_Listed(name, kind, kind_by, where, taken))
        self.not_taken += left

    def _label(self, row: Row) -> str:
        return f'"{self.tab}" row {row.number}' if self.tab else f"row {row.number}"

    def _kind(self, headings: Headings, row: Row, name: str, where: str) -> tuple[str, str]:
        """The kind of part and what says so; what the book says of it counts before all else."""
        typed = _cell(headings, row, KIND.name).words
        by_column = kind_said(typed)
        in_book = self.shelf.kinds.get(name, "")
        if in_book:
            if by_column and by_column != in_book:
                why = f"the parts book has it as {in_book}, and that stays"
                self.not_taken.append(NotTaken(where, name, headings.columns[KIND.name].label, typed, why))
            return in_book, "the parts book"
        if by_column:
            return by_column, headings.columns[KIND.name].label
        by_section, by_name = kind_said(self.section), kind_at_the_end(name)
        if by_section and by_name and by_section != by_name:
            return "", f'the section "{self.section}" says {by_section}, and its name {by_name}'
        if by_section:
            return by_section, f'the section "{self.section}"'
        if typed and not by_name:
            return "", _unknown_kind(typed)
        return by_name, "the end of its name" if by_name else ""


def _cell(headings: Headings, row: Row, role: str) -> Cell:
    at = headings.at(role)
    return EMPTY if at is None else row.at(at)


def _unknown_kind(typed: str) -> str:
    near = nearest(typed, KINDS)
    hint = f", the nearest is {near[0]}" if near else ""
    return f'"{typed}" is no kind of part that is known{hint}'


def _no_kind(why: str) -> str:
    """That a row's kind is not known; `why` says what speaks of two kinds, if anything does."""
    return f"{why or NO_KIND}: give its kind in a column headed Kind"


def _in_doubt(match: Match) -> str:
    """Whether a name may mean a part of the book and is not sure to; "" where it is sure, or a new part's."""
    near = [each.part for each in match.nearest if each.score >= SURE and not match.sure]
    if not near:
        return ""
    names = " or ".join(quoted(each) for each in near)
    return f"it may be {names} of the parts book, or a new part: write the name that is meant"


def _name_problem(name: str) -> str:
    """Why a name cannot stand in a parts book; "" where it can."""
    if not name:
        return "it names no part"
    if name.startswith("="):
        return "its name is a formula, and formulas are never run"
    if len(name) > LONGEST_NAME:
        return f"its name has more than {LONGEST_NAME} characters"
    document = read(f"part kit {quoted(name)}\n", "")
    whole = len(document.entries) == 1 and not document.slips and not document.entries[0].slips
    if not whole or document.entries[0].name != name:
        return "a parts book cannot have this name: leave out its quotes and signs"
    return ""


def _together(listed: list[_Listed], counted: bool, not_taken: list[NotTaken]) -> Iterator[Stocked]:
    """Rows of one name as one part: what they say alike once, counts added up, and contradictions not taken."""
    by_name: dict[str, list[_Listed]] = {}
    for each in listed:
        by_name.setdefault(folded(each.name), []).append(each)
    for rows in by_name.values():
        first = rows[0]
        others = [each for each in rows if each.kind != first.kind]
        for each in others:
            why = f"{first.row} has it as {first.kind}, and this row as {each.kind}: one of them needs another name"
            not_taken.append(NotTaken(each.row, each.name, "", each.kind, why))
        rows = [each for each in rows if each.kind == first.kind]
        readings = list(_one_reading_each(rows, not_taken))
        if not counted and len(rows) > 1:
            where = f"{len(rows)} rows, one for each of them"
            readings.insert(0, Reading("have", str(len(rows)), where, first.row))
        yield Stocked(first.name, first.kind, first.kind_by, tuple(each.row for each in rows), tuple(readings))


def _one_reading_each(rows: list[_Listed], not_taken: list[NotTaken]) -> Iterator[Reading]:
    by_word: dict[str, list[Reading]] = {}
    for each in rows:
        for reading in each.readings:
            by_word.setdefault(reading.word, []).append(reading)
    for word, found in by_word.items():
        values = list(dict.fromkeys(each.value for each in found))
        if word == "have" and len(found) > 1:
            total = sum(int(each.value) for each in found)
            where = f"{found[0].column}, {' + '.join(each.value for each in found)}"
            yield Reading(word, str(total), where, found[0].row)
        elif word == "note":
            yield from {each.value: each for each in found}.values()
        elif len(values) == 1:
            yield found[0]
        else:
            why = f"the rows of this part contradict each other: {', '.join(values)}"
            not_taken += [NotTaken(each.row, rows[0].name, each.column, each.value, why) for each in found]


def _said(workbook: Workbook, found: list[Layout]) -> Iterator[str]:
    """How the file was read, hidden sheets, and the columns of which nothing is taken."""
    yield from workbook.said
    for sheet in workbook.sheets:
        if sheet.hidden:
            yield f'The sheet "{sheet.name}" is hidden and was not read. Show it to have it read.'
    for layout in found:
        for headings in layout.headings.values():
            if headings.others:
                names = ", ".join(each.label for each in headings.others)
                yield f"Not read, since its heading is not known: {names}."
