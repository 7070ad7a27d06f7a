"""The first line of an entry: its kind, its name, and what else it says. A pure function of the line."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from msgspec.structs import replace

from kitproof.reading.alike import draft
from kitproof.reading.characters import PlainLine, fold, plain
from kitproof.reading.document import Entry
from kitproof.reading.drafts import Doubt, RigLine, UnreadableError, WaiveLine, Word
from kitproof.reading.fields import closed_lines, key_of, pattern_of, unreadable
from kitproof.reading.first_words import ENTRY_WORDS, entry_word
from kitproof.reading.notes import Notes
from kitproof.reading.numerals import misread
from kitproof.reading.quantities import quantity
from kitproof.reading.values import rig_name
from kitproof.words.dimensions import NUMBER
from kitproof.words.kinds import KINDS
from kitproof.words.nearest import nearest
from kitproof.words.shapes import Shape

SUBJECTS = ("rig", "case", "move", "part", "list")
_FIRST_WORD = re.compile(r"[^\s\",]+")
_BY_LENGTH = sorted(KINDS, key=len, reverse=True)
_KIND = re.compile(rf"(?ai:{'|'.join(pattern_of(word) for word in _BY_LENGTH)})(?![\w-])")
_KIND_WORDS = {key_of(word): word for word in KINDS}
_NAMED = {
    "list": 'its title in quotes, such as list "The Glass Orchard"',
    "use": 'the file in quotes, such as use "stock/harrowby.kitlist"',
    "part": 'its kind and its name in quotes, such as part head "Fenner 12 head"',
    "order": 'whom it is from, in quotes, such as order "From Harrowby"',
    "rig": "its name, such as rig A or rig B like A",
    "move": 'its name in quotes, such as move "Van to the pier"',
    "case": 'its name in quotes, such as case "Tall tube 2"',
    "weights": "how far masses may be off, such as weights within 2 %",
    "waive": "a rule and where it is accepted, such as waive lens-unsupported in rig B",
}


@lru_cache(maxsize=4096)
def first_line(text: str) -> Entry:
    """The entry as its first line has it, without fields, on line 0. Its kind is "" where its word is not known."""
    closed = closed_lines(text)
    if closed is not None and closed.line.forbidden is None:
        return Entry("", "", 0, 1, len(text), slips=tuple(closed.slips), unread=(0,))
    line = plain(text)
    kind = entry_word(text)
    if not kind:
        return _unknown_entry(line)
    notes = Notes(line, "", _skip(line, len(kind)))
    entry = Entry(kind, "", 0, 1, line.end)
    if kind == "part":
        entry = _part(entry, notes)
    elif kind == "rig":
        entry = _rig(entry, notes)
    elif kind == "waive":
        entry = _waive(entry, notes)
    elif kind == "weights":
        within = _draft("weights_line", kind, notes)
        value = quantity(within, (NUMBER,), notes) if isinstance(within, Doubt) else None
        entry = replace(entry, within=value if value is not None and value.known else None)
    elif kind != "order" or notes.value_start < line.end:
        entry = _named(entry, notes)
    # A control character is one slip; what else cannot be read is most likely its doing.
    return replace(entry, slips=tuple(closed.slips if closed else notes.slips))


def _skip(line: PlainLine, at: int) -> int:
    while at < line.end and line.text[at] == " ":
        at += 1
    return at


def _unknown_entry(line: PlainLine) -> Entry:
    notes = Notes(line)
    match = _FIRST_WORD.match(line.text)
    says = f"a kind of entry: {', '.join(ENTRY_WORDS)}"
    if match is None:
        notes.add("unreadable-line", 0, line.end, says)
    else:
        near = nearest(match[0], ENTRY_WORDS)
        notes.add("unknown-word", 0, match.end(), says, near)
    return Entry("", "", 0, 1, line.end, slips=tuple(notes.slips), unread=(0,))


def _draft(start: str, kind: str, notes: Notes) -> Any:
    """The draft of what stands after the entry's word; None with a slip where it cannot be read."""
    if kind == "weights" and misread(Shape.QUANTITY, notes):
        return None
    try:
        return draft(start, notes.line.text, notes.value_start, notes.line.end)
    except UnreadableError as trouble:
        unreadable(trouble.at, _NAMED[kind], notes)
        return None


def _named(entry: Entry, notes: Notes) -> Entry:
    """The name in quotes; one that stands there bare is taken, with a slip, so that others can still refer to it."""
    word = _draft("name_line", entry.kind, notes)
    if isinstance(word, Word):
        return replace(entry, name=notes.name(word).text, name_start=word.start, name_end=word.end)
    bare = notes.slips[-1] if notes.slips else None
    if bare is not None and bare.repair is not None:
        return replace(entry, name=bare.said, name_start=bare.start, name_end=bare.end)
    return entry


def _part(entry: Entry, notes: Notes) -> Entry:
    line = notes.line
    match = _KIND.match(line.text, notes.value_start)
    if match is not None:
        notes.value_start = _skip(line, match.end())
        return replace(_named(entry, notes), part_kind=_KIND_WORDS[key_of(match[0])])
    quote = line.text.find('"', notes.value_start)
    end = len(line.text[: quote if quote >= 0 else line.end].rstrip())
    if end <= notes.value_start:
        begin = notes.value_start if notes.value_start < line.end else 0
        notes.add("unreadable-line", begin, line.end, _NAMED["part"])
    else:
        said = fold(line.text[notes.value_start : end])
        says = f"a kind of part, such as {', '.join(list(KINDS)[:5])}"
        notes.add("unknown-word", notes.value_start, end, says, nearest(said, KINDS))
    if quote < 0:
        return entry
    notes.value_start = quote
    return _named(entry, notes)


def _rig(entry: Entry, notes: Notes) -> Entry:
    made = _draft("rig_line", "rig", notes)
    if not isinstance(made, RigLine):
        return entry
    name = rig_name(made.name, notes)
    like = rig_name(made.like, notes).text if made.like else ""
    return replace(entry, name=name.text, name_start=name.start, name_end=name.end, like=like)


def _waive(entry: Entry, notes: Notes) -> Entry:
    made = _draft("waive_line", "waive", notes)
    if not isinstance(made, WaiveLine):
        return entry
    word = made.subject
    if word.text.casefold() not in SUBJECTS:
        says = f"one of: {', '.join(SUBJECTS)}"
        notes.add("unknown-word", word.start, word.end, says, nearest(word.text, SUBJECTS))
    subject = notes.line.typed[word.start : notes.line.end]
    return replace(entry, name=made.rule.text, name_start=made.rule.start, name_end=made.rule.end, subject=subject)
