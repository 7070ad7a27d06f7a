"""Which fields may stand on lines of an entry that could not be read: what was meant must not be taken for unsaid."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from kitproof.reading.document import Document, Entry, Where
from kitproof.words.kinds import FieldWord, fields_of

_DAY = re.compile(r"\d{4}-\d\d?-\d\d?", re.ASCII)


def lost_fields(document: Document, entry: Entry, known: Mapping[str, FieldWord]) -> Iterator[tuple[FieldWord, Where]]:
    """Fields that may stand on rows that could not be read: what the row starts with, or the word nearest to it."""
    for slip in entry.slips:
        if slip.kind == "unknown-word" and slip.nearest and slip.nearest[0] in known:
            yield known[slip.nearest[0]], document.where(entry, slip.row, slip.start, slip.end)
    rows = [row for row in entry.unread if row]
    if not rows:
        return
    from kitproof.reading.fields import key_of, vocabulary  # loaded already where a line could not be read

    for row in rows:
        text = document.lines[entry.line + row - 1]
        start = len(text) - len(text.lstrip())
        match = vocabulary(entry.kind, entry.part_kind).pattern.match(text, start)
        word = known.get(key_of(match[0])) if match else None
        if match and word:
            yield word, document.where(entry, row, start, match.end())


def lost_days(document: Document, entry: Entry) -> Where | None:
    """Where the `dates` of an order or a rig may stand that could not be read: the word misspelt, or a day on the line.

    None where they are read all the same, or where nothing looks like them.
    """
    if any(field.word == "dates" for field in entry.fields):
        return None
    for word, where in lost_fields(document, entry, fields_of(entry.kind)):
        if word.name == "dates":
            return where
    for row in entry.unread:
        text = document.lines[entry.line + row - 1]
        if row and _DAY.search(text):
            return document.where(entry, row, len(text) - len(text.lstrip()), len(text.rstrip()))
    return None
