"""One entry read anew: its first line, the lines below it each by itself, and which of its fields stand."""

from __future__ import annotations

from msgspec.structs import replace

from kitproof.reading.characters import plain
from kitproof.reading.document import Entry, Field, Place, Slip, Weighed
from kitproof.reading.fields import Line, closed_lines, read_line, vocabulary
from kitproof.reading.first_lines import first_line
from kitproof.reading.notes import Notes
from kitproof.words.shapes import Shape

_SLOTS = (Shape.SLOT, Shape.ALSO)


def lost_its_indent(line: str, first: str) -> bool:
    """Whether a line in column 1 that begins no entry is a field of the one above, so that more can stand below it."""
    above = first_line(first)
    return above.kind != "" and vocabulary(above.kind, above.part_kind).pattern.match(line) is not None


def stray(text: str) -> list[Slip]:
    """The slip of an indented line that no entry stands above."""
    notes = closed_lines(text)
    if notes is None:
        notes = Notes(plain(text))
        says = "an entry above it, such as list, part or rig, starting in column 1"
        notes.add("unreadable-line", notes.line.start, notes.line.end, says)
    return notes.slips


def _unindented(text: str) -> Line:
    """What a field in column 1 reads as: nothing, with the line to put in its place."""
    notes = closed_lines(text)
    if notes is None:
        notes = Notes(plain(text))
        says = "a line that starts with two spaces, as it belongs to the entry above"
        notes.add("unreadable-line", 0, notes.line.end, says, (), f"  {text[: notes.line.end]}")
    return Line(None, tuple(notes.slips))


def entry_anew(begun: tuple[int, str], below: list[tuple[int, str]]) -> Entry:
    """One entry from its first line and the lines below it (row, text)."""
    number, text = begun
    entry = first_line(text)
    rows = below[-1][0] + 1 if below else 1
    if entry.kind == "":
        unread = (0, *(row for row, _ in below))
        return replace(entry, line=number, rows=rows, unread=unread)
    fields: list[Field] = []
    slips: list[Slip] = list(entry.slips)
    unread_rows: list[int] = list(entry.unread)
    for row, line in below:
        indented = line[0].isspace()
        read_as = read_line(entry.kind, entry.part_kind, line) if indented else _unindented(line)
        slips.extend(replace(slip, row=row) for slip in read_as.slips)
        if read_as.field is None:
            unread_rows.append(row)
        else:
            fields.append(replace(read_as.field, row=row))
    kept, contradictions = _once_each(entry, fields, dict(below))
    slips.extend(contradictions)
    slips.sort(key=lambda slip: (slip.row, slip.start))
    return replace(entry, line=number, rows=rows, fields=tuple(kept), slips=tuple(slips), unread=tuple(unread_rows))


class _Kept:
    """The fields of one entry that stand. `slot_end` is where an `or` line goes: after the last slot line, as long as
    nothing but lines whose value could not be read came since; None where there is none.
    """

    def __init__(self) -> None:
        self.fields: list[Field] = []
        self.slot_end: int | None = None

    def add(self, field: Field) -> None:
        self.fields.append(field)
        if field.shape in _SLOTS:
            self.slot_end = len(self.fields)
        elif field.value is not None:
            self.slot_end = None

    def add_to_slot(self, field: Field) -> bool:
        """Adds an `or` line to the slot line above it; False where there is none."""
        if self.slot_end is None:
            return False
        self.fields.insert(self.slot_end, field)
        self.slot_end += 1
        return True

    def drop(self, field: Field) -> None:
        place = self.fields.index(field)
        del self.fields[place]
        if self.slot_end is not None and place < self.slot_end:
            self.slot_end -= 1


def _once_each(entry: Entry, fields: list[Field], lines: dict[int, str]) -> tuple[list[Field], list[Slip]]:
    """The fields that stand, and slips for those that contradict one above: the first one that was read is kept."""
    words = vocabulary(entry.kind, entry.part_kind).fields
    repeated = {field.word for field in words.values() if field.repeats} | {"line"}
    kept = _Kept()
    slips: list[Slip] = []
    seen: dict[str, Field] = {}
    for field in fields:
        first = seen.get(field.word) if field.word not in repeated else None
        if field.shape is Shape.OR_SLOT:
            if not kept.add_to_slot(field):
                slips.append(_slip("unreadable-line", field, "a slot line just above it, which it adds to", lines))
        elif first is not None and (first.value is not None or field.value is None):
            says = f"the entry has said {field.word} further up already"
            slips.append(_slip("figures-contradict", field, says, lines))
        elif _says_forward(field) and any(_says_forward(other) for other in seen.values()):
            says = "how far forward it lies is said once, by weighed or by cog"
            slips.append(_slip("figures-contradict", field, says, lines))
        else:
            if first is not None:
                kept.drop(first)  # it could not be read, which is said; it must not hide this one
            seen[field.word] = field
            kept.add(field)
    return kept.fields, slips


def _says_forward(field: Field) -> bool:
    """Whether the field fixes how far forward the centre of gravity is."""
    value = field.value
    return isinstance(value, Weighed) or (field.word == "cog" and isinstance(value, Place) and "forward" in value.said)


def _slip(kind: str, field: Field, says: str, lines: dict[int, str]) -> Slip:
    said = lines[field.row][field.start : field.end]
    return Slip(kind, field.row, field.start, field.end, said, says, field=field.word)
