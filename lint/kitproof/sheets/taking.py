"""Rows to lines of an order: what each row says, and what becomes of it. No row is left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from kitproof.sheets.above import days_above, title
from kitproof.sheets.cells import EMPTY, Cell, Row, Sheet, Workbook
from kitproof.sheets.column_words import ORDER
from kitproof.sheets.columns import Layout, layouts
from kitproof.sheets.counts import Counted, counted, within
from kitproof.sheets.days import DayReader, Days
from kitproof.sheets.headings import Headings, key
from kitproof.sheets.matching import Match, Shelf
from kitproof.sheets.sections import heads_a_section, rig_headed, rig_said
from kitproof.sheets.told import Choice, Group, Line, Taken, Told

Watched = Callable[[Sequence[Row]], Iterable[Row]]
PAIRED_KINDS = ("rods",)
"""Kinds of part that are a pair already, so that a pair of them may be one or two."""
TOTALS = frozenset({"total", "totals", "sub total", "subtotal", "grand total", "total items"})
_ONE = Counted(1)
_BESIDE = ("spare", "case", "note")
"""Columns of which a line has the words beside it and no more."""


class _Place(Struct, frozen=True):
    """Where a row stands: its sheet, the columns that hold for it, the section above it, the rig which that names."""

    tab: str
    headings: Headings
    section: str = ""
    rig: str = ""

    def cell(self, row: Row, role: str) -> Cell:
        at = self.headings.at(role)
        return EMPTY if at is None else row.at(at)


def taken(workbook: Workbook, shelf: Shelf, said: Mapping[str, str], watched: Watched = iter) -> Taken:
    """What becomes of every row of a file.

    `said` is what a person has said of columns, `watched` goes through the rows one by one and may show how far it is.
    Raises SheetError where no columns are known, or two could be the same.
    """
    found = layouts(workbook, said)
    several = len(workbook.sheets) > 1
    rows = [(layout, row) for layout in found for row in layout.sheet.rows]
    known = [layout for layout in found if layout.headings]
    days = DayReader(cell.text for _, row in rows for cell in row.cells)
    all_days = days_above(known[0].above, days)
    readers = {id(layout): _Reader(layout, shelf, days, all_days, several) for layout in found}
    with_layout = iter(rows)
    told = [readers[id(next(with_layout)[0])].read(row) for row in watched([row for _, row in rows])]
    columns = [_columns(layout.sheet, headings, several) for layout in known for headings in layout.headings.values()]
    if days.shown_by:
        first = "day" if days.day_first else "month"
        columns.append(f'Days in figures are read with the {first} first: "{days.shown_by}" can be nothing else.')
    return Taken(tuple(told), title(known[0].above), all_days, tuple(columns), tuple(_warnings(workbook)))


class _Reader:
    """Reads the rows of one sheet, one after the other; it lives no longer than that."""

    def __init__(self, layout: Layout, shelf: Shelf, days: DayReader, all_days: Days | None, several: bool) -> None:
        self.layout, self.shelf, self.days, self.all_days = layout, shelf, days, all_days
        self.tab = layout.sheet.name if several else ""
        self.place = _Place(self.tab, layout.headings[0]) if 0 in layout.headings else None
        self.rigs = _rigs_across(layout)

    def read(self, row: Row) -> Told:
        """What becomes of a row."""
        if row.empty:
            return Told(self.tab, row.number, "empty")
        if row.number in self.layout.headings:
            self.place = _Place(self.tab, self.layout.headings[row.number])
            return Told(self.tab, row.number, "heading")
        if self.place is None:
            return Told(self.tab, row.number, "beside", _cells(row))
        if heads_a_section(row, self.layout.sheet) and not self._names_a_part(row):
            text = next(cell.words for cell in row.cells if cell.text)
            self.place = replace(self.place, section=text, rig=rig_headed(text))
            return Told(self.tab, row.number, "section", (text,))
        return self._listed(self.place, row)

    def _names_a_part(self, row: Row) -> bool:
        return self.shelf.match(next(cell.words for cell in row.cells if cell.text)).sure

    def _listed(self, place: _Place, row: Row) -> Told:
        """A row that lists something, or says something beside the list."""
        group, notes = _group(place, row, self.days, self.all_days)
        told = Told(self.tab, row.number, "beside", group=group)
        typed, count = _name(place, row), counted(place.cell(row, "count"))
        if not typed and count is not None and not any(key(cell.text) in TOTALS for cell in row.cells):
            return replace(told, became="doubt", says=(f"{', '.join(_cells(row))}: what it is, is not said",))
        if not typed or key(typed) in TOTALS:
            return replace(told, says=_cells(row))
        match, number, problem = _read(self.shelf, typed, count, place)
        problem = problem or _taken_back(place, row)
        rig, said = self._rig(place, row)
        notes = (*said, *notes)
        if number is not None and not number.doubt and number.count == 0:
            return replace(told, became="not wanted", says=(f'"{typed}"', *notes))
        if problem or number is None:
            shown = f'"{typed}"' + (f', count "{cell.words}"' if (cell := place.cell(row, "count")).text else "")
            choices = _choices(match, count, number)
            return replace(told, became="doubt", says=(f"{shown}: {problem}", *notes), choices=choices)
        kind = self.shelf.kinds[match.part]
        line = Line(match.part, kind, number.count, number.spare, match.score, typed, rig)
        return replace(told, became="line", says=notes, line=line)

    def _rig(self, place: _Place, row: Row) -> tuple[str, tuple[str, ...]]:
        """The rig that a row is for, and what its cell says where that is none or several."""
        text = place.cell(row, "rig").words or self.rigs.get(row.number, "")
        if not text:
            return place.rig, ()
        rig = rig_said(text)
        return rig, () if rig else (f'rig "{text}"',)


def _rigs_across(layout: Layout) -> dict[int, str]:
    """The rig of rows over which one cell for the rig is set: by row number, the text of that cell."""
    found: dict[int, str] = {}
    columns = [(headings.row, at) for headings in layout.headings.values() if (at := headings.at("rig")) is not None]
    rows = layout.sheet.rows
    for heading, at in columns:
        for top, left, bottom, right in layout.sheet.merged:
            if left <= at <= right and heading < top <= len(rows):
                found.update(dict.fromkeys(range(top, min(bottom, len(rows)) + 1), rows[top - 1].at(left).words))
    return found


def _cells(row: Row) -> tuple[str, ...]:
    return tuple(f'"{cell.words}"' for cell in row.cells if cell.text)


def _name(place: _Place, row: Row) -> str:
    """What a row says it lists, with its maker before it where that has a column of its own."""
    name, make = place.cell(row, "name").words, place.cell(row, "make").words
    return f"{make} {name}" if name and make and make.casefold() not in name.casefold() else name


def _read(shelf: Shelf, typed: str, count: Counted | None, place: _Place) -> tuple[Match, Counted | None, str]:
    """The part that a name means, how many of it, and what is in doubt ("" where nothing is)."""
    match = shelf.match(typed)
    if not match.sure:
        for rest, number in within(typed):
            inner = shelf.match(rest)
            if inner.sure:
                match = inner
                if count is not None and not count.doubt and (count.count, count.spare) != (number.count, number.spare):
                    return match, None, "the name and its count say different numbers"
                count = number
                break
    if count is None and "count" not in place.headings.columns:
        count = _ONE  # as in a list, where a name with no count is one
    if count is None:
        return match, None, "no count is said"
    if count.doubt:
        return match, None, count.doubt
    if not match.sure:
        return match, count, "no part has a name like it" if not match.nearest else "which part it is, is not sure"
    if count.pairs and shelf.kinds[match.part] in PAIRED_KINDS:
        return match, None, f'"{match.part}" is a pair itself: are {count.pairs} or {count.count} wanted'
    return match, count, ""


def _taken_back(place: _Place, row: Row) -> str:
    """What speaks against a row that else is sure: its sender struck it out or hid it; "" where nothing does."""
    if any(place.cell(row, role).struck for role in ("count", "make", "name")):
        return "it is struck out in the sheet"
    return "the row is hidden in the sheet" if row.hidden else ""


def _choices(match: Match, count: Counted | None, number: Counted | None) -> tuple[Choice, ...]:
    """The lines that may be meant: the nearest parts, or the one that is sure with the counts that it may have."""
    known = 0 if number is None or number.doubt else number.count
    if not match.sure:
        return tuple(Choice(each.part, known, each.score) for each in match.nearest)
    counts = (count.pairs, count.count) if count is not None and count.pairs and not known else (known,)
    return tuple(Choice(match.part, each, match.score) for each in counts)


def _group(place: _Place, row: Row, reader: DayReader, all_days: Days | None) -> tuple[Group, tuple[str, ...]]:
    """What a row shares with others of its order, and what else its columns say."""
    span, said = _days(place, row, reader, all_days)
    group = Group(place.cell(row, "section").words or place.section, place.cell(row, "supplier").words, span)
    notes = [f'{role} "{cell.words}"' for role in _BESIDE if (cell := place.cell(row, role)).text]
    return group, (*notes, *said)


def _days(place: _Place, row: Row, reader: DayReader, all_days: Days | None) -> tuple[Days | None, tuple[str, ...]]:
    """The days that a row says for certain, and the cells about days that say anything else.

    How many days it is for says nothing more where the days of the whole sheet (`all_days`), or its own, are as many.
    """
    first, last = place.cell(row, "first"), place.cell(row, "last")
    span = reader.days(place.cell(row, "dates")) or reader.days(place.cell(row, "days"))
    one, other = reader.day(first), reader.day(last)
    if one is not None and other is not None and one <= other:
        span = one, other
        first = last = EMPTY
    left = {"from": first, "until": last}
    left |= {name: cell for name in ("dates", "days") if reader.days(cell := place.cell(row, name)) is None}
    if (whole := span or all_days) and left.get("days", EMPTY).text == str((whole[1] - whole[0]).days + 1):
        del left["days"]
    return span, tuple(f'{name} "{cell.words}"' for name, cell in left.items() if cell.text)


def _warnings(workbook: Workbook) -> Iterator[str]:
    """What to look at in how the file was read, and what of it was not."""
    yield from workbook.said
    for sheet in workbook.sheets:
        if sheet.hidden:
            rows = sum(not row.empty for row in sheet.rows)
            yield f'The sheet "{sheet.name}" is hidden and was not read: {_rows(rows)}. Show it to have it read.'


def _columns(sheet: Sheet, headings: Headings, several: bool) -> str:
    says = {role.name: role.says for role in ORDER}
    known = [f'{says[each.role]} in "{each.heading}"' for each in headings.columns.values()]
    left = [f'"{each.heading}"' for each in headings.others]
    where = (f'"{sheet.name}" ' if several else "") + (f"row {headings.row}" if headings.row else "their letters")
    not_read = f" Not read: {', '.join(left)}." if left else ""
    return f"Columns by {where}: {', '.join(known)}.{not_read}"


def _rows(number: int) -> str:
    return "1 row" if number == 1 else f"{number} rows"
