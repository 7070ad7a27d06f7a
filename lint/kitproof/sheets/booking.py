"""Readings of an inventory put into a parts book: new parts below, new fields in their parts, all else as it stands.

What a book says already stays unless it is told to give way, and either way it is said.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

from msgspec import Struct

from kitproof.mending.edits import last_line, put_below
from kitproof.mending.layout import INDENT, beside, line_end
from kitproof.mending.sameness import meaning
from kitproof.proofing.findings import Change
from kitproof.reading.document import Document, Entry, Field, Quantity
from kitproof.reading.entries import read
from kitproof.reading.fields import read_line
from kitproof.reading.rewriting import rewritten
from kitproof.sheets.inventory import Inventory, Stocked, folded
from kitproof.sheets.readings import Reading
from kitproof.words.kinds import fields_of
from kitproof.words.shapes import Shape

AS_NEAR = 0.005
"""Two figures that differ by no more than this share of the larger are one figure, rounded or in another unit."""
INSTEAD = {"mass": "weighed"}
"""What else a book may say the same thing with."""
UNITS_OF_WRITING = ("unit", "how")
"""What says how a quantity was written, and not what it is."""


State = Literal["added", "changed", "agrees", "kept"]
"""`added`: the book said nothing of it; `kept`: what the book says contradicts it, and stays."""


class Entered(Struct, frozen=True):
    """What became of one reading, and what the book says or said in its place ("" where nothing)."""

    reading: Reading
    state: State
    was: str = ""


class Booked(Struct, frozen=True):
    """A book with an inventory put into it: its text, each part with what became of its readings, and the names of
    the parts that are new."""

    text: str
    parts: tuple[tuple[Stocked, tuple[Entered, ...]], ...]
    new: frozenset[str]

    def number(self, *states: State) -> int:
        """How many readings became so."""
        return sum(each.state in states for _, entered in self.parts for each in entered)


def kinds_of(text: str) -> dict[str, str]:
    """The kind of each part of a book, by its name."""
    return {each.name: each.part_kind for each in _parts(read(text, ""))}


def _parts(document: Document) -> Iterator[Entry]:
    return (each for each in document.entries if each.kind == "part" and each.name)


def booked(found: Inventory, text: str, opening: str, *, overwrite: bool) -> Booked:
    """A book's text with what an inventory says; an empty text is a book that is not there yet, and gets an opening
    comment. With `overwrite` the inventory's figures take the place of those that they contradict.

    What the book has stays, comments, layout and line ends included.
    """
    document = read(text, "")
    entries = {folded(each.name): each for each in reversed(list(_parts(document)))}
    entering = _Entering(document, overwrite)
    parts: list[tuple[Stocked, tuple[Entered, ...]]] = []
    new: list[Stocked] = []
    for part in found.parts:
        entry = entries.get(folded(part.name))
        if entry is None:
            new.append(part)
            parts.append((part, tuple(Entered(each, "added") for each in part.readings)))
        else:
            parts.append((part, tuple(entering.entered(each, part.kind, entry) for each in part.readings)))
    whole = _with_new(document, entering.changes, [_lines(each) for each in new], opening)
    return Booked(whole, tuple(parts), frozenset(each.name for each in new))


def _with_new(document: Document, changes: Sequence[Change], new: Sequence[list[str]], opening: str) -> str:
    """The text changed, and new parts below it, each after a blank line."""
    end = line_end(document.text)
    changed = rewritten(document, [(each.where, each.text) for each in changes])
    if not new:
        return changed
    above = changed.rstrip("\r\n") if changed.strip() else f"# {opening}"
    return f"{end}{end}".join([above, *(end.join(lines) for lines in new)]) + end


def _lines(part: Stocked) -> list[str]:
    """A new part as the lines of a book."""
    return [f"part {part.label}", *(f"{INDENT}{beside(each.word, each.value)}" for each in part.readings)]


class _Entering:
    """The changes to the parts that a book has; it lives no longer than that."""

    def __init__(self, document: Document, overwrite: bool) -> None:
        self.document, self.overwrite = document, overwrite
        self.changes: list[Change] = []

    def entered(self, reading: Reading, kind: str, entry: Entry) -> Entered:
        """What becomes of a reading of a part that the book has."""
        words = (reading.word, INSTEAD.get(reading.word, reading.word))
        there = [field for field in entry.fields if field.word in words]
        agreeing = next((each for each in there if _agrees(each, reading, kind)), None)
        if agreeing is not None:
            return Entered(reading, "agrees", self._said(entry, agreeing))
        other = _in_the_way(there, reading, kind)
        if other is None:
            self.changes.append(put_below(self.document, last_line(entry), reading.word, reading.value))
            return Entered(reading, "added")
        not_known = getattr(other.value, "known", True) is False
        if other.word == reading.word and (self.overwrite or not_known):
            where = self.document.where(entry, other.row, other.value_start, other.value_end)
            self.changes.append(Change(where, reading.value))
            return Entered(reading, "changed", self._said(entry, other))
        return Entered(reading, "kept", self._said(entry, other))

    def _said(self, entry: Entry, field: Field) -> str:
        """A value as it stands in the book."""
        text = self.document.lines[entry.line + field.row - 1][field.value_start : field.value_end]
        return text if field.shape is not Shape.WEIGHED else f"{field.word} {text}"


def _in_the_way(there: Sequence[Field], reading: Reading, kind: str) -> Field | None:
    """The line that says something else; of what may be said several times, one of the same family."""
    if not there or reading.word == "note":
        return None
    if not fields_of("part", kind)[reading.word].repeats:
        return there[0]
    family = getattr(_value(reading, kind), "family", None)
    return next((each for each in there if getattr(each.value, "family", None) == family), None)


def _agrees(field: Field, reading: Reading, kind: str) -> bool:
    """Whether a book says the same already, as near as rounding leaves it, or a range that the reading lies in."""
    said = _value(reading, kind)
    if isinstance(field.value, Quantity) and isinstance(said, Quantity) and field.value.dimension == said.dimension:
        give = AS_NEAR * max(abs(said.low), abs(said.high))
        return field.value.low - give <= said.low and said.high <= field.value.high + give
    exact = field.shape in (Shape.COUNT, Shape.TEXT)
    return field.value is not None and _alike(_bare(field.value), _bare(said), exact)


def _value(reading: Reading, kind: str) -> object:
    """What a reading reads as in a part of a kind; a reading is only ever made where that is something."""
    field = read_line("part", kind, f"{INDENT}{reading.word} {reading.value}").field
    assert field is not None
    return field.value


def _bare(node: object) -> object:
    """What a value says, without how it was written."""
    names: Sequence[str] = getattr(node, "__struct_fields__", ())
    if names:
        kept = [each for each in names if each not in (*UNITS_OF_WRITING, "start", "end", "at", "said")]
        return (type(node).__name__, *(_bare(getattr(node, each)) for each in kept), _at(node))
    if isinstance(node, tuple):
        return tuple(_bare(each) for each in node)
    return meaning(node)


def _at(node: object) -> object:
    """Where a value holds. A port that says no place agrees with one that says it: an inventory knows of none."""
    return None if type(node).__name__ == "Interface" else _bare(getattr(node, "at", None))


def _alike(one: object, other: object, exact: bool) -> bool:
    """Whether two values are the same, figures as near as rounding leaves them."""
    if isinstance(one, float) and isinstance(other, float) and not exact:
        return abs(one - other) <= AS_NEAR * max(abs(one), abs(other))
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_alike, one, other, [exact] * len(one)))
    return one == other


def opening_of(sheet: str) -> str:
    """The first comment of a book that is made from a sheet."""
    return f'Taken from the inventory "{sheet}" by kitproof from-sheet --parts.'
