"""A whole text to a document: lines gathered into entries, each line read by itself."""

from __future__ import annotations

from dataclasses import replace

from kitproof.reading.characters import split_lines
from kitproof.reading.document import Document, Entry, Field, Place, Slip, Weighed
from kitproof.reading.fields import read_line, vocabulary
from kitproof.reading.first_lines import first_line
from kitproof.words.shapes import Shape

_SLOTS = (Shape.SLOT, Shape.ALSO, Shape.OR_SLOT)


def read(text: str, path: str) -> Document:
    """The document that a text reads as. Whatever the text, there is one: what cannot be read is in its slips."""
    lines, _ = split_lines(text)
    strays: list[tuple[int, Slip]] = []
    entries: list[Entry] = []
    begun: tuple[int, str] | None = None
    below: list[tuple[int, str]] = []
    for number, line in enumerate(lines, start=1):
        if _says_nothing(line):
            continue
        if not line[0].isspace():
            if begun is not None:
                entries.append(_entry(begun, below))
            begun, below = (number, line), []
        elif begun is None:
            strays.append((number, _stray(line)))
        else:
            below.append((number - begun[0], line))
    if begun is not None:
        entries.append(_entry(begun, below))
    return Document(path, text, lines, tuple(entries), tuple(strays))


def _says_nothing(line: str) -> bool:
    """Whether the line is blank or only a comment."""
    bare = line.lstrip()
    return not bare or bare[0] == "#"


def _stray(line: str) -> Slip:
    start, end = len(line) - len(line.lstrip()), len(line.rstrip())
    says = "an entry above it, such as list, part or rig, starting in column 1"
    return Slip("unreadable-line", 0, start, end, line[start:end][:200], says)


def _entry(begun: tuple[int, str], below: list[tuple[int, str]]) -> Entry:
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
        read_as = read_line(entry.kind, entry.part_kind, line)
        slips.extend(replace(slip, row=row) for slip in read_as.slips)
        if read_as.field is None:
            unread_rows.append(row)
        else:
            fields.append(replace(read_as.field, row=row))
    kept, contradictions = _once_each(entry, fields)
    slips.extend(contradictions)
    slips.sort(key=lambda slip: (slip.row, slip.start))
    return replace(entry, line=number, rows=rows, fields=tuple(kept), slips=tuple(slips), unread=tuple(unread_rows))


def _once_each(entry: Entry, fields: list[Field]) -> tuple[list[Field], list[Slip]]:
    """The fields that stand, and slips for those that contradict one above: the first one is kept."""
    words = vocabulary(entry.kind, entry.part_kind).fields
    repeated = {field.word for field in words.values() if field.repeats} | {"line"}
    kept: list[Field] = []
    slips: list[Slip] = []
    seen: dict[str, Field] = {}
    for field in fields:
        if field.word in seen and field.word not in repeated:
            slips.append(_again(field, f"{field.word} once: it is said above already"))
            continue
        if field.shape is Shape.OR_SLOT and (not kept or kept[-1].shape not in _SLOTS):
            slips.append(_slip("unreadable-line", field, "a slot line above it, which it adds to"))
            continue
        if _says_forward(field) and any(_says_forward(other) for other in seen.values()):
            slips.append(_again(field, "the forward place once: from weighed or from cog"))
            continue
        seen.setdefault(field.word, field)
        kept.append(field)
    return kept, slips


def _says_forward(field: Field) -> bool:
    """Whether the field fixes how far forward the centre of gravity is."""
    value = field.value
    return isinstance(value, Weighed) or (field.word == "cog" and isinstance(value, Place) and "forward" in value.said)


def _again(field: Field, says: str) -> Slip:
    return _slip("figures-contradict", field, says)


def _slip(kind: str, field: Field, says: str) -> Slip:
    return Slip(kind, field.row, field.start, field.end, field.word, says, field=field.word)
