"""One indented line: its field word from the registry, its value from the grammar, its slips.

A pure function of the entry's kind, the part's kind and the line, so equal lines are read once.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any, NamedTuple

from kitproof.reading import slots, values, wanted
from kitproof.reading.alike import draft
from kitproof.reading.characters import LONGEST_LINE, PlainLine, fold, plain
from kitproof.reading.document import Field, Slip, Value
from kitproof.reading.drafts import UnreadableError
from kitproof.reading.notes import Notes
from kitproof.reading.numerals import misread
from kitproof.words.kinds import KINDS, FieldWord, fields_of
from kitproof.words.nearest import nearest
from kitproof.words.shapes import Shape

_CACHED_LENGTH = 400
_ORDER_LINE = FieldWord("line", Shape.ORDERED, None, "how many of what is ordered", repeats=True)
_WHOLE = {wanted.of_field(FieldWord("", shape, None, "")) for shape in (Shape.DATE, Shape.DATES)}
_CLAUSE_WORD = re.compile(r"(?ai:at|on|or|and|for|by|spare|only|legs|hung|none|case|like|x)(?![\w-])")
_WORDS = re.compile(r"[^\W\d_][\w'-]*")

_READERS: dict[Shape, Callable[[Any, FieldWord, Notes], Value | None]] = {
    Shape.QUANTITY: values.read_quantity_field,
    Shape.REACH: values.read_reach,
    Shape.TRAVEL: values.read_travel,
    Shape.PLACE: values.read_place,
    Shape.SIZE: values.read_size,
    Shape.POINTS: values.read_points,
    Shape.INTERFACE: values.read_interface,
    Shape.PORT: values.read_interface,
    Shape.AXIS: values.read_axis,
    Shape.STEPS: values.read_steps,
    Shape.DRAW: values.read_draw,
    Shape.WEIGHED: values.read_weighed,
    Shape.PHRASES: values.read_phrases,
    Shape.FLAG: values.read_flag,
    Shape.NAME: values.read_name,
    Shape.COUNTED: values.read_counted,
    Shape.TEXT: values.read_text,
    Shape.COUNT: values.read_count,
    Shape.DATE: values.read_date,
    Shape.DATES: values.read_dates,
    Shape.UNIT_NAMES: values.read_unit_names,
    Shape.TAG: values.read_tag,
    Shape.SLOT: slots.read_slot,
    Shape.OR_SLOT: slots.read_slot,
    Shape.ALSO: slots.read_also,
    Shape.WITHOUT: slots.read_without,
    Shape.RIG_NAME: values.read_rig_name,
    Shape.ORDERED: slots.read_ordered,
    Shape.HELD: slots.read_held,
    Shape.LIFT: slots.read_lift,
}


class Line(NamedTuple):
    """What one indented line reads as, in row 0. `field` is None where not even its word is known."""

    field: Field | None
    slips: tuple[Slip, ...]


class Vocabulary(NamedTuple):
    """The field words of one kind of entry or part, and the pattern that finds the longest of them."""

    fields: dict[str, FieldWord]
    pattern: re.Pattern[str]


def read_line(entry: str, part_kind: str, text: str) -> Line:
    """What an indented line of an entry reads as. Blank lines are not for it."""
    return _remembered(entry, part_kind, text) if len(text) <= _CACHED_LENGTH else _read_line(entry, part_kind, text)


def closed_lines(text: str) -> Notes | None:
    """Notes for a line that must not be read at all: too long, or with a character that no line may have."""
    return _closed(PlainLine(text, text, 0) if len(text) > LONGEST_LINE else plain(text))


def _closed(line: PlainLine) -> Notes | None:
    text = line.typed
    if len(text) > LONGEST_LINE:
        notes = Notes(line)
        notes.add("unreadable-line", 0, len(text), f"lines of at most {LONGEST_LINE} characters")
        long = notes.slips[0]
        notes.slips[0] = Slip(long.kind, 0, 0, len(text), text[:40] + "…", long.wanted)
        return notes
    if line.forbidden is None:
        return None
    notes = Notes(line)
    notes.add("unreadable-line", line.forbidden, line.forbidden + 1, "a line without control characters")
    return notes


def _read_line(entry: str, part_kind: str, text: str) -> Line:
    line = plain(text) if len(text) <= LONGEST_LINE else PlainLine(text, text, 0)
    closed = _closed(line)
    if closed is not None:
        return Line(None, tuple(closed.slips))
    words = vocabulary(entry, part_kind)
    match = words.pattern.match(line.text, line.start)
    if match is not None:
        return _read_value(line, words.fields[key_of(match[0])], match.end(), words)
    if entry == "order" and line.text[line.start] in '"0123456789':
        return _read_value(line, _ORDER_LINE, line.start, words)
    return Line(None, (_unknown(line, words, entry, part_kind),))


_remembered = lru_cache(maxsize=65536)(_read_line)


def key_of(text: str) -> str:
    """A field word as the vocabulary keys it: any capitals, spaces or hyphens between its words."""
    return fold(text.replace("-", " "))


def pattern_of(word: str) -> str:
    """The pattern of a word or two, with spaces or a hyphen between them."""
    return "(?: +|-)".join(re.escape(each) for each in re.split("[ -]", word))


@lru_cache(maxsize=256)
def vocabulary(entry: str, part_kind: str) -> Vocabulary:
    """The words of an entry; for a part of a kind that is not known, those of every kind, so that none is refused."""
    fields = dict(fields_of(entry, part_kind))
    if entry == "part" and part_kind not in KINDS:
        for kind in KINDS.values():
            fields = {each.word: each for each in kind.fields} | fields
    keyed = {key_of(word): field for word, field in fields.items()}
    by_length = sorted(keyed, key=len, reverse=True)
    choices = "|".join(pattern_of(word) for word in by_length)
    return Vocabulary(keyed, re.compile(rf"(?ai:{choices})(?![\w-])" if keyed else "(?!)"))


def _unknown(line: PlainLine, words: Vocabulary, entry: str, part_kind: str) -> Slip:
    """The slip of a line whose word is not one of the entry's, with the nearest ones."""
    said = [match for _, match in zip(range(3), _WORDS.finditer(line.text, line.start), strict=False)]
    known = [field.word for field in words.fields.values()]
    of = with_article(part_kind or entry if entry == "part" else entry)
    says = f"a word that {of} has, such as {', '.join(known[:3])}" if known else f"nothing: {of} has no lines below it"
    other = vocabulary("part", "").pattern.match(line.text, line.start) if entry == "part" else None
    notes = Notes(line)
    if not said or said[0].start() != line.start:
        notes.add("unreadable-line", line.start, line.end, says)
        return notes.slips[0]
    if other is not None:
        owner = next(kind.word for kind in KINDS.values() if key_of(other[0]) in vocabulary("part", kind.word).fields)
        says = f"a word that {of} has: “{fold(other[0])}” is one that {with_article(owner)} has"
        notes.add("unknown-word", line.start, other.end(), says, nearest(fold(other[0]), known))
        return notes.slips[0]
    first = said[0]
    best = (nearest(first[0], known), first.end())
    for last in said[1:]:
        run = line.text[first.start() : last.end()]
        if re.fullmatch(r"[\w' -]+", run) and (near := nearest(run, known)) and not best[0]:
            best = (near, last.end())
    notes.add("unknown-word", line.start, best[1], says, best[0])
    return notes.slips[0]


