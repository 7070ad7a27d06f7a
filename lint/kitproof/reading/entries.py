"""A whole text to a document: lines gathered into entries, of which only those that are not known are read anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from kitproof.reading.characters import split_lines
from kitproof.reading.document import Document, Entry, Slip
from kitproof.reading.first_words import entry_word

Known = Mapping[str, Entry]
"""Entries that were read before, by the very text of their lines: the same text reads as the same entry."""

NONE_KNOWN: Known = {}


def read(text: str, path: str, known: Known = NONE_KNOWN) -> Document:
    """The document that a text reads as. Whatever the text, there is one: what cannot be read is in its slips.

    Entries whose text is `known` are taken from there, so that a changed line costs the reading of one entry.
    """
    lines, _ = split_lines(text)
    strays: list[tuple[int, Slip]] = []
    entries: list[Entry] = []
    begun: tuple[int, str] | None = None
    below: list[tuple[int, str]] = []
    for number, line in enumerate(lines, start=1):
        if _says_nothing(line):
            continue
        if not line[0].isspace() and (begun is None or entry_word(line) or not _lost_its_indent(line, begun[1])):
            if begun is not None:
                entries.append(_known_or_read(begun, below, lines, known))
            begun, below = (number, line), []
        elif begun is None:
            strays.extend((number, slip) for slip in _stray(line))
        else:
            below.append((number - begun[0], line))
    if begun is not None:
        entries.append(_known_or_read(begun, below, lines, known))
    return Document(path, text, lines, tuple(entries), tuple(strays))


def by_text(document: Document) -> dict[str, Entry]:
    """The entries of a document by the text of their lines, to be known when it is read again."""
    return {_text(document.lines, each.line, each.rows): each for each in document.entries}


def _text(lines: Sequence[str], line: int, rows: int) -> str:
    return "\n".join(lines[line - 1 : line - 1 + rows])


def _known_or_read(begun: tuple[int, str], below: list[tuple[int, str]], lines: Sequence[str], known: Known) -> Entry:
    if known:
        line, rows = begun[0], below[-1][0] + 1 if below else 1
        entry = known.get(_text(lines, line, rows))
        if entry is not None:
            return entry if entry.line == line else replace(entry, line=line)
    from kitproof.reading.anew import entry_anew  # loads lark, where a value is to be read

    return entry_anew(begun, below)


def _says_nothing(line: str) -> bool:
    """Whether the line is blank or only a comment."""
    bare = line.lstrip()
    return not bare or bare[0] == "#"


def _lost_its_indent(line: str, first: str) -> bool:
    from kitproof.reading.anew import lost_its_indent

    return lost_its_indent(line, first)


def _stray(line: str) -> list[Slip]:
    from kitproof.reading.anew import stray

    return stray(line)
