"""Changes to the text of a list, made from the nodes of its document: names exchanged, lines put in and taken out.

What is put in stands in the canonical layout; nothing else moves, and no comment is lost.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from kitproof.mending.layout import INDENT, beside, line_end
from kitproof.proofing.findings import Change
from kitproof.reading.characters import plain, split_lines
from kitproof.reading.document import Document, Entry, Field, Held, Ordered, State, Where


class Spot(NamedTuple):
    """An entry, and the field of it that is meant; None for its first line."""

    entry: Entry
    field: Field | None


def spot_at(document: Document, where: Where) -> Spot | None:
    """The entry and field that a place lies in; None where none is read there."""
    if where.path != document.path:
        return None
    for entry in document.entries:
        if entry.line == where.line:
            return Spot(entry, None)
        for field in entry.fields:
            if entry.line + field.row == where.line:
                return Spot(entry, field)
    return None


def quoted(name: str) -> str:
    """A name in quotes; single ones where it has a double one in it."""
    return f"'{name}'" if '"' in name else f'"{name}"'


def exchanged(document: Document, spot: Spot, start: int, end: int, text: str) -> Change:
    """A stretch of a line, by its columns, with another text in its place."""
    row = spot.field.row if spot.field else 0
    return Change(document.where(spot.entry, row, start, end), text)


def put_below(document: Document, line: int, word: str, value: str) -> Change:
    """A new field line below a line, which counts from 1."""
    lines, ends = split_lines(document.text)
    column = len(lines[line - 1]) + 1
    end = ends[line - 1] or line_end(document.text)
    return Change(Where(document.path, line, column, line, column), f"{end}{INDENT}{beside(word, value)}")


def last_line(entry: Entry) -> int:
    """The line of the last field of an entry, or its first line."""
    return entry.line + max((field.row for field in entry.fields), default=0)


def line_taken_out(document: Document, line: int) -> Change:
    """A line taken out with its end; a comment on it stays, on a line of its own."""
    lines, ends = split_lines(document.text)
    text = lines[line - 1]
    end = plain(text).end
    if text[end:].strip():
        comment = text[end:].lstrip()
        kept = comment if not text[:1].isspace() else INDENT + comment
        return Change(Where(document.path, line, 1, line, len(text) + 1), kept)
    if ends[line - 1]:
        return Change(Where(document.path, line, 1, line + 1, 1), "")
    if line == 1:
        return Change(Where(document.path, 1, 1, 1, len(text) + 1), "")
    return Change(Where(document.path, line - 1, len(lines[line - 2]) + 1, line, len(text) + 1), "")


def entry_taken_out(document: Document, entry: Entry) -> tuple[Change, ...]:
    """An entry taken out line by line; blank lines inside it and below it go too, comments stay."""
    lines, ends = split_lines(document.text)
    last = entry.line + entry.rows - 1
    while last < len(lines) and ends[last - 1] and not lines[last].strip() and ends[last]:
        last += 1
    read = {entry.line, *(entry.line + field.row for field in entry.fields)}
    gone = [n for n in range(entry.line, last + 1) if n in read or not lines[n - 1].strip()]
    return tuple(line_taken_out(document, number) for number in gone)


def state_taken_out(document: Document, spot: Spot, state: State) -> Change:
    """A state taken out with the comma before it."""
    row = spot.field.row if spot.field else 0
    line = document.lines[spot.entry.line + row - 1]
    start = line.rindex(",", 0, state.start)
    return exchanged(document, spot, start, state.end, "")


# Lines of orders and cases


class Listed(NamedTuple):
    """A line of an order or a case that names a part, with how many."""

    spot: Spot
    value: Ordered | Held

    @property
    def many(self) -> int:
        return self.value.count


def ordered_lines(document: Document, name: str) -> list[Listed]:
    """The lines of orders that name a part."""
    return [each for each in _listed(document) if isinstance(each.value, Ordered) and each.value.name.text == name]


def held_lines(document: Document, name: str) -> list[Listed]:
    """The lines of cases that hold a part."""
    found = [each for each in _listed(document) if isinstance(each.value, Held)]
    return [each for each in found if each.value.name.text == name and not each.value.is_case]  # type: ignore[union-attr]


def _listed(document: Document) -> Iterator[Listed]:
    for entry in document.entries:
        for field in entry.fields:
            if isinstance(field.value, Ordered | Held):
                yield Listed(Spot(entry, field), field.value)


def named_anew(document: Document, listed: Listed, name: str) -> Change:
    """A line of an order or a case with another name on it."""
    return exchanged(document, listed.spot, listed.value.name.start, listed.value.name.end, quoted(name))


def counted_anew(document: Document, listed: Listed, count: int) -> Change:
    """The line with another count."""
    field = listed.spot.field
    assert field is not None
    return exchanged(document, listed.spot, field.value_start, listed.value.name.start, f"{count} x ")
