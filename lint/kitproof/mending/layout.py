"""A list in one canonical layout: values aligned, a space before units, a blank line between entries.

Each line is written anew only where it then reads as the same. A line of which something could not be read, or not
taken as it stands, is left as it is: what is to become of it is for a person.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from kitproof.mending.sameness import meaning
from kitproof.reading.characters import PlainLine, plain, split_lines
from kitproof.reading.document import Document, Entry, Field
from kitproof.reading.entries import read
from kitproof.reading.fields import read_line
from kitproof.reading.first_lines import first_line
from kitproof.words.shapes import Shape
from kitproof.words.units import UNITS

INDENT = "  "
COLUMN = 10
"""How far after the indent values stand; a longer word has two spaces after it."""

_BLANKS = " \t"
_NAME = "\x00"  # stands for a name in quotes while the words around it are set; no line that is read has it
_SPACED = sorted((*UNITS, "x"), key=len, reverse=True)
_UNITS = "|".join(re.escape(name) for name in _SPACED if name != "°")
_UNIT_AT_NUMBER = re.compile(rf"(?<=\d)(?=(?:{_UNITS})(?![\w/·²°^*-]))")
_BEFORE_DEGREES = re.compile(r"(?<=\d) (?=°(?!\w))")
_TIMES = re.compile(r"(?<=\d) ?x ?(?=\d)")
_WORDS = re.compile(r'"_*"|,|[^\s",]+|"')


class _Row(NamedTuple):
    """A line as it will stand: its text and end, and what it is. `apart` says whether a blank line stands before it,
    and `blank` how that line ends, None where it has to be made.
    """

    text: str
    end: str
    kind: str  # "first" of an entry, "comment" in column 1, "kept" as it was, "" for anything else
    apart: bool
    blank: str | None


def neatened(text: str) -> str:
    """The text in the canonical layout. It reads as the same document, and neatened again it is the same text."""
    rows = _rows(read(text, ""))
    for number, row in enumerate(rows):
        if row.kind == "first":
            top = number
            while top and not rows[top].apart and rows[top - 1].kind == "comment":
                top -= 1
            rows[top] = rows[top]._replace(apart=True)
    return _joined(rows, line_end(text))


def line_end(text: str) -> str:
    """How the first line of a text ends; a newline where it has one line only."""
    return next((end for end in split_lines(text)[1] if end), "\n")


def _joined(rows: list[_Row], above: str) -> str:
    """The rows as text: no blank line first or last, and the last line ended."""
    pieces: list[str] = []
    for row in rows:
        if row.apart and pieces:
            pieces.append(above if row.blank is None else row.blank)
        above = row.end or above
        pieces += (row.text, above)
    return "".join(pieces)


def _rows(document: Document) -> list[_Row]:
    """The lines of a document that say something, each as it will stand."""
    said, kept = _read_lines(document)
    rows: list[_Row] = []
    apart, blank = False, None
    for number, (line, end) in enumerate(zip(*split_lines(document.text), strict=True), start=1):
        if not line.strip():
            apart, blank = True, blank or end
            continue
        text, kind = line, "kept"
        if number in said:
            entry, field = said[number]
            text, kind = (_entry_line(line), "first") if field is None else (_field_line(line, entry, field), "")
        elif number not in kept:
            text, kind = _comment(line), "comment" if line[0] == "#" else ""
        rows.append(_Row(text, end, kind, apart, blank))
        apart, blank = False, None
    return rows


def _read_lines(document: Document) -> tuple[dict[int, tuple[Entry, Field | None]], set[int]]:
    """By number, the lines that are read in full (an entry's first one has no field), and those to be kept."""
    kept = {line for line, _ in document.slips}
    said: dict[int, tuple[Entry, Field | None]] = {}
    for entry in document.entries:
        kept |= {entry.line + row for row in (*entry.unread, *(slip.row for slip in entry.slips))}
        said[entry.line] = (entry, None)
        said |= {entry.line + field.row: (entry, field) for field in entry.fields}
    return {number: each for number, each in said.items() if number not in kept}, kept


def _comment(line: str) -> str:
    """A line that is only a comment: in column 1 as it is, else under the fields."""
    return line.rstrip(_BLANKS) if line[0] == "#" else INDENT + line.strip()


def _entry_line(line: str) -> str:
    """An entry's first line."""
    was = meaning(first_line(line))

    def holds(text: str) -> bool:
        return meaning(first_line(text)) == was

    return _first_that(holds, line, lambda words, units: _set_out(words, 0, words.end, units))


def _field_line(line: str, entry: Entry, field: Field) -> str:
    """A field's line: its word, and its value in the column of values."""
    was = meaning(field)

    def holds(text: str) -> bool:
        again = read_line(entry.kind, entry.part_kind, text)
        return again.field is not None and not again.slips and meaning(again.field) == was

    def written(words: PlainLine, units: bool) -> str:
        word = " ".join(line[field.start : field.value_start].split())
        value = _set_out(words, field.value_start, words.end, units)
        return INDENT + (f"{word} {value}" if field.shape is Shape.TAG else beside(word, value))

    return _first_that(holds, line, written)


def beside(word: str, value: str) -> str:
    """A field's word and its value in the column of values; an order's line has no word, a flag no value."""
    if not word or not value:
        return word or value
    return f"{word:<{COLUMN}}{value}" if len(word) < COLUMN else f"{word}  {value}"


def _first_that(holds: Callable[[str], bool], line: str, written: Callable[[PlainLine, bool], str]) -> str:
    """The line written anew, with units set apart if it then reads as the same, else without; else as it is."""
    words = plain(line)
    comment = line[words.end :].lstrip().rstrip(_BLANKS)
    for units in (True, False):
        text = written(words, units) + (f"{INDENT}{comment}" if comment else "")
        if holds(text):
            return text
    return line


def _set_out(words: PlainLine, start: int, end: int, units: bool) -> str:
    """A stretch of a line with one space between words and behind commas.

    With `units`, one between a number and its unit as well, but none before °.
    """
    names: list[str] = []
    text = ""
    last = start
    for found in _WORDS.finditer(words.text, start, end):
        word = words.typed[found.start() : found.end()]
        named = found[0][0] == '"'
        if named:
            names.append(word)
            word = _NAME
        touches = found.start() == last and text[-1:] not in (",", _NAME) and not named
        text += word if not text or word == "," or touches else f" {word}"
        last = found.end()
    if units:
        text = _TIMES.sub(" x ", _BEFORE_DEGREES.sub("", _UNIT_AT_NUMBER.sub(" ", text)))
    for name in names:
        text = text.replace(_NAME, name, 1)
    return text