def with_article(word: str) -> str:
    return f"an {word}" if word[0] in "aeio" else f"a {word}"


def _longer_word(line: PlainLine, field: FieldWord, words: Vocabulary) -> Slip | None:
    """The slip for a longer word that was nearly written: `tilt axes` where `tilt` is a word too."""
    run = re.compile(re.escape(field.word) + r" +[^\W\d_][\w-]*", re.IGNORECASE).match(line.text, line.start)
    longer = [each.word for each in words.fields.values() if each.word.startswith(field.word + " ")]
    near = nearest(run[0], longer) if run else ()
    if run is None or not near:
        return None
    notes = Notes(line)
    notes.add("unknown-word", line.start, run.end(), f"a word that is known here, such as {near[0]}", near)
    return notes.slips[0]


def _read_value(line: PlainLine, field: FieldWord, word_end: int, words: Vocabulary) -> Line:
    start = min(word_end + len(line.text[word_end:]) - len(line.text[word_end:].lstrip()), line.end)
    notes = Notes(line, "" if field is _ORDER_LINE else field.word, start)
    value = _value(field, notes)
    if value is None and notes.slips[0].kind == "unreadable-line" and notes.slips[0].start == start:
        longer = _longer_word(line, field, words)
        if longer is not None:
            return Line(None, (longer,))
    read = Field(field.word, field.shape, value, 0, line.start, line.end, start, line.end)
    return Line(read, tuple(notes.slips))


def _value(field: FieldWord, notes: Notes) -> Value | None:
    if misread(field.shape, notes):
        return None
    try:
        made = draft(field.shape.value, notes.line.text, notes.value_start, notes.line.end)
    except UnreadableError as trouble:
        unreadable(trouble.at, wanted.of_field(field), notes)
        return None
    return _READERS[field.shape](made, field, notes)


def unreadable(at: int | None, says: str, notes: Notes) -> None:
    """Notes where a value stops making sense: an open quote, a name without quotes, else the word that stands there."""
    line, start = notes.line, notes.value_start
    text = line.text
    quote = _open_quote(line, start)
    if quote is not None:
        notes.add("unreadable-line", quote, line.end, wanted.CLOSING_QUOTE)
        return
    if at is None or at >= line.end or (at == start and says in _WHOLE):
        begin = start if start < line.end else line.start
        notes.add("unreadable-line", begin, line.end, says)
        return
    while at < line.end and text[at] == " ":
        at += 1
    stop = at + 1
    while stop < line.end and text[stop] not in ' ,"' and text[at] not in ',"':
        stop += 1
    if text[at] == '"':
        stop = text.find('"', at + 1) + 1
    if text[start:at].rstrip().endswith('"') and text[at] != ",":
        notes.add("unreadable-line", at, stop, f"a comma before “{line.typed[at:stop]}”, and a clause that is known")
        return
    bare = _bare_name(text, at, line.end) if '"' in says else None
    if bare is not None:
        name = line.typed[at:bare]
        notes.add("unreadable-line", at, bare, wanted.QUOTED_NAME, (), f'"{name}"')
        return
    notes.add("unreadable-line", at, stop, says)


def _open_quote(line: PlainLine, start: int) -> int | None:
    """The column of a quote that nothing closes: one that the line, made plain, did not blot out."""
    at = start
    while at < line.end:
        if line.text[at] == '"':
            close = line.text.find('"', at + 1)
            if close < 0 or set(line.text[at + 1 : close]) - {"_"}:
                return at
            at = close + 1
        elif line.text[at] == "'" and not line.text[at - 1 : at].isalnum():
            return at
        else:
            at += 1
    return None


def _bare_name(text: str, at: int, end: int) -> int | None:
    """The end of a name that stands without quotes at `at`: up to the next comma or `or`. None where it is none."""
    if not text[at].isalpha() or _CLAUSE_WORD.match(text, at):
        return None
    match = re.compile(r"[^,\"]*?(?= *(?:,| or | like |$))").match(text, at, end)
    return match.end() if match and match.end() > at else None
